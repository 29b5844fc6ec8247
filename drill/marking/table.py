"""Tables: each cell is a number, typed as "mean = 23.95", or alone when there is one cell."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

from drill.marking.number import number_mark
from drill.marking.verdict import settled
from drill.model import Mark, Part, Point, PointMark, TableKey


def mark_table(part: Part, typed: str, earlier: Mapping[str, Fraction]) -> Mark:
    """One point for each cell, worth what its own key awards."""
    key = part.key
    assert isinstance(key, TableKey)
    given = _cells(tuple(key.cells), typed)
    points: list[PointMark] = []
    said: list[str] = []
    slip: str | None = None
    for point in part.points:
        key_of_cell = key.cells[point.id]
        scheme = tuple(Point(name, "", marks) for name, marks in key_of_cell.award.items())
        cell = replace(part, marks=point.marks, points=scheme)
        text = given.get(point.id, "")
        if not text:
            points.append(PointMark(point.id, 0, point.marks, "left empty"))
            said.append(f"{point.id}: left empty.")
            continue
        mark = number_mark(cell, key_of_cell, text, earlier)
        points.append(PointMark(point.id, min(mark.marks, point.marks), point.marks, mark.says))
        said.append(f"{point.id}: {mark.says}")
        slip = slip or mark.slip
    return settled(part, points, " ".join(said), slip=slip)


def _cells(names: tuple[str, ...], typed: str) -> dict[str, str]:
    """Cell -> what was typed for it, by its name or by its place."""
    found: dict[str, str] = {}
    for name in names:
        match = re.search(rf"(?<!\w){re.escape(name)}\s*[=:]\s*([^\n;]*)", typed, re.IGNORECASE)
        if match:
            found[name] = match[1].strip()
    if found:
        return found
    pieces = [piece.strip() for piece in re.split(r"[\n;]|,\s", typed) if piece.strip()]
    if len(pieces) == len(names):
        return dict(zip(names, pieces, strict=True))
    return {names[0]: typed} if len(names) == 1 else {}
