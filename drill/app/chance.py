"""Whether a count of misses or mistakes is more than chance, among so many skills."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Collection, Iterable
from math import comb

CHANCE = 0.05
"""In at most one report in twenty anything of a kind is told plainly that came by chance alone:
weak skills and topics, topics forgotten lately, common mistakes."""


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
    return at_least >= CHANCE / max(1, looked_at)


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
    while bisect_right(least, CHANCE / number) > number:
        number += 1
    return number


def drawn_so_low(places: Collection[int], of: int) -> float:
    """How likely so many, drawn from `of` in order, stand as low as these `places` or lower.

    It asks nothing of how much the `of` differ among themselves (rank-sum test: F. Wilcoxon 1945,
    Individual comparisons by ranking methods, Biometrics Bulletin 1, 80-83; from memory).

    Args:
        places: places from 0, the lowest, to `of` - 1.
    """
    most = sum(places)
    ways = [[1] + [0] * most] + [[0] * (most + 1) for _ in places]
    for place in range(min(of, most + 1)):
        for chosen in range(len(places), 0, -1):
            fewer, now = ways[chosen - 1], ways[chosen]
            for total in range(most, place - 1, -1):
                now[total] += fewer[total - place]
    return sum(ways[-1]) / comb(of, len(places))


def more_than_before(times: int, of: int, before: int, before_of: int) -> bool:
    """Whether `times` of `of` is a larger share than before, by more than chance brings.

    Fisher's exact test, one way, at half of what is allowed to chance, as there are two ways (R. A.
    Fisher 1935, The logic of inductive inference, Journal of the Royal Statistical Society 98,
    39-82; from memory).
    """
    both = times + before
    ways = sum(comb(of, k) * comb(before_of, both - k) for k in range(times, min(of, both) + 1))
    return ways / comb(of + before_of, both) < CHANCE / 2
