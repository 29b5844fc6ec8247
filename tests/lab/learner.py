"""Simulated learners: a process in the head of a person, with guesses, mistakes and hard skills.

What a person is like is drawn once from a seed and from nothing else, so that every policy meets
the same person. How far people and skills lie apart was set before any policy was tuned.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import datetime
from functools import partial
from math import exp, pi, sqrt
from random import Random
from types import MappingProxyType
from typing import Protocol

from tests.lab.processes import FAMILIES, Branch, Process, State, sigmoid

SKILL_SD, PERSON_SD = 1.0, 0.7
"""Spread of skills and of people, in logits."""
STEEPER = sqrt(1.0 + pi / 8.0 * (SKILL_SD**2 + PERSON_SD**2))
"""The families were fitted to means over people and facts; a single person on a single skill goes
up and down this much more steeply, so that the mean over many comes out as fitted."""
RATES: Mapping[str, tuple[str, float]] = MappingProxyType(
    {
        "activation": ("least", 0.05),
        "multiscale": ("first", 0.3),
        "delta": ("decay", 0.05),
        "predictive": ("decay", 0.05),
        "half-life": ("first", 0.3),
        "procedure": ("rust", 0.15),
    }
)
"""What makes one person of a family forget faster than another, and its relative spread: each is
worth about half a logit after a month."""


class Learner(Protocol):
    """Whoever practises in the lab. Times are aware datetimes, shares run from 0 to 1."""

    def practise(
        self, skill: str, template: str, when: datetime, rng: Random
    ) -> tuple[float, float]:
        """Answer a question, see its answer; the share of its marks and the seconds it took."""
        ...

    def expose(self, skill: str, template: str, when: datetime) -> None:
        """A lesson or a worked answer."""
        ...

    def chance(self, skill: str, when: datetime) -> float:
        """The true expected share of the marks of a template never asked."""
        ...


class Simulated:
    """One person of one family.

    Args:
        family: a name in `processes.FAMILIES`.
        seed: whatever is drawn about the person and the skills follows from it.
        typical: no drawing; the middle of the family, for planners that know only that.
    """

    marks = 2
    """Marks of every question: a score is 0, a half or 1."""

    def __init__(self, family: str, seed: int, typical: bool = False) -> None:
        self.family, self.seed = family, seed
        self.process: Process = FAMILIES[family]()
        self.person, self.pace, self.transfer, self.careless, self.guess = (
            0.0,
            1.0,
            0.75,
            0.05,
            0.05,
        )
        self._draws = not typical
        if self._draws:
            self._draw(Random(f"person {family} {seed}"))
        self._easy: dict[str, float] = {}
        self._states: dict[str, State] = {}
        self._tries: dict[str, int] = {}
        self._events: dict[str, int] = {}

    def _draw(self, rng: Random) -> None:
        self.person = rng.gauss(0.0, PERSON_SD)
        self.pace = rng.uniform(0.85, 1.15)
        self.transfer = rng.uniform(0.6, 0.9)
        self.careless, self.guess = rng.uniform(0.02, 0.08), rng.uniform(0.0, 0.1)
        rate, spread = RATES[self.family]
        value = getattr(self.process, rate) * exp(rng.gauss(0.0, spread))
        self.process = FAMILIES[self.family](**{rate: value})

    # ---------------------------------------------------------------- as the protocol asks

    def practise(
        self, skill: str, template: str, when: datetime, rng: Random
    ) -> tuple[float, float]:
        at = when.timestamp()
        share = self.share(skill, self.state(skill), at, self._tries.get(template, 0))
        score = sum(rng.random() < share for _ in range(self.marks)) / self.marks
        self._tries[template] = self._tries.get(template, 0) + 1
        self._become(skill, self.process.branches(self.state(skill), at, score))
        return score, self.seconds(skill)

    def expose(self, skill: str, template: str, when: datetime) -> None:
        at = when.timestamp()
        self._become(skill, self.process.shown(self.state(skill), at))

    def chance(self, skill: str, when: datetime) -> float:
        return self.share(skill, self.state(skill), when.timestamp())

    # ---------------------------------------------------------------- what is in the head

    def state(self, skill: str) -> State:
        """The state of a skill now; None when it was never met."""
        return self._states.get(skill)

    def share(self, skill: str, state: State, at: float, tries: int = 0) -> float:
        """The share to expect at `at` from a skill in `state`, its template tried so often.

        A template never tried is harder than one often tried, the more so the less transfers.
        """
        logit = STEEPER * self.process.logit(state, at) + self.person + self.easy(skill)
        logit -= 2.0 * (1.0 - self.transfer) * 0.5**tries
        return self.guess + (1.0 - self.guess - self.careless) * sigmoid(logit)

    def easy(self, skill: str) -> float:
        """How much easier than the middle the skill is to this person, in logits."""
        if skill not in self._easy:
            draw = Random(f"skill {self.family} {self.seed} {skill}").gauss(0.0, SKILL_SD)
            self._easy[skill] = draw if self._draws else 0.0
        return self._easy[skill]

    def seconds(self, skill: str) -> float:
        """How long one question of the skill takes this person."""
        return self.pace * seconds_of(skill)

    def _become(self, skill: str, branches: list[Branch]) -> None:
        """Take one branch; which one follows from the seed, so that every policy has equal luck."""
        count = self._events.get(skill, 0)
        self._events[skill] = count + 1
        left = (
            Random(f"luck {self.family} {self.seed} {skill} {count}").random()
            if len(branches) > 1
            else 0.0
        )
        for probability, state in branches:
            self._states[skill] = state
            left -= probability
            if left < 0.0:
                return


def seconds_of(skill: str) -> float:
    """Seconds a question of the skill takes in the middle: from 60 to 180, by its name."""
    return float(Random(f"seconds {skill}").choice((60, 90, 120, 150, 180)))


LEARNERS: Mapping[str, Callable[[int], Learner]] = MappingProxyType(
    {family: partial(Simulated, family) for family in FAMILIES}
)
"""Family: a function from a seed to a learner of it."""
