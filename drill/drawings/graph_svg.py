"""A graph for a page: vectors on squared paper, from the same value a screen is drawn from."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from drill.drawings.graph_words import graph_in_words
from drill.model import Axis, Graph, GraphLine, GraphPoint
from drill.plaintext import harmless

# millimetres on paper
WIDEST, HIGHEST = 140, 90  # of the grid
_LETTER, _LINE = 3.2, 4.6
_BELOW, _BESIDE = 13, 9
_ARM = 1.3

_FINE: dict[str, Any] = {"stroke": "#bbb", "stroke_width": 0.1}
_NUMBERED: dict[str, Any] = {"stroke": "#777", "stroke_width": 0.2}
_INK: dict[str, Any] = {"stroke": "black", "stroke_width": 0.35, "fill": "none"}


def graph_as_svg(graph: Graph) -> str:
    """An SVG element, sized in millimetres, its words in `title` and `desc`.

    It refers to no other file, contains no script, and conveys nothing by colour alone.
    """
    from html import escape

    import drawsvg

    page = _Page(graph, drawsvg)
    drawing = drawsvg.Drawing(page.width, page.height, font_family="sans-serif", role="img")
    drawing.set_render_size(f"{page.width:g}mm", f"{page.height:g}mm")
    drawing.append_title(harmless(graph.title))
    drawing.append(
        drawsvg.Raw(f"<desc>{escape(harmless(graph_in_words(graph), 20_000), quote=False)}</desc>")
    )
    for elements in (page.grid(), page.numbers(), page.lines(), page.crosses(), page.texts()):
        for element in elements:
            drawing.append(element)
    return str(drawing.as_svg(header=""))


class _Page:
    """Places in millimetres from the upper left corner; `svg` is the module of vectors."""

    def __init__(self, graph: Graph, svg: Any) -> None:
        self.graph, self.svg = graph, svg
        self.across = max(1, WIDEST // graph.x.divisions)
        self.up = max(1, HIGHEST // graph.y.divisions)
        widest = max(len(graph.y.number(value)) for value in graph.y.numbered())
        self.left = 3.0 + widest * _LETTER * 0.6
        self.top = 3 * _LINE
        self.right = self.left + self.across * graph.x.divisions
        self.bottom = self.top + self.up * graph.y.divisions
        labels = max((len(line.label) for line in graph.lines), default=0)
        self.width = self.right + max(_BESIDE, labels * _LETTER * 0.6 + 2)
        self.height = self.bottom + _BELOW

    def x(self, value: Any) -> float:
        axis = self.graph.x
        return self.left + float((value - axis.low) / axis.division) * self.across

    def y(self, value: Any) -> float:
        axis = self.graph.y
        return self.bottom - float((value - axis.low) / axis.division) * self.up

    def grid(self) -> Iterator[Any]:
        """Thin lines at small divisions, stronger ones at numbers, the two axes strongest."""
        for axis, style in ((self.graph.x, True), (self.graph.y, False)):
            for division in range(axis.divisions + 1):
                look = _FINE if division % axis.spaces else _NUMBERED
                yield self._across_the_grid(axis, division, style, look)
        yield self.svg.Line(self.left, self.top, self.left, self.bottom, **_INK)
        yield self.svg.Line(self.left, self.bottom, self.right, self.bottom, **_INK)

    def _across_the_grid(self, axis: Axis, division: int, upright: bool, look: Any) -> Any:
        value = axis.low + division * axis.division
        if upright:
            at = self.x(value)
            return self.svg.Line(at, self.top, at, self.bottom, **look)
        at = self.y(value)
        return self.svg.Line(self.left, at, self.right, at, **look)

    def numbers(self) -> Iterator[Any]:
        for value in self.graph.x.numbered():
            text = self.graph.x.number(value)
            yield self._text(text, self.x(value), self.bottom + _LINE, "middle")
        for value in self.graph.y.numbered():
            text = self.graph.y.number(value)
            yield self._text(text, self.left - 1.2, self.y(value) + _LETTER * 0.35, "end")

    def lines(self) -> Iterator[Any]:
        for line in self.graph.lines:
            ends = [place for point in line.path for place in (self.x(point[0]), self.y(point[1]))]
            dashes = {"stroke_dasharray": "2 1.5"} if line.dashed else {}
            yield self.svg.Lines(*(round(end, 3) for end in ends), **_INK, **dashes)

    def crosses(self) -> Iterator[Any]:
        for point in self.graph.points:
            x, y = self.x(point[0]), self.y(point[1])
            for side in (1, -1):
                yield self.svg.Line(x - _ARM, y - side * _ARM, x + _ARM, y + side * _ARM, **_INK)

    def texts(self) -> Iterator[Any]:
        """What is measured along the axes, the title, the names of lines."""
        graph = self.graph
        yield self._text(graph.title, (self.left + self.right) / 2, _LINE, "middle")
        yield self._text(graph.y.label, 1, self.top - 3, "start")
        yield self._text(graph.x.label, self.right, self.bottom + 2 * _LINE, "end")
        for line in graph.lines:
            if line.label:
                x, y = self._end(line)
                yield self._text(line.label, x + 1.5, y + _LETTER * 0.35, "start")

    def _end(self, line: GraphLine) -> tuple[float, float]:
        last: GraphPoint = line.path[-1]
        return self.x(last[0]), self.y(last[1])

    def _text(self, text: str, x: float, y: float, anchor: str) -> Any:
        return self.svg.Text(harmless(text), _LETTER, x, y, text_anchor=anchor)
