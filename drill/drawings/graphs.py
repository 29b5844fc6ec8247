"""A graph on a screen: plotille sets the dots, numbers and names stand round them.

plotille's own axes divide the range evenly, which may put a mark at 8.57. So marks, numbers and the
dotted grid are placed here, from the question's own axes. The grid gives way to every line: a cell
that holds both shows the line alone, and `graph_grid` says which cells a screen can show fainter.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from itertools import pairwise
from math import hypot
from typing import TYPE_CHECKING

from drill.drawings.graph_layout import ACROSS, BELOW, DOWN, LEFT, Layout, layout
from drill.model import Axis, Graph, GraphLine

if TYPE_CHECKING:
    from plotille import Canvas

_ARM = 2  # dots from the middle of a cross to its ends
_DASH, _GAP = 5, 4  # dots of a dashed line
_BLANK = "\N{BRAILLE PATTERN BLANK}"


def graph_rows(graph: Graph, columns: int, rows: int) -> tuple[str, ...] | None:
    """The graph in at most this many cells; None if it would be too small to read."""
    place = layout(graph, columns, rows)
    if place is None:
        return None
    plotted = _merged(*_layers(place))
    numbers = {place.row_of(value): graph.y.number(value) for value in graph.y.numbered()}
    body = (
        f"{numbers.get(row, '').rjust(place.margin - 1)} {dots}".rstrip()
        for row, dots in enumerate(plotted)
    )
    width = place.margin + place.columns
    return (_head(graph, width), *body, _numbers_below(place), graph.x.label[:width].rjust(width))


def graph_grid(graph: Graph, columns: int, rows: int) -> tuple[str, ...]:
    """The same rows with nothing but the cells of the grid: what may be fainter than the lines."""
    place = layout(graph, columns, rows)
    if place is None:
        return ()
    lines, grid = _layers(place)
    left = " " * place.margin
    bare = (
        "".join(dots if line == " " else " " for line, dots in zip(above, below, strict=True))
        for above, below in zip(lines, grid, strict=True)
    )
    return ("", *(left + row for row in bare), "", "")


def _merged(lines: list[str], grid: list[str]) -> list[str]:
    return [
        "".join(dots if line == " " else line for line, dots in zip(above, below, strict=True))
        for above, below in zip(lines, grid, strict=True)
    ]


def _head(graph: Graph, width: int) -> str:
    """The label of the vertical axis; the title at the other end of the row if it fits."""
    label = graph.y.label[:width]
    room = width - len(label)
    return label + graph.title.rjust(room) if len(graph.title) + 3 <= room else label


def _numbers_below(place: Layout) -> str:
    """The numbers along the bottom, each with its middle below its line."""
    row = [" "] * (place.margin + place.columns)
    for value in place.graph.x.numbered():
        text = place.graph.x.number(value)
        start = place.margin + place.column_of(value) - (len(text) - 1) // 2
        for at, sign in enumerate(text, start):
            if 0 <= at < len(row):
                row[at] = sign
    return "".join(row).rstrip()


@lru_cache(maxsize=1)  # the rows of a graph and its grid come of one plot
def _layers(place: Layout) -> tuple[list[str], list[str]]:
    """Rows of dots from the top, twice: axes, lines and points; and the grid below them."""
    canvas, grid = _canvas(place), _canvas(place)
    _grid(grid, place)
    for point in place.graph.points:
        _box(grid, *place.dot(point), _ARM + 1)
    for line in place.graph.lines:
        _line(canvas, place, line)
    for point in place.graph.points:
        _cross(canvas, *place.dot(point))
    _axes(canvas, place)
    for line in place.graph.lines:
        _name(canvas, place, line)
    return _rows(canvas), _rows(grid)


def _canvas(place: Layout) -> Canvas:
    from plotille import Canvas

    return Canvas(place.columns, place.rows, 0, 0, place.columns * ACROSS, place.rows * DOWN)


def _rows(canvas: Canvas) -> list[str]:
    return [row.replace(_BLANK, " ") for row in str(canvas.plot()).split("\n")]


def _grid(canvas: Canvas, place: Layout) -> None:
    """Dots along every numbered line, one for each small division it crosses."""
    graph = place.graph
    across = [LEFT + i * place.across for i in range(graph.x.divisions + 1)]
    up = [BELOW + i * place.up for i in range(graph.y.divisions + 1)]
    for value in graph.y.numbered():
        for x in across:
            canvas.point(x, round(place.y_dot(value)))
    for value in graph.x.numbered():
        for y in up:
            canvas.point(round(place.x_dot(value)), y)


def _axes(canvas: Canvas, place: Layout) -> None:
    """Two lines with marks outside: long ones at the numbers, short ones at small divisions."""
    graph = place.graph
    right, top = place.x_dot(graph.x.high), place.y_dot(graph.y.high)
    canvas.line(LEFT, BELOW, right, BELOW)
    canvas.line(LEFT, BELOW, LEFT, top)
    for i in range(graph.x.divisions + 1):
        x = LEFT + i * place.across
        canvas.line(x, BELOW - _length(i, graph.x), x, BELOW)
    for i in range(graph.y.divisions + 1):
        y = BELOW + i * place.up
        canvas.line(LEFT - _length(i, graph.y), y, LEFT, y)


def _length(division: int, axis: Axis) -> int:
    return 1 if division % axis.spaces else 2


def _line(canvas: Canvas, place: Layout, line: GraphLine) -> None:
    ends = [place.dot(point) for point in line.path]
    if line.dashed:
        for x, y in _dashes(ends):
            canvas.point(round(x), round(y))
        return
    for (x1, y1), (x2, y2) in pairwise(ends):
        canvas.line(round(x1), round(y1), round(x2), round(y2))


def _dashes(ends: list[tuple[float, float]]) -> Iterator[tuple[float, float]]:
    """Points one dot apart along a path, except in the gaps."""
    gone = 0.0
    for (x1, y1), (x2, y2) in pairwise(ends):
        long = hypot(x2 - x1, y2 - y1)
        for step in range(int(long) + 1):
            if (gone + step) % (_DASH + _GAP) < _DASH:
                share = step / long if long else 0
                yield x1 + (x2 - x1) * share, y1 + (y2 - y1) * share
        gone += long


def _cross(canvas: Canvas, x: float, y: float) -> None:
    middle_x, middle_y = round(x), round(y)
    for arm in range(-_ARM, _ARM + 1):
        canvas.point(middle_x + arm, middle_y + arm)
        canvas.point(middle_x + arm, middle_y - arm)


def _box(canvas: Canvas, x: float, y: float, arm: int) -> None:
    """Clear the grid round a point, so that its cross stands free."""
    for i in range(-arm, arm + 1):
        for j in range(-arm, arm + 1):
            canvas.point(round(x) + i, round(y) + j, set_=False)


def _name(canvas: Canvas, place: Layout, line: GraphLine) -> None:
    """The label of a line, right of its end."""
    if line.label:
        x, y = place.dot(line.path[-1])
        canvas.text(min(x + 3, (place.columns - len(line.label)) * ACROSS), y, line.label)
