"""A graph: what an author asked to be drawn, and the same with its axes and numbers chosen.

Axes are chosen where a question is made, so that a screen, a page and a mark scheme share them.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from drill.quantities import Expression, show_decimals

GraphPoint = tuple[Fraction, Fraction]  # x and y, in the units of their axes


def number_at(value: Fraction, step: Fraction) -> str:
    """A number as it stands at an axis: with as many decimal places as its steps need."""
    places = next((n for n in range(7) if (step * 10**n).denominator == 1), 7)
    return show_decimals(value, places).replace("-", "\N{MINUS SIGN}")


def dots_a_division(divisions: int, spaces: int, dots: int, upright: bool) -> int:
    """The most whole dots a small division may have on a screen, 0 when they are too many.

    Args:
        divisions: of the whole axis; `spaces` of them from number to number.
        dots: there are for the axis.
        upright: its numbers then like to stand level with their lines, in rows of four dots.
    """
    most = dots // divisions
    if not upright:
        return most
    level = next((n for n in range(most, 0, -1) if n * spaces % 4 == 0), 0)
    return level if level * 4 >= most * 3 else most


class Axis(NamedTuple):
    """One axis; every number is in `unit`.

    From `low` to `high` every `step` has its number, and `spaces` small divisions lie between two
    numbers. `quantity` is what is measured along it.
    """

    quantity: str
    unit: str
    low: Fraction
    high: Fraction
    step: Fraction
    spaces: int

    @property
    def division(self) -> Fraction:
        """What a small division is worth."""
        return self.step / self.spaces

    @property
    def half(self) -> Fraction:
        """Half a small division: how far off a value read on this axis may be."""
        return self.division / 2

    @property
    def divisions(self) -> int:
        """Small divisions in all."""
        return int((self.high - self.low) / self.division)

    @property
    def label(self) -> str:
        """ "time / s": NIST Special Publication 811 (2008), section 7.1, quantity over unit."""
        return f"{self.quantity} / {self.unit}" if self.unit else self.quantity

    def number(self, value: Fraction) -> str:
        """What stands beside a numbered line."""
        return number_at(value, self.step)

    def numbered(self) -> tuple[Fraction, ...]:
        """The values that have their numbers, from the lowest up."""
        count = int((self.high - self.low) / self.step)
        return tuple(self.low + place * self.step for place in range(count + 1))


class GraphLine(NamedTuple):
    """A drawn line: `path` from left to right, exact; two points when it is `straight`."""

    path: tuple[GraphPoint, ...]
    straight: bool
    dashed: bool
    label: str


class Graph(NamedTuple):
    """Everything that is drawn: axes, plotted points, and lines, each inside the axes."""

    title: str
    x: Axis
    y: Axis
    points: tuple[GraphPoint, ...]
    lines: tuple[GraphLine, ...]


# ------------------------------------------------------------------ as an author wrote it


class AxisSpec(NamedTuple):
    """`low` and `high` are values the axis must hold, besides what is drawn."""

    quantity: str
    unit: str
    low: Expression | None
    high: Expression | None
    line: int


class PointsSpec(NamedTuple):
    """`x` gives a list; `y` is worked out point by point, a list in it standing for its item."""

    x: Expression
    y: Expression
    line: int


class LineSpec(NamedTuple):
    """One of: `y` over `start` to `stop` (a formula in x), `through` lists, upright `at` an x."""

    y: Expression | None
    start: Expression | None
    stop: Expression | None
    through: PointsSpec | None
    at: Expression | None
    dashed: bool
    label: str
    line: int


class GraphSpec(NamedTuple):
    title: str
    x: AxisSpec
    y: AxisSpec
    points: PointsSpec | None
    lines: tuple[LineSpec, ...]
    line: int
