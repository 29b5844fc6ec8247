"""Looks up values by name: a whole name, a cell of a row, an item of a list."""

from __future__ import annotations

from collections.abc import Mapping

from drill.quantities.suggest import nearest
from drill.quantities.values import FactsRow, Fault, Quantity, Value


def looked_up(name: str, env: Mapping[str, Value]) -> Value | Fault:
    """The value called `name`: found whole, or else as a part of what its first word names.

    "route.acid" is a cell of a row, "titres.1" the first of a list.
    """
    if name in env:
        return env[name]
    root, _, cell = name.partition(".")
    row = env.get(root)
    if row is None:
        return Fault(f"no value is called {root!r}", hint=nearest(root, env))
    if isinstance(row, tuple) and cell:
        return _item(root, row, cell)
    if not isinstance(row, FactsRow):
        return Fault(f"{root!r} is no row of a table, it has no {cell!r}")
    if cell not in row.cells:
        hint = nearest(cell, row.cells)
        return Fault(f"the table {row.table!r} has no column {cell!r}", hint=hint)
    return row.cells[cell]


def _item(name: str, items: tuple[Quantity, ...] | tuple[str, ...], place: str) -> Value | Fault:
    """The item at a place that counts from 1."""
    number = int(place) if place.isdecimal() and len(place) < 6 else 0
    if 0 < number <= len(items):
        return items[number - 1]
    return Fault(f"{name!r} is a list of {len(items)}, it has no {place[:40]!r}")
