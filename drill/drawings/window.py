"""Which stretch of a scale is drawn: two numbers or more, the reading between them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from drill.model import Scale


@dataclass(frozen=True)
class Line:
    """One line of the scale: its value, its number ("" without), and 0, 1, 2 for how long."""

    value: Fraction
    number: str
    length: int


@dataclass(frozen=True)
class Window:
    """The lines drawn, from the lowest value up."""

    scale: Scale
    lines: tuple[Line, ...]

    @property
    def place(self) -> Fraction:
        """How many divisions the reading is above the first line."""
        return (self.scale.reading - self.lines[0].value) / self.scale.division


def window(scale: Scale, most: int) -> Window:
    """A stretch of at most `most` divisions and at least from number to number."""
    last = int((scale.high - scale.low) / scale.division)
    at = (scale.reading - scale.low) / scale.division
    below = int(at) // scale.spaces * scale.spaces
    if below == last:
        below -= scale.spaces
    pairs = max(1, (most - 2) // scale.spaces)
    first = below - (pairs - 1) // 2 * scale.spaces
    first = max(0, min(first, last - pairs * scale.spaces))
    start, stop = max(0, first - 1), min(last, first + pairs * scale.spaces + 1)
    return Window(scale, tuple(_lines(scale, start, stop)))


def _lines(scale: Scale, start: int, stop: int) -> Iterator[Line]:
    for index in range(start, stop + 1):
        value = scale.low + index * scale.division
        numbered = index % scale.spaces == 0
        half = scale.spaces % 2 == 0 and index % (scale.spaces // 2) == 0
        number = number_on(scale, value) if numbered else ""
        yield Line(value, number, 2 if numbered else 1 if half else 0)


def number_on(scale: Scale, value: Fraction) -> str:
    """A number as it is printed on the scale: with as many places as its numbers need."""
    step = scale.division * scale.spaces
    places = next((n for n in range(5) if (step * 10**n).denominator == 1), 5)
    shown = f"{float(value):.{places}f}"
    return shown.replace("-", "\N{MINUS SIGN}") if value else shown.lstrip("-")
