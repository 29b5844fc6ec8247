"""Reads the limited subset of SVG that drawings are written in; everything else is refused.

Elements: svg, g, desc, path, line, polyline, polygon, circle, rect, text. Attributes: a viewBox,
coordinates, `fill` ("none", "black" for solid, "silver" for a liquid's loose pattern) and, since
editors write them, `stroke` and `stroke-width`, which are ignored. No style, link, script,
transformation, entity or document type. `desc` holds the words that stand for the drawing.

Source of the shapes' meaning: W3C, Scalable Vector Graphics (SVG) 1.1 (Second Edition), 2011,
chapters 8 (paths) and 9 (basic shapes).
"""

from __future__ import annotations

from xml.parsers import expat

from drill.drawings.elements import DRAWN, NotADrawing, box_of
from drill.drawings.shapes import Area, Drawing, Picture, Polyline, Words
from drill.errors import Problem
from drill.plaintext import one_line

MOST_BYTES = 64 * 1024
MOST_ELEMENTS = 1000
MOST_POINTS = 50_000
_LEVELS = 8
_INNER = {"svg": ("g", "desc", *DRAWN), "g": ("g", *DRAWN)}
_TEXTS = ("desc", "text")


def read_svg(data: bytes, path: str) -> Picture | Problem:
    """The drawing of a file, or the first fault in it with its line."""
    if len(data) > MOST_BYTES:
        return Problem(path, 0, 0, f"a drawing has at most {MOST_BYTES} bytes.")
    reader = _Reader()
    try:
        reader.parser.Parse(data, True)
        return reader.picture()
    except NotADrawing as fault:
        return Problem(path, reader.parser.CurrentLineNumber, 0, str(fault))
    except expat.ExpatError as error:
        return Problem(path, error.lineno, 0, f"not XML: {expat.ErrorString(error.code)}.")


class _Reader:
    """One pass over a file; expat calls the methods below, and any of them may refuse."""

    def __init__(self) -> None:
        self.parser = parser = expat.ParserCreate()
        parser.StartElementHandler = self._start
        parser.EndElementHandler = self._end
        parser.CharacterDataHandler = self._text
        parser.StartDoctypeDeclHandler = self._doctype
        parser.ProcessingInstructionHandler = self._instruction
        self._open: list[str] = []
        self._said: list[str] = []
        self._count = self._points = 0
        self._size: tuple[float, float] | None = None
        self._at: dict[str, str] = {}
        self._lines: list[Polyline] = []
        self._areas: list[Area] = []
        self._words: list[Words] = []
        self._desc = ""

    def picture(self) -> Picture:
        """What was read.

        Raises:
            NotADrawing: it has no words, or nothing is drawn.
        """
        if not self._desc:
            raise NotADrawing("the drawing has no desc, the words for who cannot see it.")
        if self._size is None or not (self._lines or self._areas):
            raise NotADrawing("nothing is drawn.")
        wide, high = self._size
        drawing = Drawing(wide, high, tuple(self._lines), tuple(self._areas), tuple(self._words))
        return Picture(drawing, self._desc)

    def _doctype(self, *_: object) -> None:
        raise NotADrawing("a document type is not read; take the line out.")

    def _instruction(self, target: str, _: str) -> None:
        raise NotADrawing(f'the instruction "{one_line(target, 40)}" is not read; take it out.')

    def _start(self, tag: str, attributes: dict[str, str]) -> None:
        self._allow(tag)
        self._open.append(tag)
        if tag == "svg":
            self._size = box_of(attributes)
        elif tag in _TEXTS:
            self._said = []
            self._at = attributes
        if tag in DRAWN:
            self._draw(tag, attributes)
        elif tag != "svg" and attributes:
            raise NotADrawing(f'{tag} has the attribute "{one_line(next(iter(attributes)), 40)}".')

    def _allow(self, tag: str) -> None:
        around = self._open[-1] if self._open else ""
        inner = _INNER.get(around, ()) if around else ("svg",)
        if tag not in inner:
            place = f"in {around}" if around else "outermost"
            raise NotADrawing(f'the element "{one_line(tag, 40)}" is not read {place}.')
        self._count += 1
        if self._count > MOST_ELEMENTS or len(self._open) >= _LEVELS:
            raise NotADrawing("too many elements.")

    def _draw(self, tag: str, attributes: dict[str, str]) -> None:
        fill = attributes.get("fill", "none")
        paths, words = DRAWN[tag](attributes)
        self._points += sum(len(path) for path in paths)
        if self._points > MOST_POINTS:
            raise NotADrawing("too many points.")
        if words is not None:
            self._words.append(words)
        if fill in ("black", "silver"):
            self._areas.append(Area(tuple((*path, path[0]) for path in paths), fill == "black"))
        if fill != "silver":
            self._lines.extend(paths)

    def _text(self, text: str) -> None:
        if self._open and self._open[-1] in _TEXTS:
            self._said.append(text)
        elif text.strip():
            raise NotADrawing(f'"{one_line(text, 40)}" stands where nothing is drawn.')

    def _end(self, tag: str) -> None:
        self._open.pop()
        said = " ".join("".join(self._said).split()) if tag in _TEXTS else ""
        if tag == "desc":
            if self._desc or not said or len(said) > 1000:
                raise NotADrawing("one desc of 1 to 1000 characters stands at the top.")
            self._desc = one_line(said, 1000)
        elif tag == "text":
            if not 0 < len(said) <= 40:
                raise NotADrawing("a text has 1 to 40 characters.")
            last = self._words.pop()
            self._words.append(Words(last.x, last.y, one_line(said, 40), last.anchor))
