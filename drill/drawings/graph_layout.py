"""The layout of a graph on a screen: dots of its lines, cells of its numbers.

A small division is a whole number of dots, so that lines are sharp and a point half-way between
two of them can be seen. Dots count from the lower left corner of the plot, x to the right, y up.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from drill.model import Axis, Graph, GraphPoint
from drill.model.graph import dots_a_division

ACROSS, DOWN = 2, 4  # dots in a cell
LEFT, BELOW = 2, 2  # dots of the marks outside the axes
_ROWS_AROUND = 3  # what is measured upwards; the numbers along the bottom; what is measured there
_FEWEST = 2  # dots a small division; below that nothing can be read


class Layout(NamedTuple):
    """`margin` cells of numbers, then `columns` by `rows` cells of plot.

    `across` and `up` are dots per small division.
    """

    graph: Graph
    margin: int
    columns: int
    rows: int
    across: int
    up: int

    def dot(self, point: GraphPoint) -> tuple[float, float]:
        """Where a point lies."""
        return self.x_dot(point[0]), self.y_dot(point[1])

    def x_dot(self, value: Fraction) -> float:
        axis = self.graph.x
        return LEFT + float((value - axis.low) / axis.division) * self.across

    def y_dot(self, value: Fraction) -> float:
        axis = self.graph.y
        return BELOW + float((value - axis.low) / axis.division) * self.up

    def row_of(self, value: Fraction) -> int:
        """The row of cells, counted from the top, that a number of the vertical axis stands in."""
        return self.rows - 1 - int(self.y_dot(value)) // DOWN

    def column_of(self, value: Fraction) -> int:
        return int(self.x_dot(value)) // ACROSS


def layout(graph: Graph, columns: int, rows: int) -> Layout | None:
    """The largest plot in this many cells; None when there is too little space to read it."""
    margin = max(len(graph.y.number(value)) for value in graph.y.numbered()) + 1
    beyond = _beyond(graph)
    wide = (columns - margin - beyond) * ACROSS - LEFT - 1
    high = (rows - _ROWS_AROUND) * DOWN - BELOW - 1
    across = dots_a_division(graph.x.divisions, graph.x.spaces, wide, upright=False)
    up = dots_a_division(graph.y.divisions, graph.y.spaces, high, upright=True)
    if min(across, up) < _FEWEST or _crowded(graph.x, across):
        return None
    return Layout(
        graph,
        margin,
        _cells(LEFT + across * graph.x.divisions, ACROSS) + beyond,
        _cells(BELOW + up * graph.y.divisions, DOWN),
        across,
        up,
    )


def _cells(dots: int, in_a_cell: int) -> int:
    """Cells up to and with this dot."""
    return dots // in_a_cell + 1


def _beyond(graph: Graph) -> int:
    """Cells right of the plot: half the last number, or a line's name."""
    half = len(graph.x.number(graph.x.numbered()[-1])) // 2
    return max([half + 1, *(len(line.label) + 2 for line in graph.lines)])


def _crowded(axis: Axis, across: int) -> bool:
    """Whether the numbers along the bottom would touch."""
    widest = max(len(axis.number(value)) for value in axis.numbered())
    return across * axis.spaces < ACROSS * (widest + 1)
