"""Shares and correlations with intervals, from sums alone.

Wilson's interval for a share (Wilson 1927) and Fisher's transformation for a correlation (Fisher
1921), at 95 %; both are given in every textbook of statistics.
"""

from __future__ import annotations

from math import atanh, sqrt, tanh
from typing import NamedTuple

_Z = 1.959964
"""The normal deviate that 95 in 100 lie within."""


class Interval(NamedTuple):
    """A value with the bounds within which it lies 95 times in 100."""

    value: float
    low: float
    high: float


def share_interval(share: float, number: int) -> Interval:
    """A share of 0..1 seen in so many cases (Wilson); wide open without any.

    Where a case may earn part of its marks the true spread is smaller: the interval is on the safe
    side.
    """
    if not number:
        return Interval(share, 0.0, 1.0)
    z2 = _Z * _Z / number
    middle = (share + z2 / 2) / (1 + z2)
    half = _Z * sqrt(max(0.0, share * (1 - share) / number + z2 / (4 * number))) / (1 + z2)
    return Interval(share, max(0.0, middle - half), min(1.0, middle + half))


def correlation(n: int, x: float, y: float, xx: float, yy: float, xy: float) -> Interval | None:
    """Pearson's correlation from sums; None below four cases, or where one does not vary."""
    if n < 4:
        return None
    spread_x, spread_y = xx - x * x / n, yy - y * y / n
    if spread_x < 1e-9 or spread_y < 1e-9:
        return None
    value = max(-1.0, min(1.0, (xy - x * y / n) / sqrt(spread_x * spread_y)))
    if abs(value) > 1 - 1e-9:
        return Interval(value, value, value)
    middle, half = atanh(value), _Z / sqrt(n - 3)
    return Interval(value, tanh(middle - half), tanh(middle + half))
