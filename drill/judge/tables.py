"""Reads tables of facts again from their files.

The first line names the columns. A bracket after a name means that its cells are numbers in the
unit in the bracket. An empty number is left out.
"""

from __future__ import annotations

import csv
from collections.abc import Mapping
from fractions import Fraction
from functools import lru_cache
from pathlib import Path

from drill.judge.amounts import Amount, Row
from drill.judge.cannot import Cannot
from drill.judge.rounding import places_of
from drill.judge.units import PLAIN, Unit, unit_of

_NOT_CELLS = ("id", "source", "confidence")
_WEIGHTS, _PRINTED = "atomic_weights", "printed"


def rows_of(table: str, *folders: Path) -> Mapping[str, Row]:
    """The rows of `facts/<table>.csv` by their ids, in the file's order.

    Args:
        folders: where to look for it; the first that has it counts.

    Raises:
        Cannot: there is no such file, or it is no table.
    """
    for path in (folder / "facts" / f"{table}.csv" for folder in folders):
        if path.is_file():
            stat = path.stat()
            return _rows(path, (stat.st_size, stat.st_mtime_ns))
    raise Cannot(f"there is no table {table}")


@lru_cache(maxsize=128)
def _rows(path: Path, stamp: tuple[int, int]) -> Mapping[str, Row]:
    with path.open(encoding="utf-8-sig", newline="") as file:
        records = [cells for cells in csv.reader(file) if any(cell.strip() for cell in cells)]
    if not records:
        raise Cannot(f"{path.name} is empty")
    columns = [_column(cell) for cell in records[0]]
    found: dict[str, Row] = {}
    for cells in records[1:]:
        known = {
            name: _cell(text.strip(), unit)
            for (name, unit), text in zip(columns, cells, strict=True)
            if unit is None or text.strip()
        }
        id_ = str(known["id"])
        found[id_] = {name: cell for name, cell in known.items() if name not in _NOT_CELLS}
    return found


def _column(cell: str) -> tuple[str, Unit | None]:
    name, bracket, unit = cell.strip().partition("(")
    return name.strip(), unit_of(unit.rstrip().rstrip(")")) if bracket else None


def _cell(text: str, unit: Unit | None) -> Amount | str:
    if unit is None:
        return text
    mantissa = text.lower().partition("e")[0]
    return Amount(Fraction(text), unit, places_of(mantissa))


def masses(folder: Path) -> Row:
    """The mass that papers print for each element, in g/mol.

    Raises:
        Cannot: the bank has no such table.
    """
    unit = unit_of("g/mol")
    found: dict[str, Amount | str] = {}
    for symbol, row in rows_of(_WEIGHTS, folder).items():
        cell = row.get(_PRINTED)
        if isinstance(cell, Amount):
            found[symbol] = Amount(cell.number, unit or PLAIN, cell.places)
    return found
