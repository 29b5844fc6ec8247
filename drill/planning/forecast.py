"""What exam day is likely to bring, with a range that owns up to what is not known.

The range is for one drawn paper of about 60 marks on templates never asked. It adds up

    the paper    which questions are drawn, and how their marks fall
    the learner  how able, and how well practice and rest work on this one
    the model    the two opinions of memory, and what neither knows

Only the first averages out over many questions. How much each of the others counts was fitted on
simulated learners of six families, so that 8 papers in 10 fall inside; tests/bench/ranges.py
measures it on others. The share itself is memory's, corrected by how earlier expectations of this
learner turned out (`drill/memory/hindsight.py`).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import sqrt
from typing import NamedTuple

from drill.memory import Memory, Outlook
from drill.memory.belief import sigmoid
from drill.memory.hindsight import AGAIN, Hindsight, logit_of
from drill.planning.lookahead import Stake, Tried, counts_for, curve, hull, planned
from drill.planning.plan import Forecast

PAPER_MARKS = 60.0
_EIGHTY = 1.2816
"""Standard deviations either side that hold 80 % of a normal distribution."""
_UNKNOWN, _FROM_PRACTICE, _FROM_REST, _FROM_ABILITY, _FROM_OPINIONS = 0.03, 0.25, 0.1, 0.25, 0.3
"""Standard deviations: of any share; then per share that practice is to bring, per share that is
to be forgotten, per share that the unsure ability moves, per share the opinions are apart."""
_FROM_HINDSIGHT = 0.65
"""Standard deviations per share that the unsure corrections of hindsight move."""
_TAKEN_BACK = 0.3
"""The part of a learner's believed ability that nothing is built on before practice has told."""
_PRACTISED = 0.01
"""A skill whose share is planned to rise by more than this will have been practised by the exam."""
_STRONG = 0.1
"""Opinions further apart than this are said to disagree."""


class _Corrected(NamedTuple):
    """An outlook as hindsight corrects it: by how earlier expectations of this learner turned out.

    Never practised, and practised before or by then, are corrected apart.
    """

    outlook: Outlook
    memory: Memory
    begun: bool

    def share(self, times: Sequence[float], exam: float) -> float:
        """The expected share at `exam` after further askings at `times`."""
        outlook = self.outlook
        known = 0.5 * (outlook.first(times, exam) + outlook.second(times, exam))
        more = _correction(self.memory, self.begun or bool(times))
        return outlook.floor + (1.0 - outlook.floor) * sigmoid(logit_of(known) + more)


def _correction(memory: Memory, practised: bool) -> float:
    """What hindsight adds to the logit.

    What was known or not before any practice says only so much about what practice will bring:
    until answers after practice tell, a part of the believed ability is taken back.
    """
    mean, variance = memory.hindsight.of(practised)
    if not practised:
        return mean
    able = 0.5 * (memory.belief.person[0] + memory.second_belief.person[0])
    return mean - _TAKEN_BACK * able * variance / AGAIN.variance


class _View(NamedTuple):
    """One skill: its part of all marks, and shares now, without and with further practice."""

    part: float
    marks: float
    now: float
    untouched: float
    expected: float
    apart: float
    practised: bool
    skill_variance: float

    @property
    def slope(self) -> float:
        """How fast the expected share moves with its logit."""
        return self.expected * (1.0 - self.expected)

    @property
    def alone(self) -> float:
        """The variance of the share by itself, apart from what skills have in common."""
        return self.slope**2 * self.skill_variance

    @property
    def falls(self) -> float:
        """The variance of one question's share of marks about its expected share."""
        return self.slope * (1.0 + 2.0 / max(1.0, self.marks)) / 3.0


def forecast(
    memory: Memory, stakes: Mapping[str, Stake], now: float, minutes_per_day: float
) -> Forecast:
    """The forecast for all skills when their minutes go where they bring most."""
    if not stakes:
        return Forecast(0.0, 0.0, 0.0, {})
    views = _views(memory, stakes, now, minutes_per_day)
    ahead = [views[skill] for skill, stake in stakes.items() if stake.exam > now]
    paper = ahead or list(views.values())
    expected, apart = _mean(paper, "expected"), abs(_mean(paper, "apart"))
    _, low, high = _range(expected, sqrt(_common(memory, paper) + _paper(paper)))
    per_skill = {
        skill: _range(view.expected, sqrt(_common(memory, [view]) + view.alone))
        for skill, view in views.items()
    }
    return Forecast(expected, low, high, per_skill, apart, _doubt(apart))


def _views(
    memory: Memory, stakes: Mapping[str, Stake], now: float, minutes: float
) -> dict[str, _View]:
    outlooks = {
        skill: _Corrected(Outlook(memory, skill), memory, skill in memory.tracks.skills)
        for skill in stakes
    }
    expected = _shares(outlooks, stakes, now, minutes)
    total = sum(stake.marks for stake in stakes.values()) or 1.0
    views = {}
    for skill, stake in stakes.items():
        corrected, outlook = outlooks[skill], outlooks[skill].outlook
        untouched = corrected.share((), stake.exam)
        views[skill] = _View(
            part=stake.marks / total,
            marks=stake.marks,
            now=corrected.share((), now),
            untouched=untouched,
            expected=expected[skill],
            apart=outlook.first((), stake.exam) - outlook.second((), stake.exam),
            practised=corrected.begun or expected[skill] > untouched + _PRACTISED,
            skill_variance=outlook.variance - memory.belief.person[1],
        )
    return views


def _shares(
    outlooks: Mapping[str, Tried], stakes: Mapping[str, Stake], now: float, minutes: float
) -> dict[str, float]:
    seconds_until = {
        stake.exam: max(0.0, stake.exam - now) / 86400.0 * minutes * 60.0
        for stake in stakes.values()
    }
    hulls = {}
    for skill, stake in stakes.items():
        counts = counts_for(len(stakes), seconds_until[stake.exam] / stake.seconds)
        hulls[skill] = hull(curve(outlooks[skill], stake, counts))
    return planned(stakes, hulls, seconds_until)


def _mean(views: list[_View], name: str) -> float:
    """The mean of one of the views' numbers, each by its part of the marks."""
    whole = sum(view.part for view in views) or 1.0
    return sum(view.part * float(getattr(view, name)) for view in views) / whole


def _common(memory: Memory, views: list[_View]) -> float:
    """The variance that all these skills share: it does not average out over a paper."""
    untouched = _mean(views, "untouched")
    moved = (
        (_UNKNOWN, 1.0),
        (_FROM_PRACTICE, _mean(views, "expected") - untouched),
        (_FROM_REST, _mean(views, "now") - untouched),
        (_FROM_ABILITY, _mean(views, "slope") * sqrt(memory.belief.person[1])),
        (_FROM_OPINIONS, _mean(views, "apart")),
        (_FROM_HINDSIGHT, _unsure(memory.hindsight, views, practised=True)),
        (_FROM_HINDSIGHT, _unsure(memory.hindsight, views, practised=False)),
    )
    return sum((much * share) ** 2 for much, share in moved)


def _unsure(hindsight: Hindsight, views: list[_View], practised: bool) -> float:
    """How far the share moves with one standard deviation of a correction."""
    whole = sum(view.part for view in views) or 1.0
    slope = sum(view.part * view.slope for view in views if view.practised is practised) / whole
    return slope * sqrt(hindsight.of(practised).variance)


def _paper(views: list[_View]) -> float:
    """The variance of one drawn paper about the learner's share over all that could be asked.

    Marks of one question hang together: a third of them falls alike.
    """
    mean = _mean(views, "expected")
    questions = max(1.0, PAPER_MARKS / max(1.0, _mean(views, "marks")))
    whole = sum(view.part for view in views) or 1.0
    between = sum(view.part * (view.expected - mean) ** 2 for view in views) / whole
    drawn = between * max(0.0, 1.0 - questions / len(views))
    return (drawn + _mean(views, "falls")) / questions + _mean(views, "alone") / min(
        questions, len(views)
    )


def _range(share: float, spread: float) -> tuple[float, float, float]:
    away = _EIGHTY * spread
    return share, max(0.0, share - away), min(1.0, share + away)


def _doubt(apart: float) -> str:
    if apart <= _STRONG:
        return ""
    return (
        f"Two ways of judging what lasts differ by {100 * apart:.0f} % of the marks, "
        "so the range is wide."
    )
