"""Columns of text for a screen, laid out by rich."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from drill.plaintext import harmless

if TYPE_CHECKING:
    from rich.table import Table

LONGEST_CELL = 2_000


def screen_table(head: Sequence[str], rows: Sequence[Sequence[str]]) -> Table:
    """A table without lines, two columns in, as wide as it needs to be; cells made harmless."""
    from rich.table import Table
    from rich.text import Text

    table = Table(box=None, pad_edge=True, padding=(0, 0, 0, 2), header_style="dim")
    for name in head:
        table.add_column(Text(harmless(name)), overflow="fold")
    for row in rows:
        table.add_row(*(Text(harmless(cell, LONGEST_CELL)) for cell in row))
    return table


def plain_rows(head: Sequence[str], rows: Sequence[Sequence[str]]) -> list[str]:
    """A line a row for a screen reader: name and value of each cell that holds something.

    Commas part them, or semicolons in all rows where a cell holds a comma itself.
    """
    apart = "; " if any("," in cell for row in rows for cell in row) else ", "
    return [
        apart.join(
            f"{name} {harmless(cell, LONGEST_CELL)}".strip()
            for name, cell in zip(head, row, strict=True)
            if cell
        )
        for row in rows
    ]
