"""Policies that predict nothing: what learners and books do."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime, timedelta
from random import Random

from drill.planning import Choice, SkillPlan

_CRAM_SHARE = 0.3
"""The part of the time, at its end, in which a crammer works."""


class Habit:
    """What they share: the skills taught so far, and templates taken in turn."""

    def __init__(
        self, skills: Mapping[str, SkillPlan], exam: datetime, minutes_per_day: float
    ) -> None:
        self.skills, self.exam, self.minutes_per_day = dict(skills), exam, minutes_per_day
        self.count: dict[str, int] = dict.fromkeys(skills, 0)
        self.last: dict[str, datetime] = {}
        self.begun: datetime | None = None

    def choose(self, now: datetime) -> Choice | None:
        """The next question; None when nothing is taught or wanted."""
        self.begun = self.begun or now
        playing = [
            name for name, p in self.skills.items() if not p.taught_from or p.taught_from <= now
        ]
        skill = self.pick(playing, now) if playing else None
        return self._choice(skill) if skill is not None else None

    def _choice(self, skill: str) -> Choice:
        templates = list(self.skills[skill].templates)
        return Choice(skill, templates[self.count[skill] % len(templates)])

    def pick(self, playing: list[str], now: datetime) -> str | None:
        """The skill to ask, out of those taught."""
        raise NotImplementedError

    def record(
        self, skill: str, template: str, when: datetime, score: float, seconds: float
    ) -> None:
        """An answer."""
        self.count[skill] += 1
        self.last[skill] = when

    def expose(self, skill: str, template: str, when: datetime) -> None:
        """A worked answer; no habit asks for one."""

    def each(self) -> int:
        """How many questions of every skill the whole time allows, at least 1."""
        assert self.begun is not None
        minutes = ((self.exam - self.begun) / timedelta(days=1)) * self.minutes_per_day
        around = sum(plan.seconds for plan in self.skills.values()) / 60.0
        return max(1, round(minutes / around))


class Nothing(Habit):
    """No practice at all: where every gain is counted from."""

    def pick(self, playing: list[str], now: datetime) -> str | None:
        return None


class RandomOrder(Habit):
    """Any skill that was taught."""

    def __init__(
        self, skills: Mapping[str, SkillPlan], exam: datetime, minutes_per_day: float
    ) -> None:
        super().__init__(skills, exam, minutes_per_day)
        self.rng = Random("any order")

    def pick(self, playing: list[str], now: datetime) -> str | None:
        return self.rng.choice(playing)


class FixedOrder(Habit):
    """Once through a workbook: each skill gets all its questions in a row, then the next."""

    def pick(self, playing: list[str], now: datetime) -> str | None:
        each = self.each()
        return min(playing, key=lambda skill: self.count[skill] // each)


class BlockedCram(Habit):
    """Nothing until the last days, then one skill after the other, three questions each."""

    def pick(self, playing: list[str], now: datetime) -> str | None:
        assert self.begun is not None
        if (self.exam - now) > _CRAM_SHARE * (self.exam - self.begun):
            return None
        return min(playing, key=lambda skill: self.count[skill] // 3)


class EqualSpacing(Habit):
    """Every skill comes back at equal gaps from its lesson to the exam; no time is left unused."""

    def pick(self, playing: list[str], now: datetime) -> str | None:
        each = self.each() + 1

        def waited(skill: str) -> float:
            taught = self.skills[skill].taught_from
            start = max(taught, self.begun) if taught and self.begun else self.begun
            assert start is not None
            gap = (self.exam - start) / each
            return (now - self.last.get(skill, start)) / gap

        return max(playing, key=lambda skill: (waited(skill), -self.count[skill]))
