"""Simulated learners with weaknesses planted in some skills: whom the tutor's report must find."""

from __future__ import annotations

from collections.abc import Collection
from datetime import datetime
from random import Random

from tests.lab.learner import Simulated
from tests.lab.processes import State

LOWER = 0.3
"""By so much a planted skill's share lies below what it would be."""
ALIKE = 0.4
"""The spread of the other skills against that of people in the lab: with the whole spread (1 logit)
three of forty skills lie as low by nature as what is planted, and to find those is as right."""


class Planted(Simulated):
    """One person of a family, weaker in the planted skills and slow to learn them."""

    def __init__(
        self, family: str, seed: int, planted: Collection[str], alike: float = ALIKE
    ) -> None:
        super().__init__(family, seed)
        self.planted, self.alike = frozenset(planted), alike
        self._turns: dict[str, int] = {}

    def easy(self, skill: str) -> float:
        return self.alike * super().easy(skill)

    def share(self, skill: str, state: State, at: float, tries: int = 0) -> float:
        share = super().share(skill, state, at, tries)
        return max(self.guess, share - LOWER) if skill in self.planted else share

    def practise(
        self, skill: str, template: str, when: datetime, rng: Random
    ) -> tuple[float, float]:
        before = self.state(skill)
        answer = super().practise(skill, template, when, rng)
        if skill in self.planted:
            self._turns[skill] = self._turns.get(skill, 0) + 1
            if self._turns[skill] % 2:
                self._states[skill] = before
        return answer
