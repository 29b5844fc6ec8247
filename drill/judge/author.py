"""Reads an author's file again, as plain tables of texts and of numbers as written."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache
from typing import Any

from drill.judge.rounding import places_of

Raw = Mapping[str, Any]


@lru_cache(maxsize=256)
def raw_of(text: str) -> Raw:
    """The tables of a file; numbers keep the digits they were written with."""
    return tomllib.loads(text, parse_float=Decimal)


def is_number(value: object) -> bool:
    """Whether an author wrote a number."""
    return isinstance(value, int | Decimal) and not isinstance(value, bool)


def formula(value: Any) -> str:
    """The text of a formula; a number counts as a formula."""
    return f"{value:f}" if isinstance(value, Decimal) else str(value)


def exact(value: Any) -> Fraction:
    """A written number."""
    return Fraction(formula(value))


def places(value: Any) -> int:
    """Decimal places of a written number, at most eight."""
    return min(places_of(formula(value)), 8)


def formulas(raw: Raw) -> Iterator[str]:
    """Every formula of a question's file."""
    for draw in raw.get("draw", {}).values():
        keys = ("from", "to", "step", "centre", "spread")
        yield from (formula(draw[key]) for key in keys if key in draw)
    yield from (formula(step["is"]) for step in raw.get("work", {}).values())
    yield from (formula(one) for one in raw.get("require", {}).values())
    if "scale" in raw:
        yield formula(raw["scale"]["reads"])
    yield from _of_graph(raw.get("graph", {}))
    for part in raw.get("part", ()):
        yield from _of_part(part)
        for cell in part.get("cells", {}).values():
            yield from _of_part(cell)


def _of_graph(graph: Raw) -> Iterator[str]:
    lines = graph.get("line", ())
    axes = [graph[axis] for axis in ("x", "y") if axis in graph]
    points = [one for one in (graph, *lines) for one in (one.get("points"), one.get("through"))]
    for table in (*axes, *(one for one in points if one), *lines):
        keys = ("x", "y", "at", "from", "to")
        yield from (formula(table[key]) for key in keys if key in table)


def _of_part(part: Raw) -> Iterator[str]:
    if "answer" in part:
        yield formula(part["answer"])
    yield from map(formula, part.get("between", ()))
    for slip in part.get("slip", ()):
        yield from (formula(slip[key]) for key in ("gives", "when") if key in slip)
    for point in part.get("point", ()):
        yield from (formula(point[key]) for key in ("when",) if key in point)
    for option in part.get("option", ()):
        yield from (formula(option[key]) for key in ("when", "right_when") if key in option)
