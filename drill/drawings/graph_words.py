"""A graph in words: what one can see in it, each value read to half a small division.

Title, axes with their units and ranges, then tables of points and lines, in that order: UK
Association for Accessible Formats, Describing images 2: Charts and graphs (2012), for the order of
a description; that a table of values stands for the plot is common practice, no source. Gradients
and which point is the anomaly are left to the reader. A line is read at both its ends, as whoever
sees it does: whether it runs through the origin can be told in no other way.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

from drill.drawings.pieces_of_path import height_at
from drill.model import Axis, Graph, GraphLine, GraphPoint
from drill.model.graph import number_at
from drill.plaintext import counted
from drill.quantities import half_up

_MOST_READ = 24  # places at which one line is read


def graph_in_words(graph: Graph) -> str:
    """A few lines of text, one value a line."""
    lines = [
        f"Graph: {graph.title}.",
        f"Along the bottom: {_axis(graph.x)}.",
        f"Up the side: {_axis(graph.y)}.",
        "Values are read to half a small division.",
    ]
    bars = [line for line in graph.lines if _is_bar(graph, line)]
    drawn = [line for line in dict.fromkeys(graph.lines) if line not in bars]  # each told once
    told = [_line(graph, line) for line in drawn]
    lines += [*_points(graph, told), *_bars(graph, bars)]
    return "\n".join([*lines, *(row for rows in told for row in rows)])


def _points(graph: Graph, told: list[list[str]]) -> list[str]:
    """A value a point; only their places where a line's own values are all of them."""
    if not graph.points:
        return []
    count, read = len(graph.points), [_read(graph, point) for point in graph.points]
    if any(set(read) <= set(rows) for rows in told):
        places = ", ".join(_place(graph.x, x) for x, _ in graph.points)
        words = counted(count, "point is plotted", "points are plotted")
        return [f"{words}, on a line read below, at {places}."]
    return [counted(count, "point is plotted:", "points are plotted:"), *read]


def _is_bar(graph: Graph, line: GraphLine) -> bool:
    """A short level stroke, as a spot is drawn: a mark at a place and no run of values."""
    (x1, y1), (x2, y2) = line.path[0], line.path[-1]
    short = 0 < x2 - x1 < graph.x.step
    return line.straight and short and y1 == y2 and not line.label


def _bars(graph: Graph, bars: list[GraphLine]) -> list[str]:
    """Short level strokes by their place: "Lane 1: short level bars at 2.5, 4.0 and 8.5 cm."."""
    heights: dict[Fraction, list[Fraction]] = {}
    for line in bars:
        (x1, y), (x2, _) = line.path
        heights.setdefault((x1 + x2) / 2, []).append(y)
    quantity = graph.x.quantity[:1].upper() + graph.x.quantity[1:]
    return [
        f"{quantity} {_place(graph.x, x)}: {_at_heights(graph.y, heights[x])}."
        for x in sorted(heights)
    ]


def _at_heights(axis: Axis, heights: list[Fraction]) -> str:
    read = [number_at(read_to_half(one, axis), axis.half) for one in sorted(set(heights))]
    listed = " and ".join(filter(None, (", ".join(read[:-1]), read[-1])))
    bars = "a short level bar" if len(read) == 1 else "short level bars"
    return f"{bars} at {listed} {axis.unit}".rstrip()


def _axis(axis: Axis) -> str:
    unit = f" in {axis.unit}" if axis.unit else ""
    return (
        f"{axis.quantity}{unit}, from {_short(axis.low)} to {_short(axis.high)}, "
        f"numbered every {_short(axis.step)}, small divisions of {_short(axis.division)}"
    )


def _short(value: Fraction) -> str:
    """A number with no more places than it needs."""
    places = next((n for n in range(7) if (value * 10**n).denominator == 1), 7)
    return number_at(value, Fraction(1, 10**places))


def _read(graph: Graph, point: GraphPoint) -> str:
    """ "20 s: 14.5 cm3"."""
    height = number_at(read_to_half(point[1], graph.y), graph.y.half)
    return f"{_place(graph.x, point[0])}: {height} {graph.y.unit}".rstrip()


def read_to_half(value: Fraction, axis: Axis) -> Fraction:
    """The value to the nearest half of a small division."""
    return _whole(value, axis.half)


def _whole(value: Fraction, of: Fraction) -> Fraction:
    return half_up(value / of, 0) * of


def _line(graph: Graph, line: GraphLine) -> list[str]:
    (x1, _), (x2, _) = line.path[0], line.path[-1]
    name = f" {line.label}" if line.label else ""
    style = "dashed " if line.dashed else ""
    start, stop = (_place(graph.x, end) for end in (x1, x2))
    if x1 == x2:
        article = "A dashed" if line.dashed else "An"
        return [f"{article} upright line{name} stands at {start}."]
    if line.straight and line.path[0][1] == line.path[-1][1]:
        height = number_at(read_to_half(line.path[0][1], graph.y), graph.y.half)
        at = f"{height} {graph.y.unit}".rstrip()
        return [f"A {style}level line{name} is drawn at {at}, from {start} to {stop}."]
    shape = "straight line" if line.straight else "smooth curve"
    head = f"A {style}{shape}{name} is drawn from {start} to {stop}. Read on it:"
    return [head, *(_read(graph, (at, height_at(line.path, at))) for at in _places(graph, line))]


def _place(axis: Axis, value: Fraction) -> str:
    return f"{_short(read_to_half(value, axis))} {axis.unit}".rstrip()


def _places(graph: Graph, line: GraphLine) -> list[Fraction]:
    """Its ends, the numbered lines it crosses, and for a curve further values between them.

    There are enough of them that the curve is straight from one to the next, to within a quarter
    of a small division.
    """
    low, high = line.path[0][0], line.path[-1][0]
    numbered = [at for at in graph.x.numbered() if low <= at <= high]
    places = sorted({low, *numbered, high})
    while not line.straight and len(places) < _MOST_READ:
        worst = max(pairwise(places), key=lambda gap: _bend(graph, line, gap))
        middle = graph.x.low + _whole((worst[0] + worst[1]) / 2 - graph.x.low, graph.x.half)
        if _bend(graph, line, worst) * 4 <= graph.y.division or middle in worst:
            break
        places = sorted([*places, middle])
    return places


def _bend(graph: Graph, line: GraphLine, gap: tuple[Fraction, Fraction]) -> Fraction:
    """How far the line departs from the chord between two points, at a few points between."""
    (x1, x2), of = gap, 8
    y1, y2 = height_at(line.path, x1), height_at(line.path, x2)
    return max(
        abs(height_at(line.path, x1 + (x2 - x1) * i / of) - (y1 + (y2 - y1) * i / of))
        for i in range(1, of)
    )
