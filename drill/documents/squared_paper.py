"""Squared paper to plot or draw on, as vectors."""

from __future__ import annotations

from collections.abc import Iterator

_LARGE, _SMALL = 10, 2  # millimetres of a square


def grid_svg(across: int, up: int) -> str:
    """Squared paper as an SVG element: centimetres in bold, five small squares to each."""
    wide, high = across * _LARGE, up * _LARGE
    lines = "".join(_lines(wide, high))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="squared paper" '
        f'width="{wide}mm" height="{high}mm" viewBox="0 0 {wide} {high}">{lines}</svg>'
    )


def _lines(wide: int, high: int) -> Iterator[str]:
    for at in range(0, max(wide, high) + 1, _SMALL):
        look = 'stroke="#777" stroke-width="0.3"'
        if at % _LARGE:
            look = 'stroke="#bbb" stroke-width="0.12"'
        if at <= wide:
            yield f'<line x1="{at}" y1="0" x2="{at}" y2="{high}" {look}/>'
        if at <= high:
            yield f'<line x1="0" y1="{at}" x2="{wide}" y2="{at}" {look}/>'
