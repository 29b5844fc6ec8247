"""Apparatus and scales for a page: the same drawings as on a screen, as vectors in black on white.

A liquid is shown by broken level lines, as on a blackboard, so that a copier keeps it.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from drill.drawings.cells import crossings
from drill.drawings.scales import scale_drawing
from drill.drawings.shapes import Area, Drawing, Picture, Polyline
from drill.drawings.words import scale_in_words
from drill.model import Scale
from drill.plaintext import harmless, one_line

# millimetres on paper
WIDEST, HIGHEST = 150.0, 70.0
_DOT = 1.0  # a dot of a scale: four of them are a small division
_LETTER, _INK = 3.5, 0.4
_EDGE = 2.0
_LEVELS, _DASH, _GAP = 3.0, 3.0, 3.0  # broken lines in a liquid


def picture_as_svg(picture: Picture) -> str:
    """An SVG element, sized for a page; `desc` holds the words for those who cannot see it."""
    drawing = picture.drawing
    return _svg(drawing, picture.words, min(WIDEST / drawing.width, HIGHEST / drawing.height))


def scale_as_svg(scale: Scale) -> str:
    """An SVG element with the scale at its reading, four millimetres a small division of a tube.

    Raises:
        KeyError: a shape that is not drawn.
    """
    return _svg(scale_drawing(scale), scale_in_words(scale), _DOT)


def _svg(drawing: Drawing, words: str, size: float) -> str:
    """`size` is millimetres per unit. It refers to no other file and contains no script."""
    from html import escape

    import drawsvg

    wide, high = drawing.width * size + 2 * _EDGE, drawing.height * size + 2 * _EDGE
    wide += max(_beyond(drawing, size), default=0.0)
    page = drawsvg.Drawing(
        round(wide, 2),
        round(high, 2),
        origin=(-_EDGE, -_EDGE),
        font_family="sans-serif",
        role="img",
    )
    page.set_render_size(f"{wide:.1f}mm", f"{high:.1f}mm")
    page.append(drawsvg.Raw(f"<desc>{escape(harmless(words, 2000), quote=False)}</desc>"))
    for element in _elements(drawing, size, drawsvg):
        page.append(element)
    return str(page.as_svg(header=""))


def _beyond(drawing: Drawing, size: float) -> Iterator[float]:
    """How far words reach over the right edge, in millimetres."""
    for word in drawing.words:
        share = {"start": 1.0, "middle": 0.5}.get(word.anchor, 0.0)
        reach = word.x * size + share * len(word.text) * _LETTER * 0.6
        yield max(0.0, reach - drawing.width * size)


def _elements(drawing: Drawing, size: float, svg: Any) -> Iterator[Any]:
    for area in drawing.areas:
        if area.solid:
            d = " ".join(f"{_d(path, size)} Z" for path in area.outline)
            yield svg.Path(d=d, fill="black", fill_rule="evenodd")
        else:
            d = " ".join(_d(path, size) for path in _level_lines(area, size))
            yield svg.Path(d=d, fill="none", stroke="black", stroke_width=_INK / 2)
    d = " ".join(_d(path, size) for path in drawing.lines)
    look = {"stroke_width": _INK, "stroke_linejoin": "round", "stroke_linecap": "round"}
    yield svg.Path(d=d, fill="none", stroke="black", **look)
    for word in drawing.words:
        x, y = round(word.x * size, 2), round(word.y * size + 0.35 * _LETTER, 2)
        yield svg.Text(one_line(word.text), _LETTER, x, y, text_anchor=word.anchor)


def _d(path: Polyline, size: float) -> str:
    """A polyline as the `d` of a path, in hundredths of a millimetre."""
    return "M " + " L ".join(f"{x * size:.2f} {y * size:.2f}" for x, y in path)


def _level_lines(area: Area, size: float) -> Iterator[Polyline]:
    """Dashes inside an area, every second row moved by half a step; in units of the drawing."""
    low = max(y for path in area.outline for _, y in path)
    top = min(y for path in area.outline for _, y in path)
    step, gap = _DASH / size, _GAP / size
    row, y = 0, top + _LEVELS / size / 2
    while y < low:
        ends = crossings(area, y, 1.0)
        for left, right in zip(ends[::2], ends[1::2], strict=False):
            x = (left // (step + gap)) * (step + gap) + (row % 2) * step
            while x < right:
                start, end = max(x, left + 0.5), min(x + step, right - 0.5)
                if end - start > step / 3:
                    yield ((start, y), (end, y))
                x += step + gap
        row, y = row + 1, y + _LEVELS / size
