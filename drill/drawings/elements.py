"""One element of a drawing becomes polylines: a function for each, and the table of them."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping

from drill.drawings.paths import NotADrawing, numbers, path_lines
from drill.drawings.shapes import Polyline, Words, box, circle

__all__ = ["DRAWN", "NotADrawing", "box_of"]

LARGEST = 10_000.0
Attributes = Mapping[str, str]
DrawnElement = tuple[tuple[Polyline, ...], Words | None]

_PEN = ("fill", "stroke", "stroke-width")
_FILLS = ("none", "black", "silver")
_NUMBER = re.compile(r"[-+]?(?:\d{1,6}(?:\.\d{0,6})?|\.\d{1,6})", re.ASCII)


def box_of(attributes: Attributes) -> tuple[float, float]:
    """Width and height of the view box, whose corner must be at 0 0.

    Raises:
        NotADrawing: it is missing, or has another corner.
    """
    _only(attributes, "svg", ("xmlns", "viewBox", "width", "height", "version", *_PEN), fills=False)
    if attributes.get("xmlns", "http://www.w3.org/2000/svg") != "http://www.w3.org/2000/svg":
        raise NotADrawing("xmlns is not that of SVG.")
    sides = numbers(attributes.get("viewBox", ""))
    if len(sides) != 4 or sides[:2] != [0, 0] or not all(0 < s <= LARGEST for s in sides[2:]):
        raise NotADrawing('svg needs a viewBox such as "0 0 120 160".')
    return sides[2], sides[3]


def _only(attributes: Attributes, tag: str, known: tuple[str, ...], fills: bool = True) -> None:
    for name in attributes:
        if name not in known:
            raise NotADrawing(f'{tag} has the attribute "{name[:40]}", which is not read.')
    if fills and attributes.get("fill", "none") not in _FILLS:
        raise NotADrawing(f"fill is one of {', '.join(_FILLS)}.")


def _number(attributes: Attributes, name: str) -> float:
    text = attributes.get(name, "")
    if not _NUMBER.fullmatch(text.strip()):
        raise NotADrawing(f'{name} = "{text[:40]}" is no number.')
    return float(text)


def _four(attributes: Attributes, tag: str, names: tuple[str, ...]) -> list[float]:
    _only(attributes, tag, (*names, *_PEN))
    return [_number(attributes, name) for name in names]


def _line(attributes: Attributes) -> DrawnElement:
    x1, y1, x2, y2 = _four(attributes, "line", ("x1", "y1", "x2", "y2"))
    return (((x1, y1), (x2, y2)),), None


def _rect(attributes: Attributes) -> DrawnElement:
    x, y, wide, high = _four(attributes, "rect", ("x", "y", "width", "height"))
    return (box(x, y, x + wide, y + high),), None


def _circle(attributes: Attributes) -> DrawnElement:
    x, y, radius = _four(attributes, "circle", ("cx", "cy", "r"))
    if not 0 < radius <= LARGEST:
        raise NotADrawing("r must be above 0.")
    return (circle(x, y, radius),), None


def _points(attributes: Attributes, tag: str, close: bool) -> DrawnElement:
    _only(attributes, tag, ("points", *_PEN))
    found = numbers(attributes.get("points", ""))
    if len(found) < 4 or len(found) % 2:
        raise NotADrawing(f"{tag} needs two points or more, two numbers each.")
    path = tuple(zip(found[::2], found[1::2], strict=True))
    return ((*path, path[0]) if close else path,), None


def _path(attributes: Attributes) -> DrawnElement:
    _only(attributes, "path", ("d", *_PEN))
    return path_lines(attributes.get("d", "")), None


def _text(attributes: Attributes) -> DrawnElement:
    _only(attributes, "text", ("x", "y", "text-anchor", "font-size", *_PEN), fills=False)
    anchor = attributes.get("text-anchor", "start")
    if anchor not in ("start", "middle", "end"):
        raise NotADrawing("text-anchor is start, middle or end.")
    return (), Words(_number(attributes, "x"), _number(attributes, "y"), "", anchor)


DRAWN: Mapping[str, Callable[[Attributes], DrawnElement]] = {
    "path": _path,
    "line": _line,
    "polyline": lambda attributes: _points(attributes, "polyline", close=False),
    "polygon": lambda attributes: _points(attributes, "polygon", close=True),
    "circle": _circle,
    "rect": _rect,
    "text": _text,
}
