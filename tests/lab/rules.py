"""Policies that predict recall and follow one rule, most of them published."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime, timedelta
from random import Random

from drill.memory import ExpectedGain, Memory
from drill.planning import SkillPlan, lessons
from tests.lab.habits import Habit

THRESHOLD = 0.1
"""Tuned on seeds 9001 to 9003 of all learners and scenarios, 0.1 to 0.9 in steps of 0.1."""
WEEKS_BACK = 8.0
"""Tuned likewise, from a quarter of a week to 8 weeks."""


class Predicting(Habit):
    """A habit with a memory: `held` is the share to expect now."""

    def __init__(
        self, skills: Mapping[str, SkillPlan], exam: datetime, minutes_per_day: float
    ) -> None:
        super().__init__(skills, exam, minutes_per_day)
        self.memory = Memory(lessons=lessons(skills))
        self._held: dict[str, float] = {}
        self._day: object = None

    def held(self, skill: str, now: datetime) -> float:
        """The share to expect now, worked out once a day and after each answer."""
        if self._day != now.date():
            self._held, self._day = {}, now.date()
        if skill not in self._held:
            self._held[skill] = self.memory.chance(skill, None, now)
        return self._held[skill]

    def record(
        self, skill: str, template: str, when: datetime, score: float, seconds: float
    ) -> None:
        super().record(skill, template, when, score, seconds)
        self.memory.observe(skill, template, when, score)
        self._held.pop(skill, None)

    def rested(self, playing: list[str], now: datetime) -> list[str]:
        """Those not asked today, or all when every skill was."""
        fresh = [s for s in playing if s not in self.last or self.last[s].date() < now.date()]
        return fresh or playing


class LowestFirst(Predicting):
    """What is known worst comes first."""

    def pick(self, playing: list[str], now: datetime) -> str | None:
        return min(self.rested(playing, now), key=lambda skill: self.held(skill, now))


class Threshold(Predicting):
    """Skills not asked yet, in their order; then what is nearest to a set share.

    Khajah, Lindsey & Mozer (2014), Topics in Cognitive Science 6(1), 157-169.
    """

    def pick(self, playing: list[str], now: datetime) -> str | None:
        def off(skill: str) -> float:
            return abs(self.held(skill, now) - THRESHOLD) if self.count[skill] else 0.0

        return min(self.rested(playing, now), key=off)


class WeeksBack(Predicting):
    """What was last worked on just over some weeks ago, else what waits longest; ibid."""

    def pick(self, playing: list[str], now: datetime) -> str | None:
        back = timedelta(weeks=WEEKS_BACK)

        def waited(skill: str) -> timedelta:
            taught = self.skills[skill].taught_from or self.begun or now
            return now - self.last.get(skill, taught)

        ripe = [skill for skill in playing if waited(skill) >= back]
        if ripe:
            return min(ripe, key=lambda skill: (waited(skill), self.count[skill]))
        return max(playing, key=waited)


class Unlikely(Predicting):
    """By lot, the more often the less is held.

    Tabibian et al. (2019), PNAS 116(10), 3988-3993: the rate of practice is to follow 1 - p.
    """

    def __init__(
        self, skills: Mapping[str, SkillPlan], exam: datetime, minutes_per_day: float
    ) -> None:
        super().__init__(skills, exam, minutes_per_day)
        self.rng = Random("one minus p")

    def pick(self, playing: list[str], now: datetime) -> str | None:
        weights = [1.0 - self.held(skill, now) + 1e-6 for skill in playing]
        return self.rng.choices(playing, weights)[0]


class PublishedGap(Predicting):
    """A skill waits for the best published share of the time left to the exam.

    Cepeda et al. (2008), Psychological Science 19(11), 1095-1102, abstract: 20-40 % of a delay of
    a week, 5-10 % of a delay of a year. Between those the share falls as a power of the delay.
    """

    def pick(self, playing: list[str], now: datetime) -> str | None:
        left = max(1.0, (self.exam - now) / timedelta(days=1))
        gap = timedelta(days=left * 0.3 * (left / 7.0) ** -0.35)

        def waited(skill: str) -> float:
            taught = self.skills[skill].taught_from or self.begun or now
            return min(1.0, (now - self.last.get(skill, taught - gap)) / gap)

        return max(playing, key=lambda skill: (waited(skill), -self.count[skill]))


class Greedy(Predicting):
    """The largest rise of exam-day marks per second by an asking now, nothing later foreseen.

    After Pavlik & Anderson (2008), Journal of Experimental Psychology: Applied 14(2), 101-117.
    """

    def __init__(
        self, skills: Mapping[str, SkillPlan], exam: datetime, minutes_per_day: float
    ) -> None:
        super().__init__(skills, exam, minutes_per_day)
        self._gains: dict[str, float] = {}
        self._gains_day: object = None

    def pick(self, playing: list[str], now: datetime) -> str | None:
        if self._gains_day != now.date():
            self._gains, self._gains_day = {}, now.date()
        for skill in playing:
            if skill not in self._gains:
                self._gains[skill] = self._gain(skill, now)
        best = max(playing, key=lambda skill: self._gains[skill])
        return best if self._gains[best] > 0.0 else None

    def _gain(self, skill: str, now: datetime) -> float:
        outlook, exam = ExpectedGain(self.memory, skill), self.exam.timestamp()
        rise = outlook.share((now.timestamp(),), exam) - outlook.share((), exam)
        return rise * self.skills[skill].marks / self.skills[skill].seconds

    def record(
        self, skill: str, template: str, when: datetime, score: float, seconds: float
    ) -> None:
        super().record(skill, template, when, score, seconds)
        self._gains.pop(skill, None)
