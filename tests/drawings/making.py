"""Scales, windows of dots and small SVG texts for these tests."""

from __future__ import annotations

from fractions import Fraction

from drill.bank import read_facts
from drill.drawings import Picture, read_svg
from drill.errors import Problem
from drill.frozen import replace
from drill.model import Scale
from drill.places import bank_dir
from drill.quantities import FactsRow, Quantity

HEAD = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 40">\n<desc>A thing.</desc>\n'


def rows() -> tuple[FactsRow, ...]:
    """Every instrument of the bank."""
    return tuple(
        row
        for row in read_facts(bank_dir() / "facts" / "instruments.csv")
        if isinstance(row, FactsRow)
    )


def scale_from(row: FactsRow, reading: Fraction | None = None) -> Scale:
    """An instrument of the bank; without a reading, at its lowest line."""
    cells = row.cells

    def number(name: str) -> Fraction:
        cell = cells[name]
        assert isinstance(cell, Quantity)
        return cell.value

    made = Scale(
        shape=str(cells["shape"]),
        name=str(cells["name"]),
        unit=str(cells["unit"]),
        low=number("low"),
        high=number("high"),
        division=number("division"),
        spaces=int(number("spaces")),
        reading=number("low"),
    )
    return made if reading is None else replace(made, reading=reading)


def dots_of(rows: tuple[str, ...]) -> set[tuple[int, int]]:
    """The dots set in rows of braille, as (x, y), told from the Unicode numbering of the dots.

    Dots 1 2 3 go down the left column and 4 5 6 down the right one; 7 and 8 are the lowest row.
    """
    places = ((0, 0), (0, 1), (0, 2), (1, 0), (1, 1), (1, 2), (0, 3), (1, 3))
    return {
        (2 * column + x, 4 * row + y)
        for row, text in enumerate(rows)
        for column, sign in enumerate(text)
        if 0x2800 <= ord(sign) <= 0x28FF
        for bit, (x, y) in enumerate(places)
        if ord(sign) - 0x2800 >> bit & 1
    }


def svg(body: str, head: str = HEAD) -> Picture | Problem:
    return read_svg((head + body + "\n</svg>").encode(), "drawing.svg")
