"""Tables of facts: CSV files whose columns carry their units, whose rows name their source.

    id,acid,M_crystals (g/mol),salt_per_acid (),source

The first column is `id`, the last says where the row is published. A bracket behind a name makes
numbers: with a unit, or plain when it is empty; a column without one is text. An empty number is
not known, and cannot be used. The bank's `provenance.csv` tells how its facts were read.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

from msgspec import Struct

from drill.bank.files.author_files import read_text
from drill.bank.schema.fields import unprintable
from drill.errors import Problem
from drill.plaintext import one_line
from drill.quantities import FactsRow, Quantity, Unit, unit_of

MOST_ROWS = 5000

_COLUMN = re.compile(r"\s*([A-Za-z][A-Za-z0-9_]*)\s*(?:\(([^()]*)\))?\s*")
_NUMBER = re.compile(r"[-+]?\d{1,30}(?:\.(\d{1,30}))?(?:[eE][-+]?\d{1,2})?", re.ASCII)
_ID = re.compile(r"[A-Za-z0-9][A-Za-z0-9_.+-]*", re.ASCII)


class Column(Struct, frozen=True):
    """`unit` None is text."""

    name: str
    unit: Unit | None


def read_facts(path: Path) -> tuple[FactsRow, ...] | tuple[Problem, ...]:
    """All rows of a table of facts, or everything that is wrong with it."""
    rows, problems = load_facts(path)
    return problems or rows


def load_facts(path: Path) -> tuple[tuple[FactsRow, ...], tuple[Problem, ...]]:
    """The rows that can be used, and what is wrong with the others."""
    text = read_text(path)
    if isinstance(text, Problem):
        return (), (text,)
    table = _Table(path)
    table.read(text)
    return tuple(table.rows), tuple(table.problems)


class _Table:
    """One file as it is read, line by line."""

    def __init__(self, path: Path) -> None:
        self.path, self.name = str(path), path.stem
        self.rows: list[FactsRow] = []
        self.problems: list[Problem] = []
        self._lines_of: dict[str, int] = {}

    def _add(self, line: int, message: str, hint: str = "") -> None:
        self.problems.append(Problem(self.path, line, 0, message, hint))

    def read(self, text: str) -> None:
        records = self._records(text)
        header = next(records, None)
        columns = self._columns(header[1]) if header else None
        if header is None:
            self._add(1, "the table is empty.", "Its first line names the columns.")
        if columns is None:
            return
        for line, cells in records:
            if len(self.rows) >= MOST_ROWS:
                self._add(line, f"the table has more than {MOST_ROWS} rows.")
                return
            self._read_row(line, cells, columns)

    def _records(self, text: str) -> Iterator[tuple[int, list[str]]]:
        """Each record with the line it starts on; blank lines are passed over."""
        reader = csv.reader(text.splitlines(keepends=True), strict=True)
        while True:
            line = reader.line_num + 1
            try:
                cells = next(reader)
            except StopIteration:
                return
            except csv.Error as error:
                self._add(line, f"cannot be read as CSV: {error}.", "Look for an unclosed quote.")
                return
            if any(cell.strip() for cell in cells):
                yield line, cells

    def _columns(self, header: list[str]) -> list[Column] | None:
        columns = [self._column(cell) for cell in header]
        names = [column.name for column in columns if column]
        for name in {name for name in names if names.count(name) > 1}:
            self._add(1, f'the column "{name}" stands there twice.')
        if names[:1] != ["id"]:
            self._add(1, f'the first column must be "id", got "{one_line(header[0], 40)}".')
        if names[-1:] != ["source"]:
            self._add(1, 'the last column must be "source".')
        if self.problems:
            return None
        return [column for column in columns if column]

    def _column(self, cell: str) -> Column | None:
        found = _COLUMN.fullmatch(cell)
        if found is None:
            hint = "Write a name, or a name and its unit, as mass (g)."
            self._add(1, f'"{one_line(cell, 40)}" cannot name a column.', hint)
            return None
        if found[2] is None:
            return Column(found[1], None)
        unit = unit_of(found[2].strip())
        if unit is None:
            hint = "Write for example (g), (cm3), (mol/dm3), or () for a plain number."
            self._add(1, f'unknown unit "{one_line(found[2], 40)}" of column {found[1]}.', hint)
        return Column(found[1], unit)

    def _read_row(self, line: int, cells: list[str], columns: list[Column]) -> None:
        if len(cells) != len(columns):
            hint = "A cell with a comma in it needs double quotes round it."
            self._add(line, f"{len(cells)} cells in a table of {len(columns)} columns.", hint)
            return
        before = len(self.problems)
        values = dict(zip((column.name for column in columns), cells, strict=True))
        self._check_id(line, values["id"].strip())
        self._check_source(line, values)
        numbers = {c.name: self._cell(line, c, values[c.name]) for c in columns[1:-1]}
        if len(self.problems) == before:
            known = {name: cell for name, cell in numbers.items() if cell is not None}
            self.rows.append(FactsRow(self.name, values["id"].strip(), known, line))

    def _check_id(self, line: int, id_: str) -> None:
        if not _ID.fullmatch(id_):
            hint = "Use letters, digits, - and _."
            self._add(line, f'"{one_line(id_, 40)}" cannot be an id.', hint)
        elif id_ in self._lines_of:
            self._add(line, f'the id "{id_}" is taken by line {self._lines_of[id_]}.')
        self._lines_of.setdefault(id_, line)

    def _check_source(self, line: int, values: dict[str, str]) -> None:
        if not values["source"].strip():
            hint = 'Name where it is published, or write "common practice, no source".'
            self._add(line, f'"{one_line(values["id"], 40)}" has no source.', hint)

    def _cell(self, line: int, column: Column, text: str) -> Quantity | str | None:
        text = text.strip()
        if found := unprintable(text):
            self._add(line, f"{column.name} holds {found}, which cannot be printed.")
        if column.unit is None:
            return text
        if not text:
            return None
        number = _NUMBER.fullmatch(text)
        if number is None:
            hint = "Write digits and a point; the unit stands in the header."
            self._add(line, f'{column.name} must be a number, got "{one_line(text, 40)}".', hint)
            return None
        return Quantity(Fraction(text), column.unit, len(number[1] or ""))
