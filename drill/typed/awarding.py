"""Making `Mark` values, so that every rule builds them the same way."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from drill.model import Mark, Part, PointMark


def nothing(part: Part, says: str, readable: bool = True) -> Mark:
    """No marks; `readable` False asks for the answer to be typed again."""
    points = tuple(PointMark(point.id, 0, point.marks) for point in part.points)
    return Mark(0, part.marks, points, says, readable=readable)


def settled(
    part: Part,
    points: Iterable[PointMark],
    says: str,
    *,
    slip: str | None = None,
    value: Fraction | None = None,
    carried: bool = False,
    most: int | None = None,
) -> Mark:
    """The sum of the points, never above the part's maximum nor below zero."""
    points = tuple(points)
    total = sum(point.marks for point in points)
    marks = max(0, min(total, part.marks if most is None else most))
    return Mark(marks, part.marks, points, says, slip=slip, value=value, carried=carried)


def whole(part: Part, right: bool, says: str, slip: str | None = None) -> Mark:
    """All the marks of every point, or none."""
    points = (
        PointMark(point.id, point.marks if right else 0, point.marks, says) for point in part.points
    )
    return settled(part, points, says, slip=slip)
