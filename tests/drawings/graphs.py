"""Graphs for these tests, and an eye that reads one off its rows of dots and numbers alone."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from hypothesis import strategies as st

from drill.generate.pictures.axes import ACROSS, UP, numbers_for
from drill.model import Axis, Graph, GraphLine, GraphPoint
from tests.drawings.making import dots_of

Dots = set[tuple[int, int]]


def axis(quantity: str, unit: str, least: Fraction, most: Fraction, upright: bool) -> Axis:
    return Axis(quantity, unit, *numbers_for(least, most, UP if upright else ACROSS))


def graph(
    points: list[GraphPoint], lines: tuple[GraphLine, ...] = (), title: str = "A graph"
) -> Graph:
    """A graph of these, its axes chosen as for a question."""
    every = [*points, *(point for line in lines for point in line.path)]
    xs, ys = [x for x, _ in every], [y for _, y in every]
    return Graph(
        title,
        axis("time", "s", min(xs), max(xs), upright=False),
        axis("volume of gas", "cm3", min(ys), max(ys), upright=True),
        tuple(sorted(points)),
        lines,
    )


def straight(*path: tuple[int, int], dashed: bool = False, label: str = "") -> GraphLine:
    points = tuple((Fraction(x), Fraction(y)) for x, y in path)
    return GraphLine(points, len(path) == 2, dashed, label)


NUMBERS = st.fractions(min_value=-1000, max_value=1000, max_denominator=50)
SPREAD = st.fractions(min_value=Fraction(1, 10), max_value=2000, max_denominator=50)


@st.composite
def graphs(draw: st.DrawFn) -> Graph:
    """Two points that set the axes, and one somewhere between them."""
    (left, low), wide, high = draw(st.tuples(NUMBERS, NUMBERS)), draw(SPREAD), draw(SPREAD)
    across, up = (draw(st.fractions(0, 1, max_denominator=1000)) for _ in range(2))
    between = (left + across * wide, low + up * high)
    line = GraphLine(((left, low), (left + wide, low + high)), True, False, "")
    made = graph([between], (line,))
    return made._replace(lines=())


@dataclass(frozen=True)
class Scale:
    """Two numbered marks of an axis: their dots and values."""

    first: tuple[int, Fraction]
    last: tuple[int, Fraction]

    def value(self, dot: float) -> Fraction:
        (d1, v1), (d2, v2) = self.first, self.last
        return v1 + (v2 - v1) * (Fraction(dot) - d1) / (d2 - d1)


def number(text: str) -> Fraction:
    return Fraction(text.replace("\N{MINUS SIGN}", "-"))


def scales(rows: tuple[str, ...]) -> tuple[Scale, Scale]:
    """Both axes, from their long marks and the numbers printed beside and below them."""
    dots = dots_of(rows)
    left = min(x for x, _ in dots) + 2  # a long mark is two dots outside its axis
    lowest = max(y for _, y in dots)
    bottom = lowest - 2
    up = sorted((y for x, y in dots if x == left - 2), reverse=True)
    across = sorted(x for x, y in dots if y == lowest)
    beside = [number(m[1]) for row in rows[1:-2] if (m := re.match(r"\s*([−\d.]+) ", row))]
    below = [number(text) for text in rows[-2].split()]
    assert len(up) == len(beside)
    assert len(across) == len(below)
    assert (left, bottom) in dots
    values = beside[::-1]
    return (
        Scale((across[0], below[0]), (across[-1], below[-1])),
        Scale((up[0], values[0]), (up[-1], values[-1])),
    )


def crosses(rows: tuple[str, ...]) -> set[tuple[int, int]]:
    """The middles of crosses that stand free of every other dot, five by five."""
    dots = dots_of(rows)
    arm = range(-2, 3)
    return {
        (x, y)
        for x, y in dots
        if all(((x + i, y + j) in dots) == (abs(i) == abs(j)) for i in arm for j in arm)
    }
