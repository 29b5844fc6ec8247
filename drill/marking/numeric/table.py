"""Tables: each cell is a number, typed with its name, in its place, or alone."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from drill.frozen import replace
from drill.marking.numeric.cells import cells_of
from drill.marking.numeric.number import number_mark
from drill.marking.numeric.number_reading import comma_decimal, numbers_in, plain
from drill.model import Mark, Part, Point, PointMark, TableKey
from drill.typed.awarding import nothing, settled

_WORDS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")


def mark_table(part: Part, typed: str, earlier: Mapping[str, Fraction]) -> Mark:
    """One point for each cell, worth what its own key awards.

    A cell that cannot be read, where a number would be asked about, has the table typed again.
    """
    key = part.key
    assert isinstance(key, TableKey)
    given = cells_of(tuple(key.cells), typed)
    if not given:
        return _too_few(part, tuple(key.cells), typed)
    points: list[PointMark] = []
    said: list[str] = []
    slip: str | None = None
    readable = True
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
        slip, readable = slip or mark.slip, readable and mark.readable
    return replace(settled(part, points, " ".join(said), slip=slip), readable=readable)


def _too_few(part: Part, names: tuple[str, ...], typed: str) -> Mark:
    """Typed again: a number for each cell, in the form the prompt shows."""
    count = len(numbers_in(plain(typed)))
    form = ", ".join(f"{name} = …" for name in names)
    point = comma_decimal(plain(typed))
    if point is not None:
        says = f"Did you mean {point}? Use a point; {_in_words(len(names))} are wanted: {form}"
        return nothing(part, says, readable=False)
    if count == len(names):
        return nothing(part, f"Which number is which? Type {form}", readable=False)
    noun = "number" if count == 1 else "numbers"
    says = f"I found {_in_words(count)} {noun}, {_in_words(len(names))} are wanted: {form}"
    return nothing(part, says, readable=False)


def _in_words(count: int) -> str:
    return _WORDS[count] if count < len(_WORDS) else str(count)
