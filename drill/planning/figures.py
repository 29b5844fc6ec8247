"""The two figures as they are shown: only with enough answers, and smoothed.

*Held today* is shown from 20 answers, *on the day* from 40; before that there is no figure and no
range, only marks earned of marks asked. The forecast for the day changes with every sitting by
more than the learner does, so the figure shown is the mean of the last one shown and the new
one. The smoothing starts again when the minutes or the exam change.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import TYPE_CHECKING

from drill.planning.plan_values import Forecast

if TYPE_CHECKING:
    from drill.planning.planner import Planner

HELD_FROM, DAY_FROM = 20, 40
"""Answers from which each figure is shown."""
_TOLD_APART = 0.02
"""Minutes whose shares differ by less are not told apart."""
_MOVED = 0.01
"""The least change of a skill that is named as a reason, in parts of all marks."""
_NAMED = 3


@dataclass(frozen=True)
class Share:
    """A share of marks 0..1, and the range that holds it in 80 of 100 cases."""

    share: float
    low: float
    high: float

    def moved(self, by: float) -> Share:
        """The same, higher by so much, within 0 and 1."""
        return Share(*(min(1.0, max(0.0, one + by)) for one in (self.share, self.low, self.high)))


@dataclass(frozen=True)
class SkillFigures:
    """One skill: what is held of it today, what on the day if practised as planned."""

    held: float
    on_the_day: float
    answers: int


@dataclass(frozen=True)
class Kept:
    """The figure on the day as it was last shown, to be handed in the next time.

    `answers`, `minutes`, `exam`: what it rested on; `base`, `base_answers`: the one shown before.
    """

    share: float
    answers: int
    base: float
    base_answers: int
    minutes: float
    exam: str


@dataclass(frozen=True)
class Change:
    """What moved the figure on the day since the sitting before, in shares of all marks.

    `anew`: "minutes" or "exam" when the figure started anew because these changed, else "".
    `by_answers`: what the answers since then did, `by_days` what the days did that went by, each
    None when that is not known. `up` and `down`: the skills that moved most, with how much.
    """

    before: float
    now: float
    answers: int
    anew: str = ""
    by_answers: float | None = None
    by_days: float | None = None
    up: tuple[tuple[str, float], ...] = ()
    down: tuple[tuple[str, float], ...] = ()


@dataclass(frozen=True)
class Figures:
    """Everything about how a learner stands that is a figure.

    `held`, `on_the_day`: None while there are too few answers. `by_minutes`: {minutes a day: share
    on the day}, never falling with the minutes; `told_apart` false: too little is known of this
    learner to say what more minutes bring, and no such rows should be shown. `kept`: for next time.
    """

    answers: int
    met: int
    skills: int
    held: Share | None
    on_the_day: Share | None
    per_skill: Mapping[str, SkillFigures]
    by_minutes: Mapping[float, Share] = field(default_factory=dict)
    told_apart: bool = True
    change: Change | None = None
    kept: Kept | None = None


def minutes_to_try(planner: Planner) -> float:
    """The minutes a day that a forecast for these figures should try.

    0 while there are too few answers for the day: trying practice on paper takes a while, and
    nothing of it would be shown.
    """
    return planner.minutes_per_day if planner.memory.answers() >= DAY_FROM else 0.0


def figures(
    planner: Planner,
    now: datetime,
    kept: Kept | None = None,
    minutes: Iterable[float] = (),
    before: Forecast | None = None,
    after: Forecast | None = None,
) -> Figures:
    """The figures at `now`.

    Args:
        kept: the `kept` of the figures last shown, None the first time.
        minutes: other minutes a day to tell of.
        before: the forecast for now as it was without the latest answers, to say what they did.
        after: the forecast for now with them, where it was made already.
    """
    raw = after or planner.forecast(now, minutes_to_try(planner))
    answers = planner.memory.answers()
    last = planner.memory.last
    told = {skill: int(last[skill].answers) if skill in last else 0 for skill in planner.skills}
    rows = {
        skill: SkillFigures(raw.held_per_skill[skill], share, told[skill])
        for skill, (share, _, _) in raw.per_skill.items()
    }
    held = Share(*raw.held) if answers >= HELD_FROM else None
    met = sum(1 for number in told.values() if number)
    if answers < DAY_FROM:
        return Figures(answers, met, len(told), held, None, rows)
    keep, anew = _smoothed(planner, raw.expected, answers, kept)
    by = keep.share - raw.expected
    shares = _by_minutes(planner, now, raw, minutes, by)
    return Figures(
        answers,
        met,
        len(told),
        held,
        shares[planner.minutes_per_day],
        rows,
        shares,
        _apart(shares),
        _change(kept, keep, anew, raw, before, planner) if kept else None,
        keep,
    )


def _smoothed(planner: Planner, share: float, answers: int, kept: Kept | None) -> tuple[Kept, str]:
    """The figure to show, and why it started anew."""
    minutes, exam = planner.minutes_per_day, planner.exam.isoformat() if planner.exam else ""
    anew = ""
    if kept is not None:
        anew = "minutes" if kept.minutes != minutes else "exam" if kept.exam != exam else ""
    if kept is None or anew:
        return Kept(share, answers, share, answers, minutes, exam), anew
    base, base_answers = kept.base, kept.base_answers
    if answers > kept.answers:
        base, base_answers = kept.share, kept.answers
    return Kept((share + base) / 2.0, answers, base, base_answers, minutes, exam), ""


def _by_minutes(
    planner: Planner, now: datetime, raw: Forecast, minutes: Iterable[float], by: float
) -> dict[float, Share]:
    shares: dict[float, Share] = {}
    most, own = 0.0, planner.minutes_per_day
    tried = planner.forecasts(now, {*minutes} - {own}) | {own: raw}
    for number, found in sorted(tried.items()):
        share = Share(found.expected, found.low, found.high).moved(by)
        shares[number] = share.moved(max(0.0, most - share.share))
        most = shares[number].share
    return shares


def _apart(shares: Mapping[float, Share]) -> bool:
    tried = [share.share for minutes, share in shares.items() if minutes > 0.0]
    return len(tried) < 2 or max(tried) - min(tried) >= _TOLD_APART


def _change(
    kept: Kept, keep: Kept, anew: str, raw: Forecast, before: Forecast | None, planner: Planner
) -> Change | None:
    if anew:
        return Change(kept.share, keep.share, max(0, keep.answers - kept.answers), anew)
    answers = keep.answers - keep.base_answers
    if before is None or not answers:
        return Change(keep.base, keep.share, answers) if answers else None
    by_answers = (raw.expected - before.expected) / 2.0
    up, down = _moved(raw, before, planner)
    by_days = keep.share - keep.base - by_answers
    return Change(keep.base, keep.share, answers, "", by_answers, by_days, up, down)


Moved = tuple[tuple[str, float], ...]


def _moved(raw: Forecast, before: Forecast, planner: Planner) -> tuple[Moved, Moved]:
    """The skills that rose and fell most, each by its part of all marks."""
    whole = sum(plan.marks for plan in planner.skills.values()) or 1.0
    moved = [
        (skill, planner.skills[skill].marks / whole * (share - before.per_skill[skill][0]))
        for skill, (share, _, _) in raw.per_skill.items()
        if skill in before.per_skill
    ]
    least = _MOVED / max(1.0, len(moved) / 10.0)
    told = sorted((one for one in moved if abs(one[1]) >= least), key=lambda one: one[1])
    up = [one for one in reversed(told) if one[1] > 0.0]
    down = [one for one in told if one[1] < 0.0]
    return tuple(up[:_NAMED]), tuple(down[:_NAMED])
