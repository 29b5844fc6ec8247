"""Variety in a sitting: no object twice, and no kind of question again and again.

Interleaved practice holds better than the same in a row (Rohrer, Dedrick, Hartwig & Cheung 2020,
Journal of Educational Psychology 112(1), 40-52), and three pictograms in ten questions are felt
as the same question.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from enum import IntEnum

from drill.planning.plan_values import SkillPlan

_IN_A_ROW, _OF_A_KIND = 10, 2
"""Of so many questions in a row at most so many of a kind."""


class Strictness(IntEnum):
    """How much of it is kept; the next lower one only when nothing is left to ask."""

    FREE = 0
    KINDS = 1
    OBJECTS = 2


class Evening:
    """What was asked so far in this sitting.

    Args:
        asked: (skill, template), the latest first.
    """

    def __init__(self, skills: Mapping[str, SkillPlan], asked: Sequence[tuple[str, str]]) -> None:
        self._skills = skills
        lately = asked[: _IN_A_ROW - 1]
        self._kinds = Counter(self._kind(skill) for skill, _ in lately)
        self._objects = {self._object(skill, template) for skill, template in asked} - {""}

    def bars(self, skill: str, strict: Strictness) -> bool:
        """Whether enough of the skill's kind was asked."""
        return strict >= Strictness.KINDS and self._kinds[self._kind(skill)] >= _OF_A_KIND

    def barred(self, skill: str, strict: Strictness) -> frozenset[str]:
        """The templates of the skill that are about something asked about already."""
        if strict < Strictness.OBJECTS or not self._objects:
            return frozenset()
        objects = self._skills[skill].objects
        return frozenset(name for name, what in objects.items() if what in self._objects)

    def _kind(self, skill: str) -> str:
        plan = self._skills.get(skill)
        return (plan.kind if plan else "") or skill

    def _object(self, skill: str, template: str) -> str:
        plan = self._skills.get(skill)
        return plan.objects.get(template, "") if plan else ""
