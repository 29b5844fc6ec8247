"""The skills of one day in the order in which an asking brings most, kept up answer by answer."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from heapq import nsmallest
from math import inf

from drill.memory import Memory
from drill.planning.lookahead import Stake
from drill.planning.time_prices import DayPrices

_LOOKED_AT_AGAIN = 4
"""How many of the best are worked out afresh after each answer."""


class Ranking:
    """A day's prices and what has changed since they were found."""

    def __init__(self, prices: DayPrices) -> None:
        self.prices = prices
        self.worth = prices.worth
        self._again: set[str] = set()

    def changed(self, skill: str) -> None:
        """Something happened to the skill: it is weighed again before the next ranking."""
        self._again.add(skill)

    def ranked(
        self, playing: Iterable[str], memory: Memory, stake: Callable[[str], Stake], now: float
    ) -> list[str]:
        """The skills in play, most marks per second first."""
        self.prices.memory = memory
        names = sorted(playing)
        for skill in self._to_weigh(names):
            self.prices.refresh(skill, stake(skill), now)
        self._again.clear()
        names.sort(key=self.worth.__getitem__, reverse=True)  # stable: ties stay by name
        return names

    def _to_weigh(self, names: list[str]) -> Iterable[str]:
        """What was no choice so far, the best, and what something happened to."""
        stale = [skill for skill in names if self.worth.get(skill, -inf) == -inf]
        best = nsmallest(_LOOKED_AT_AGAIN, names, key=lambda skill: -self.worth.get(skill, -inf))
        return dict.fromkeys((*stale, *best, *self._again.intersection(names)))
