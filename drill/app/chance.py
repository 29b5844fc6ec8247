"""Whether a count of misses or mistakes is more than chance, among so many skills."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable
from math import comb

_CHANCE = 0.05
"""In at most one report in twenty anything is told plainly that came by chance alone."""


def by_chance(times: int, of: int, rate: float, looked_at: int) -> bool:
    """Whether so many `times` or more, of so many, may well come at this rate.

    Args:
        looked_at: among how many such counts this one stands out (`looked_at`); the more, the
            stricter.
    """
    at_least = sum(
        comb(of, number) * rate**number * (1.0 - rate) ** (of - number)
        for number in range(times, of + 1)
    )
    return at_least >= _CHANCE / max(1, looked_at)


def usual_rate(times: int, of: int) -> float:
    """A rate from counts, never 0 or 1: as if one more of two had been seen."""
    return (times + 1) / (of + 2)


def looked_at(sizes: Iterable[int], rate: float) -> int:
    """Among how many counts one stands out: of those of `sizes`, the ones that ever could.

    One of a few chances can never be told plainly, so it need not make the others stricter (R. E.
    Tarone 1990, A modified Bonferroni method for discrete data, Biometrics 46, 515-522; from
    memory).
    """
    least = sorted(rate**size for size in sizes)
    number = 1
    while bisect_right(least, _CHANCE / number) > number:
        number += 1
    return number
