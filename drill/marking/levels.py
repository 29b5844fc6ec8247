"""Extended answers: a suggestion only; the learner sets the mark."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

from drill.marking.written import judge_points
from drill.model import LevelsKey, Mark, Part, PointMark


def mark_levels(part: Part, typed: str, earlier: Mapping[str, Fraction]) -> Mark:
    """The content found, ticked off, and the mark it suggests; always `self_marked`."""
    key = part.key
    assert isinstance(key, LevelsKey)
    ticks = judge_points(key.points, key.concepts, typed)
    suggested = _suggested(key, ticks)
    says = _says(ticks, suggested, part.marks)
    points = tuple(
        PointMark(point.id, suggested if index == 0 else 0, point.marks, says, unsure=True)
        for index, point in enumerate(part.points)
    )
    mark = Mark(suggested, part.marks, points, says)
    return replace(mark, self_marked=True)


def _suggested(key: LevelsKey, ticks: list[PointMark]) -> int:
    """The share of the content found, put onto the levels' top marks, rounded down."""
    if not ticks or not key.levels:
        return 0
    top = max(mark for mark, _ in key.levels)
    found = sum(1 for tick in ticks if tick.marks)
    return top * found // len(ticks)


def _says(ticks: list[PointMark], suggested: int, most: int) -> str:
    found = [tick.id for tick in ticks if tick.marks]
    missing = [tick.id for tick in ticks if not tick.marks]
    said = [f"Suggestion only, {suggested} of {most}: you set the mark."]
    if found:
        said.append("Found: " + ", ".join(found) + ".")
    if missing:
        said.append("Look for: " + ", ".join(missing) + ".")
    return " ".join(said)
