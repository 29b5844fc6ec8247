"""What a sitting brought: marks by skill, what changed for exam day, when to come back."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING

from drill.app.nothing_to_ask import next_day

if TYPE_CHECKING:
    from drill.sitting import Sitting


@dataclass(frozen=True)
class SkillResult:
    """Marks of one skill in this sitting, and how the skill stands now."""

    name: str
    marks: int
    of: int
    state: str


@dataclass(frozen=True)
class Outlook:
    """The share of marks to expect on the day: thought before, thought now, and its range.

    `answers` are all that it rests on; `exam` tells whether there is an exam date.
    """

    before: float
    expected: float
    low: float
    high: float
    answers: int
    exam: bool


@dataclass(frozen=True)
class SittingSummary:
    """A sitting at its end; `outlook` is None when nothing was answered.

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
    outlook: Outlook | None
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
        outlook=_outlook(sitting, now) if sitting.done else None,
        next_day=next_day(sitting.planner, now),
    )


def _by_skill(sitting: Sitting, now: datetime) -> tuple[SkillResult, ...]:
    earned: dict[str, list[int]] = {}
    for asked in sitting.done:
        for part in asked.question.parts:
            shares = asked.shares(part.id) if part.id in asked.marks else None
            if shares is not None and shares.of:
                total = earned.setdefault(part.skill, [0, 0])
                total[0] += shares.marks
                total[1] += shares.of
    says, states = sitting.bank.skills(), sitting.states(now)
    return tuple(
        SkillResult(says[skill].says if skill in says else skill, got, of, states.get(skill, ""))
        for skill, (got, of) in sorted(earned.items())
    )


def _outlook(sitting: Sitting, now: datetime) -> Outlook:
    before, after = sitting.forecasts(now)
    return Outlook(
        before=before.expected,
        expected=after.expected,
        low=after.low,
        high=after.high,
        answers=sitting.planner.memory.answers(),
        exam=sitting.planner.exam is not None,
    )
