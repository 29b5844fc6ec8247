"""Which skills are weak: weaker than this learner's practice explains, and what is held least.

How able a learner is, how well practice works for them and how long ago it was explain most right
and wrong answers. The rest, for one skill, is the learner's own effect for that skill, and skills
are ranked by it: it finds planted weaknesses that ranking by marks still to win does not
(tests/bench/weakness.py). It does not show what was merely forgotten, so what is held least today
is a separate list.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from drill.memory import MISSED, Memory
from drill.planning.why_weak import RIGHT, Answer, Why, why_weak

TOLD_FROM = 2
"""Days on which a skill must have been missed before it is put to anybody as weak."""


@dataclass(frozen=True)
class WeakSkill:
    """One skill that was answered.

    `effect`: by how many logits it is easier to this learner than practice explains, `unsure` its
    standard deviation; `held`: the share held today; `right` and `missed` of `answers`;
    `missed_days`: on how many days.
    """

    skill: str
    effect: float
    unsure: float
    held: float
    answers: int
    right: int
    missed: int
    missed_days: int
    why: Why

    @property
    def stands_out(self) -> bool:
        """Whether enough was missed, on days enough, to speak of it."""
        return self.missed_days >= TOLD_FROM and self.effect < 0.0


def weak_skills(
    memory: Memory, answers: Mapping[str, Sequence[Answer]], now: datetime
) -> list[WeakSkill]:
    """Every skill answered, the weakest first.

    Args:
        memory: that these answers were told.
        answers: {skill: its answers, oldest first}.
    """
    rows = [_row(memory, skill, told, now) for skill, told in answers.items() if told]
    return sorted(rows, key=_order)


def items(rows: Sequence[WeakSkill], most: int = 3) -> list[WeakSkill]:
    """Those to speak of first; none when nothing stands out yet."""
    return [row for row in rows if row.stands_out][:most]


def held_least(rows: Sequence[WeakSkill], most: int = 3) -> list[WeakSkill]:
    """What is held least today, whatever the reason."""
    return sorted(rows, key=lambda row: (row.held, row.skill))[:most]


def strongest(rows: Sequence[WeakSkill], most: int = 3) -> list[WeakSkill]:
    """What was right on the last answers and is held best, the best first."""
    whole = [row for row in rows if row.answers >= TOLD_FROM and not row.missed]
    return sorted(whole, key=lambda row: (-row.held, row.skill))[:most]


def _row(memory: Memory, skill: str, told: Sequence[Answer], now: datetime) -> WeakSkill:
    mean, variance = memory.learner.skill(skill)
    missed = [answer for answer in told if answer.score < MISSED]
    return WeakSkill(
        skill=skill,
        effect=mean,
        unsure=variance**0.5,
        held=memory.held(skill, now),
        answers=len(told),
        right=sum(answer.score >= RIGHT for answer in told),
        missed=len(missed),
        missed_days=len({answer.when.date() for answer in missed}),
        why=why_weak(told),
    )


def _order(row: WeakSkill) -> tuple[int, float, str]:
    """Missed on two days before missed on one before never missed; then the weakest first."""
    return -min(row.missed_days, TOLD_FROM), row.effect, row.skill
