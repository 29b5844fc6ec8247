"""What a planner may know of a learner: everything, or only which family it is.

A model answers one question, what share to expect on exam day after further askings at given
times. Policies of the lab plan with it; the look-ahead of `lookahead.py` takes either.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime
from math import pi, sqrt
from typing import Protocol

from tests.lab.learner import PERSON_SD, SKILL_SD, STEEPER, Simulated
from tests.lab.processes import Branch, State, sigmoid

Times = tuple[float, ...]
_UNLIKELY = 0.15
"""Branches less likely than this are left out when looking ahead (but the likeliest never)."""
_KEPT = 4
"""So many guesses at the state of a skill are kept where the state cannot be seen."""


class Model(Protocol):
    """What a planner knows. Times are POSIX seconds."""

    def values(self, skill: str, plans: Sequence[Times]) -> list[float]:
        """The expected exam-day share after askings at the times of each plan."""
        ...

    def seconds(self, skill: str) -> float:
        """What one asking takes."""
        ...

    def record(self, skill: str, template: str, at: float, score: float, seconds: float) -> None:
        """An answer was seen."""
        ...

    def lesson(self, skill: str, at: float) -> None:
        """A lesson was given."""
        ...


class _Simulating:
    """Values by letting a simulated person practise in thought, from what the state may be."""

    def __init__(self, person: Simulated, lessons: Mapping[str, datetime], exam: datetime) -> None:
        self.person, self.exam = person, exam.timestamp()
        self.lessons = {skill: when.timestamp() for skill, when in lessons.items()}

    def guesses(self, skill: str) -> list[Branch]:
        raise NotImplementedError

    def share(self, skill: str, state: State, at: float) -> float:
        raise NotImplementedError

    def values(self, skill: str, plans: Sequence[Times]) -> list[float]:
        known: dict[Times, list[Branch]] = {(): self._begun(skill)}
        return [
            sum(
                p * self.share(skill, state, self.exam) for p, state in self._at(skill, plan, known)
            )
            for plan in plans
        ]

    def _begun(self, skill: str) -> list[Branch]:
        """The state now; for a skill not met yet, the state its lesson will leave."""
        found = self.guesses(skill)
        if any(state is not None for _, state in found) or skill not in self.lessons:
            return found
        return _likely(self.person.process.shown(None, self.lessons[skill]))

    def _at(self, skill: str, plan: Times, known: dict[Times, list[Branch]]) -> list[Branch]:
        if plan in known:
            return known[plan]
        before, at = self._at(skill, plan[:-1], known), plan[-1]
        after = []
        for weight, state in before:
            right = self.share(skill, state, at) if self.person.process.outcome_matters else 1.0
            for chance, found in self.person.process.branches(state, at, right):
                after.append((weight * chance, found))
        known[plan] = _likely(after)
        return known[plan]


def _likely(branches: list[Branch]) -> list[Branch]:
    if len(branches) == 1:
        return branches
    most = max(weight for weight, _ in branches)
    kept = [branch for branch in branches if branch[0] >= min(_UNLIKELY, most)]
    total = sum(weight for weight, _ in kept)
    return [(weight / total, state) for weight, state in kept]


class Knowing(_Simulating):
    """Knows the learner through and through: what is in the head now and how it will fade."""

    def guesses(self, skill: str) -> list[Branch]:
        return [(1.0, self.person.state(skill))]

    def share(self, skill: str, state: State, at: float) -> float:
        return self.person.share(skill, state, at)

    def seconds(self, skill: str) -> float:
        return self.person.seconds(skill)

    def record(self, skill: str, template: str, at: float, score: float, seconds: float) -> None:
        """Nothing to learn: it looks into the head."""

    def lesson(self, skill: str, at: float) -> None:
        """The same."""


class KnowingFamily(_Simulating):
    """Knows the family, its middle numbers, the spread of people and skills, and the lessons.

    Of this person and these skills it knows only the answers seen, from which it infers.
    """

    def __init__(self, family: str, lessons: Mapping[str, datetime], exam: datetime) -> None:
        super().__init__(Simulated(family, 0, typical=True), lessons, exam)
        self.able = [0.0, PERSON_SD**2]
        self.easy: dict[str, list[float]] = {}
        self.pace = [3.0, 3.0]
        self._guesses: dict[str, list[Branch]] = {}
        self._tries: dict[str, int] = {}

    def guesses(self, skill: str) -> list[Branch]:
        return self._guesses.get(skill, [(1.0, None)])

    def share(self, skill: str, state: State, at: float, tries: int = 0) -> float:
        person = self.person
        easy = self.easy.get(skill, (0.0, SKILL_SD**2))
        logit = STEEPER * person.process.logit(state, at) + self.able[0] + easy[0]
        logit -= 2.0 * (1.0 - person.transfer) * 0.5**tries
        narrow = 1.0 / sqrt(1.0 + pi / 8.0 * (self.able[1] + easy[1]))
        return person.guess + (1.0 - person.guess - person.careless) * sigmoid(narrow * logit)

    def seconds(self, skill: str) -> float:
        return self.person.seconds(skill) * self.pace[0] / self.pace[1]

    def lesson(self, skill: str, at: float) -> None:
        shown = self.person.process.shown
        self._guesses[skill] = _pruned(
            [(w * p, s) for w, old in self.guesses(skill) for p, s in shown(old, at)]
        )

    def record(self, skill: str, template: str, at: float, score: float, seconds: float) -> None:
        self.pace[0] += seconds / self.person.seconds(skill)
        self.pace[1] += 1.0
        tries = self._tries.get(template, 0)
        self._tries[template] = tries + 1
        before = self._guesses.get(skill) or [(1.0, None)]
        shares = [self.share(skill, state, at, tries) for _, state in before]
        self._infer(skill, sum(w * s for (w, _), s in zip(before, shares, strict=True)), score)
        after = []
        for (weight, state), share in zip(before, shares, strict=True):
            weight *= share ** (2 * score) * (1.0 - share) ** (2 - 2 * score)
            after += [
                (weight * p, found) for p, found in self.person.process.branches(state, at, score)
            ]
        self._guesses[skill] = _pruned(after)

    def _infer(self, skill: str, share: float, score: float) -> None:
        """Move what is believed of person and skill by the surprise, each by its uncertainty."""
        low, high = self.person.guess, 1.0 - self.person.careless
        inner = min(0.999, max(0.001, (share - low) / (high - low)))
        slope = (high - low) * inner * (1.0 - inner)
        noise = share * (1.0 - share) / self.person.marks
        easy = self.easy.setdefault(skill, [0.0, SKILL_SD**2])
        sureness = slope * slope / noise
        pull = (score - share) * slope / noise
        whole = 1.0 + sureness * (self.able[1] + easy[1])
        for belief in (self.able, easy):
            belief[0] += belief[1] * pull / whole
            belief[1] -= belief[1] ** 2 * sureness / whole


def _pruned(guesses: list[Branch]) -> list[Branch]:
    best = sorted(guesses, key=lambda guess: -guess[0])[:_KEPT]
    total = sum(weight for weight, _ in best) or 1.0
    return [(weight / total, state) for weight, state in best]
