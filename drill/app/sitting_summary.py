"""What a sitting brought: marks by skill, what changed for exam day, when to come back."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING

from drill.app.narrowing import is_narrowed
from drill.app.nothing_to_ask import next_day
from drill.app.weakness.part_answers import marks_so_far

if TYPE_CHECKING:
    from drill.planning.figures import Figures, Share
    from drill.sitting import Sitting

_GAINED = 0.01
"""More than rounding: a skill is held better when its share rose by so much."""


@dataclass(frozen=True)
class SkillResult:
    """Marks of one skill in this sitting, and how the skill stands now."""

    name: str
    marks: int
    of: int
    state: str


@dataclass(frozen=True)
class Change:
    """What moved the figure on the day since the sitting before; `anew`: see `planning.figures`."""

    moved: float
    anew: str
    up: tuple[str, ...]
    down: tuple[str, ...]


@dataclass(frozen=True)
class Standing:
    """How the learner stands after the sitting, and what it brought.

    `held` and `on_the_day` are None while there are too few answers; `marks` of `of` are all there
    ever were. `first_met`: skills answered for the first time; `gained`: those that
    earned marks in this sitting and are held better than before it; `about`: the one thing that the
    figures are of, "" for the whole deck; `exam` is None without a date.
    """

    marks: int
    of: int
    met: int
    skills: int
    exam: str | None
    held: Share | None
    on_the_day: Share | None
    first_met: tuple[str, ...]
    gained: tuple[str, ...]
    change: Change | None
    about: str = ""


@dataclass(frozen=True)
class SittingSummary:
    """A sitting at its end; `standing` is None when nothing was answered.

    `own` of `own_of` marks were decided by the learner and count in no other figure.
    """

    left_out: int
    questions: int
    marks: int
    of: int
    minutes: int
    own: int
    own_of: int
    skills: tuple[SkillResult, ...]
    standing: Standing | None
    next_day: datetime | None


def summary(sitting: Sitting, now: datetime) -> SittingSummary:
    """The figures of a sitting that has just ended."""
    marks, of = sitting.marks()
    own, own_of = sitting.own_marks()
    return SittingSummary(
        left_out=len(sitting.left_out),
        questions=len(sitting.done),
        marks=marks,
        of=of,
        minutes=max(1, round(sitting.seconds() / 60)),
        own=own,
        own_of=own_of,
        skills=_by_skill(sitting, now) if sitting.done else (),
        standing=_standing(sitting, now) if sitting.done else None,
        next_day=next_day(sitting.planner, now),
    )


def _earned(sitting: Sitting) -> dict[str, list[int]]:
    """The marks of each skill of this sitting, earned and asked."""
    earned: dict[str, list[int]] = {}
    for asked in sitting.done:
        for part in asked.question.parts:
            shares = asked.shares(part.id) if part.id in asked.marks else None
            if shares is not None and shares.of:
                total = earned.setdefault(part.skill, [0, 0])
                total[0] += shares.marks
                total[1] += shares.of
    return earned


def _by_skill(sitting: Sitting, now: datetime) -> tuple[SkillResult, ...]:
    says, states = sitting.bank.skills(), sitting.states(now)
    return tuple(
        SkillResult(says[skill].says if skill in says else skill, got, of, states.get(skill, ""))
        for skill, (got, of) in sorted(_earned(sitting).items())
    )


def _standing(sitting: Sitting, now: datetime) -> Standing:
    planner, figures = sitting.planner, sitting.figures(now)
    before, after = sitting.forecasts(now)
    askings = sitting.store.askings(sitting.learner)
    marks, of = marks_so_far(askings)
    held = before.held_per_skill
    gained = [
        skill
        for skill, (marks_earned, _) in sorted(_earned(sitting).items())
        if marks_earned and after.held_per_skill.get(skill, 0.0) > held.get(skill, 1.0) + _GAINED
    ]
    return Standing(
        marks=marks,
        of=of,
        met=figures.met,
        skills=figures.skills,
        exam=planner.exam.date().isoformat() if planner.exam else None,
        held=figures.held,
        on_the_day=figures.on_the_day,
        first_met=tuple(_named(sitting, _first_met(sitting))),
        gained=tuple(_named(sitting, gained)),
        change=_change(sitting, figures) if figures.change else None,
        about=sitting.deck.title if is_narrowed(sitting.deck) else "",
    )


def _first_met(sitting: Sitting) -> list[str]:
    """The skills whose every answer was given in this sitting; worked answers seen are none."""
    asked = _asked(sitting)
    last = sitting.planner.memory.last
    return sorted(
        skill
        for skill, times in asked.items()
        if skill in last and 0 < last[skill].answers <= times
    )


def _asked(sitting: Sitting) -> Counter[str]:
    """The skills of this sitting, each with the number of its questions."""
    return Counter(
        skill for one in sitting.done for skill in {part.skill for part in one.question.parts}
    )


def _change(sitting: Sitting, figures: Figures) -> Change:
    change = figures.change
    assert change is not None
    return Change(
        moved=change.now - change.before,
        anew=change.anew,
        up=tuple(_named(sitting, (skill for skill, _ in change.up))),
        down=tuple(_named(sitting, (skill for skill, _ in change.down))),
    )


def _named(sitting: Sitting, skills: Iterable[str]) -> Iterator[str]:
    says = sitting.bank.skills()
    return (says[skill].says if skill in says else skill for skill in skills)
