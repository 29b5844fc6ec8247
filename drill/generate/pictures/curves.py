"""A smooth curve through points, in exact fractions, that never rises where its points fall.

Cubic pieces whose slopes at the points are weighted harmonic means of the slopes to both sides:
F. N. Fritsch and J. Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300 (named from memory).
"""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

from drill.model import GraphPoint


def smooth(points: tuple[GraphPoint, ...], pieces: int) -> tuple[GraphPoint, ...]:
    """The points and, between two of them, as many more as make up about `pieces` in all."""
    if len(points) < 3:
        return points
    slopes = _slopes(points)
    between = max(2, pieces // (len(points) - 1))
    path = [points[0]]
    for place, (left, right) in enumerate(pairwise(points)):
        for step in range(1, between + 1):
            share = Fraction(step, between)
            path.append(_on(left, right, slopes[place], slopes[place + 1], share))
    return tuple(path)


def _on(
    left: GraphPoint, right: GraphPoint, rise: Fraction, fall: Fraction, share: Fraction
) -> GraphPoint:
    """The value at this position of the cubic with these ends and slopes."""
    (x1, y1), (x2, y2) = left, right
    wide, rest = x2 - x1, 1 - share
    y = y1 * (1 + 2 * share) * rest**2 + y2 * (3 - 2 * share) * share**2
    return x1 + share * wide, y + wide * share * rest * (rise * rest - fall * share)


def _slopes(points: tuple[GraphPoint, ...]) -> list[Fraction]:
    wide = [right[0] - left[0] for left, right in pairwise(points)]
    rise = [right[1] - left[1] for left, right in pairwise(points)]
    chord = [up / along for up, along in zip(rise, wide, strict=True)]
    inner = [
        _between(one, other, w1, w2)
        for (one, other), (w1, w2) in zip(pairwise(chord), pairwise(wide), strict=True)
    ]
    return [_end(chord[0], inner[0]), *inner, _end(chord[-1], inner[-1])]


def _between(one: Fraction, other: Fraction, wide: Fraction, next_: Fraction) -> Fraction:
    """The slope at a point with these chords beside it; level at a turning point."""
    if one * other <= 0:
        return Fraction(0)
    first, second = wide + 2 * next_, 2 * wide + next_
    return (first + second) / (first / one + second / other)


def _end(chord: Fraction, beside: Fraction) -> Fraction:
    """The slope at an end, as if the curvature were constant there; never of the opposite sign."""
    slope = (3 * chord - beside) / 2
    if slope * chord <= 0:
        return Fraction(0)
    return max(-3 * abs(chord), min(3 * abs(chord), slope))
