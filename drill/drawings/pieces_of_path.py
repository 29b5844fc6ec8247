"""The height of a drawn path at a given x."""

from __future__ import annotations

from bisect import bisect_right
from fractions import Fraction

from drill.model import GraphPoint


def height_at(path: tuple[GraphPoint, ...], at: Fraction) -> Fraction:
    """The path's y at this x; the y of its nearer end if x is outside the path."""
    place = bisect_right(path, at, key=lambda point: point[0])
    if place == 0:
        return path[0][1]
    if place == len(path):
        return path[-1][1]
    (x1, y1), (x2, y2) = path[place - 1], path[place]
    return y1 + (y2 - y1) * (at - x1) / (x2 - x1)
