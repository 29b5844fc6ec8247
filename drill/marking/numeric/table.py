"""Tables: each cell is a number, typed as "mean = 23.95", or alone when there is one cell."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise, zip_longest

from drill.marking.numeric.number import number_mark
from drill.marking.numeric.number_reading import numbers_in
from drill.model import Mark, Part, Point, PointMark, TableKey
from drill.typed.awarding import nothing, settled

_WORDS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
_BETWEEN = re.compile(r"[\n;]|,\s|\s(?:and|&)\s")
_GAP = re.compile(r"\s*[,;]\s+|\s*;\s*|,?\s+(?:and|&)\s+|\s+")
# ", and the moles of" in front of the next cell's name
_BEFORE_NAME = re.compile(
    r"(?:\s*(?:[,&]|\band\b)[^\W\d_]*(?:\s+[^\W\d_]+)*|\s+(?:number of )?[^\W\d_]+\s+of)\s*$",
    re.IGNORECASE,
)


def mark_table(part: Part, typed: str, earlier: Mapping[str, Fraction]) -> Mark:
    """One point for each cell, worth what its own key awards."""
    key = part.key
    assert isinstance(key, TableKey)
    given = _cells(tuple(key.cells), typed)
    if not given:
        return _too_few(part, tuple(key.cells), typed)
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
    """Cell -> what was typed for it, by its name or by its place; {} when neither tells."""
    found = _labelled(names, typed)
    if found:
        return found
    if len(names) == 1:
        return {names[0]: typed}
    pieces = [piece.strip() for piece in _BETWEEN.split(typed) if piece.strip()]
    if len(pieces) != len(names):
        pieces = _in_a_row(typed)
    return dict(zip(names, pieces, strict=True)) if len(pieces) == len(names) else {}


def _labelled(names: tuple[str, ...], typed: str) -> dict[str, str]:
    """What stands behind each "name =", up to the next name, semicolon or line."""
    longest = sorted(names, key=len, reverse=True)
    any_name = "|".join(re.escape(name) for name in longest)
    labels = list(re.finditer(rf"(?<!\w)({any_name})\s*[=:]", typed, re.IGNORECASE))
    known = {name.lower(): name for name in names}
    found: dict[str, str] = {}
    for label, after in zip_longest(labels, labels[1:]):
        text = typed[label.end() : after.start() if after else len(typed)]
        text = re.split(r"[\n;]", text, maxsplit=1)[0]
        text = _BEFORE_NAME.sub("", text) if after else text
        found.setdefault(known[label[1].lower()], text.strip().rstrip(",").strip())
    return found


def _in_a_row(typed: str) -> list[str]:
    """Numbers with nothing but a comma, "and" or room between them, each with its unit."""
    numbers = numbers_in(typed)
    for one, other in pairwise(numbers):
        if not _GAP.fullmatch(typed[one.end : other.start]):
            return []
    return [typed[number.start : number.end].strip() for number in numbers]


def _too_few(part: Part, names: tuple[str, ...], typed: str) -> Mark:
    """Typed again: a number for each cell, in the form the prompt shows."""
    count = len(numbers_in(typed))
    form = ", ".join(f"{name} = …" for name in names)
    found = f"{_counted(count)} number{'' if count == 1 else 's'}"
    says = f"I found {found}, {_counted(len(names))} are wanted: {form}"
    return nothing(part, says, readable=False)


def _counted(count: int) -> str:
    return _WORDS[count] if count < len(_WORDS) else str(count)
