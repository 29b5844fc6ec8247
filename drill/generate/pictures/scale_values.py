"""The scale drawn with a question, its numbers filled in."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from drill.generate.part_context import Rejected, must
from drill.model import Scale, Template
from drill.quantities import FactsRow, Quantity, Unit, Value, convert, evaluate, unit_of


def scale_of(template: Template, values: Mapping[str, Value]) -> Scale | None:
    """The instrument with its reading; None when the template draws none.

    Raises:
        Rejected: the row lacks a column, or the reading is no number of its unit or off the scale.
    """
    spec = template.scale
    if spec is None:
        return None
    cells = _Cells(values.get(spec.of), spec.line)
    reads = must(evaluate(spec.reads, values), spec.line, "the reading of the scale")
    if not isinstance(reads, Quantity):
        raise Rejected("the reading of the scale is no number", spec.line)
    unit = _unit(cells.text("unit"), spec.line)
    made = Scale(
        shape=cells.text("shape"),
        name=cells.text("name"),
        unit=unit.symbol,
        low=cells.number("low"),
        high=cells.number("high"),
        division=cells.number("division"),
        spaces=int(cells.number("spaces")),
        reading=must(convert(reads, unit), spec.line, "the reading of the scale").value,
    )
    if not made.low <= made.reading <= made.high or made.division <= 0 or made.spaces <= 0:
        raise Rejected(f"the {made.name} has no such reading", spec.line, "Narrow the draw.")
    return made


def _unit(text: str, line: int) -> Unit:
    unit = unit_of(text)
    if unit is None:
        raise Rejected(f'the scale has the unknown unit "{text}"', line)
    return unit


@dataclass(frozen=True)
class _Cells:
    """A row's cells by kind, each missing one a `Rejected`."""

    row: Value | None
    line: int

    def _cell(self, name: str) -> Quantity | str:
        if isinstance(self.row, FactsRow) and name in self.row.cells:
            return self.row.cells[name]
        raise Rejected(f'the row of the scale has no "{name}"', self.line)

    def text(self, name: str) -> str:
        cell = self._cell(name)
        if isinstance(cell, str):
            return cell
        raise Rejected(f'"{name}" of the scale is no text', self.line)

    def number(self, name: str) -> Fraction:
        cell = self._cell(name)
        if isinstance(cell, Quantity):
            return cell.value
        raise Rejected(f'"{name}" of the scale is no number', self.line)
