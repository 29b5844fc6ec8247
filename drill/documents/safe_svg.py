"""Vectors read again before they stand in a page: shapes and words pass, nothing that acts."""

from __future__ import annotations

from typing import TYPE_CHECKING

from drill.documents.notation import in_characters
from drill.plaintext import escaped

if TYPE_CHECKING:
    from xml.etree.ElementTree import Element

_SVG = "{http://www.w3.org/2000/svg}"
_SHAPES = {
    "svg", "g", "path", "line", "polyline", "polygon", "rect", "circle", "ellipse", "text", "tspan",
}  # fmt: skip
_LOOKS = {
    "d", "x", "y", "x1", "y1", "x2", "y2", "cx", "cy", "r", "rx", "ry", "dx", "dy", "points",
    "width", "height", "viewBox", "transform", "fill", "stroke", "fill-rule", "stroke-width",
    "stroke-dasharray", "stroke-linecap", "stroke-linejoin", "font-size", "font-family",
    "font-weight", "font-style", "text-anchor", "dominant-baseline", "baseline-shift", "opacity",
}  # fmt: skip


def safe_svg(vectors: str, words: str) -> str:
    """The SVG element with known shapes and looks only, and `words` as its name.

    "" when it cannot be read or declares entities. Ids, links, styles and events are left out: two
    drawings in a page cannot get in each other's way, and nothing is fetched or run.
    """
    from xml.etree.ElementTree import ParseError, fromstring

    if "<!" in vectors.replace("<!--", ""):
        return ""
    try:
        root = fromstring(vectors)
    except ParseError:
        return ""
    if root.tag.removeprefix(_SVG) != "svg":
        return ""
    inner = "".join(_element(child) + _text(child.tail) for child in root)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="{escaped(words)}"'
        f"{_attributes(root)}>{inner}</svg>"
    )


def _element(element: Element) -> str:
    name = element.tag.removeprefix(_SVG) if isinstance(element.tag, str) else ""
    if name not in _SHAPES:
        return ""
    inner = _text(element.text) + "".join(_element(one) + _text(one.tail) for one in element)
    return f"<{name}{_attributes(element)}>{inner}</{name}>"


def _attributes(element: Element) -> str:
    return "".join(
        f' {name}="{escaped(value)}"'
        for name, value in element.attrib.items()
        if name in _LOOKS and "url" not in value.casefold() and "\\" not in value
    )


def _text(text: str | None) -> str:
    return escaped(in_characters(text)) if text else ""
