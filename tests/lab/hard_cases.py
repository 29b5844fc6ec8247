"""Learners whom a planner that trusts its belief gives up, and the plan with no rule around it.

never moves      answers change nothing
worked only      learns from worked answers alone
slow             each answer brings 4 in 100 of what is missing
rare             a family's learner who comes one day in five
five weak        a family's learner with five very weak skills
guesses          a family's learner whose guesses earn a quarter of the marks
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import datetime
from random import Random
from types import MappingProxyType

from drill.frozen import replace
from drill.planning import Choice, Planner
from drill.planning.mixing import Strictness
from drill.planning.next_question import NextQuestion
from tests.lab.learner import Learner, Simulated, seconds_of
from tests.lab.processes import FAMILIES, sigmoid
from tests.lab.scenarios import Scenario

_MARKS = 2
_FROM_SHOWN, _SLOW = 0.3, 0.04
_WEAK, _WEAKER = 5, 3.0


class Knowing:
    """Knows a part of each skill; answers and worked answers bring a share of what is missing."""

    def __init__(self, seed: int, answering: float, shown: float) -> None:
        rng = Random(f"hard case {seed}")
        self.seed, self.person = seed, rng.gauss(-0.5, 0.7)
        self.answering, self.shown = answering, shown
        self._known: dict[str, float] = {}

    def practise(
        self, skill: str, template: str, when: datetime, rng: Random
    ) -> tuple[float, float]:
        share = self._share(skill)
        score = sum(rng.random() < share for _ in range(_MARKS)) / _MARKS
        self._learn(skill, self.answering)
        return score, seconds_of(skill)

    def expose(self, skill: str, template: str, when: datetime) -> None:
        if not template.endswith("/lesson"):
            self._learn(skill, self.shown)

    def chance(self, skill: str, when: datetime) -> float:
        return self._share(skill)

    def _share(self, skill: str) -> float:
        if skill not in self._known:
            own = Random(f"hard case {self.seed} {skill}").gauss(0.0, 1.0)
            self._known[skill] = sigmoid(self.person + own)
        return 0.05 + 0.9 * self._known[skill]

    def _learn(self, skill: str, share: float) -> None:
        self._share(skill)
        self._known[skill] += share * (1.0 - self._known[skill])


def _family(seed: int) -> Simulated:
    return Simulated(sorted(FAMILIES)[seed % len(FAMILIES)], seed)


class _FiveWeak(Simulated):
    """Very weak in every skill whose number is drawn by the seed."""

    def easy(self, skill: str) -> float:
        weak = Random(f"weak {self.seed}").sample(range(40), _WEAK)
        return super().easy(skill) - (_WEAKER if int(skill[-3:]) in weak else 0.0)


def _five_weak(seed: int) -> Learner:
    return _FiveWeak(sorted(FAMILIES)[seed % len(FAMILIES)], seed)


def _guesses(seed: int) -> Learner:
    person = _family(seed)
    person.guess = 0.25
    return person


HARD_CASES: Mapping[str, Callable[[int], Learner]] = MappingProxyType(
    {
        "never moves": lambda seed: Knowing(seed, 0.0, 0.0),
        "worked only": lambda seed: Knowing(seed, 0.0, _FROM_SHOWN),
        "slow": lambda seed: Knowing(seed, _SLOW, _SLOW),
        "rare": _family,
        "five weak": _five_weak,
        "guesses": _guesses,
    }
)
"""Name: a function from a seed to a learner."""


def place_of(case: str, scenario: Scenario) -> Scenario:
    """The scenario as this learner lives it."""
    return replace(scenario, missed=0.8) if case == "rare" else scenario


class PlanOnly(Planner):
    """The plan with none of the rules: what is asked when the planner has the last word."""

    def choose(self, now: datetime, extra: bool = False, wanted: bool = False) -> Choice | None:
        if not extra and self.past.spent(now) >= self.minutes_per_day * 60.0:
            return None
        return _Bare(self, now).plan()


class _Bare(NextQuestion):
    def plan(self) -> Choice | None:
        if not self.playing:
            return None
        self._ranking = self.planner.ranking(self.now)
        self._ranked = self._in_order(self._ranking, self.planner.memory)
        found = self._planned(Strictness.FREE)
        return Choice(*found) if found else None

    def rests(self, skill: str) -> bool:
        return False
