"""Which rows of a table of facts a question may draw."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from drill.bank.files.faults import Faults, nearest_or_all
from drill.bank.files.toml_lines import KeyPath
from drill.bank.reference.sources import Sources
from drill.bank.schema.fields import seen
from drill.plaintext import one_line
from drill.quantities import FactsRow


def eligible(
    clean: Mapping[str, Any], where: KeyPath, sources: Sources, path: Path, faults: Faults
) -> tuple[FactsRow, ...]:
    """The rows of the table `row_of` that meet `where`; none when there is a fault.

    Args:
        path: the question's file: its school may have tables of its own.
    """
    table = clean.get("row_of")
    if table is None:
        return ()
    loaded = sources.facts_for(path, table)
    if loaded is None:
        hint = nearest_or_all(table, sources.tables())
        message = f'there is no table of facts "{one_line(table, 40)}".'
        faults.add((*where, "row_of"), message, hint)
        return ()
    rows, problems = loaded
    faults.found.extend(problems)
    if problems:
        return ()
    before = len(faults.found)
    wanted = _wanted(rows, clean.get("where") or {}, (*where, "where"), faults)
    kept = rows_where(rows, wanted)
    if not kept and len(faults.found) == before:
        message = f"no row of {table}.csv meets all of where."
        faults.add((*where, "where"), message, "Take a condition out.")
    return kept


def _wanted(
    rows: tuple[FactsRow, ...], raw: Mapping[str, Any], where: KeyPath, faults: Faults
) -> dict[str, tuple[object, ...]]:
    columns = ["id", *columns_of(rows)]
    wanted: dict[str, tuple[object, ...]] = {}
    for column, value in raw.items():
        table = rows[0].table if rows else "the table"
        if column not in columns:
            message = f'{table}.csv has no column "{one_line(column, 40)}".'
            faults.add((*where, column), message, nearest_or_all(column, columns))
            continue
        values = tuple(value) if isinstance(value, list) else (value,)
        for one in values:
            _check_wanted(rows, column, one, (*where, column), faults)
        wanted[column] = values
    return wanted


def _check_wanted(
    rows: tuple[FactsRow, ...], column: str, value: Any, where: KeyPath, faults: Faults
) -> None:
    if any(cell_is(row, column, value) for row in rows):
        return
    cells = [row.id if column == "id" else row.cells.get(column) for row in rows]
    words = [cell for cell in cells if isinstance(cell, str)]
    message = f"no row of {rows[0].table}.csv has {column} {seen(value)}."
    faults.add(where, message, nearest_or_all(str(value), words))


def columns_of(rows: tuple[FactsRow, ...]) -> list[str]:
    """The columns filled in at least one of the rows, in table order."""
    return list(dict.fromkeys(column for row in rows for column in row.cells))


def rows_where(
    rows: tuple[FactsRow, ...], where: Mapping[str, tuple[object, ...]]
) -> tuple[FactsRow, ...]:
    """The rows that have one of the wanted values in every column of the condition."""
    return tuple(
        row
        for row in rows
        if all(any(cell_is(row, column, value) for value in values)
               for column, values in where.items())
    )  # fmt: skip


def cell_is(row: FactsRow, column: str, value: object) -> bool:
    """Whether a cell is that text, or that number in the column's unit; `id` is a column too."""
    if column == "id":
        return row.id == value
    cell = row.cells.get(column)
    if isinstance(cell, str) or cell is None:
        return cell is not None and cell == value
    return not isinstance(value, str | bool) and cell.value == value
