"""A document as PDF, set by typst, whose package brings the whole typesetter in a wheel.

Texts go to the typesetter as data, never as its language: `typeset.typ` says how each block looks.
Nothing is fetched and no file is read but the font. Chosen by what the pages look like and by
speed (a paper of ten pages in 0.1 s; a Python library that draws each line itself leaves line ends,
raised digits and what stays together to us).
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Sequence
from functools import cache
from pathlib import Path
from typing import Any, Literal

from drill.documents.html_chart import chart_svg
from drill.documents.larger_words import with_larger_words
from drill.documents.notation import runs
from drill.documents.safe_svg import safe_svg
from drill.documents.squared_paper import grid_svg
from drill.documents.values import (
    AnswerLines,
    Block,
    Boxes,
    Chart,
    Document,
    Figure,
    FinalAnswer,
    Form,
    Grid,
    Heading,
    Kept,
    Labelled,
    Listing,
    PageBreak,
    Paragraph,
    Part,
    Table,
    Working,
)
from drill.errors import DrillError
from drill.plaintext import harmless

_LONGEST = 20_000
_JOINED = "\N{WORD JOINER}"
_FONT = "Fira Sans"
_LARGE_LETTERS = 1.35  # of a drawing in large print, which is wider besides
_HOW = (
    "PDF needs the extra for papers: python -m pip install 'drill[paper]'. "
    "Without it: --format html,text."
)


def write(document: Document) -> bytes:
    """The document as a PDF of A4 pages, its text to be read aloud and searched.

    Raises:
        DrillError: the typesetter is not installed.
    """
    made = _compiled(document, "pdf")
    assert isinstance(made, bytes)
    return made


def pictures(document: Document, ppi: float = 70.0) -> list[bytes]:
    """The same pages as PNG pictures, to be looked at.

    Raises:
        DrillError: the typesetter is not installed.
    """
    made = _compiled(document, "png", ppi=ppi)
    return made if isinstance(made, list) else [made]


def _compiled(document: Document, to: Literal["pdf", "png"], ppi: float | None = None) -> Any:
    try:
        import typst
    except ImportError:
        raise DrillError(_HOW) from None
    style = Path(__file__).with_name("typeset.typ").read_bytes()
    compiler = typst.Compiler(style, font_paths=_fonts(), ignore_system_fonts=True)
    inputs = {"document": json.dumps(_document(document), ensure_ascii=False)}
    return compiler.compile(format=to, ppi=ppi, sys_inputs=inputs, timestamp=0)


@cache
def _fonts() -> Any:
    """The font that the extra brings, and those in the typesetter itself."""
    import typst

    try:
        import fontpkg_fira_sans as font
    except ImportError:
        raise DrillError(_HOW) from None
    folder = str(Path(str(font.__file__)).parent / "files")
    return typst.Fonts(include_system_fonts=False, font_paths=[folder])


def _document(document: Document) -> dict[str, Any]:
    said = _set if document.notation else _plain
    blocks = document.blocks
    if document.large:
        blocks = tuple(with_larger_words(one, _LARGE_LETTERS) for one in blocks)
    return {
        "title": said(document.title),
        "named": harmless(document.title),
        "foot": _plain(document.foot),
        "language": document.language.split("-")[0],
        "size": 18 if document.large else 11.5,
        "blocks": list(_blocks(blocks, said)),
    }


def _blocks(blocks: Sequence[Block], said: Any) -> Iterator[dict[str, Any]]:
    for block in blocks:
        yield {"is": type(block).__name__, **_fields(block, said)}


def _fields(block: Block, said: Any) -> dict[str, Any]:
    """What the style needs of a block, by the names it uses."""
    match block:
        case Heading(text, level):
            return {"text": said(text), "level": level}
        case Paragraph(text, strong, quiet):
            return {"text": said(text), "strong": strong, "quiet": quiet}
        case Labelled(pairs) | Form(pairs):
            return {"pairs": [[said(one), said(two)] for one, two in pairs]}
        case Listing(items, numbered):
            return {"items": [said(one) for one in items], "numbered": numbered}
        case Table(head, rows, caption, tall, inset):
            cells = [[said(cell) for cell in row] for row in rows]
            named = [said(one) for one in head]
            return {
                "head": named,
                "rows": cells,
                "caption": said(caption),
                "tall": tall,
                "inset": inset,
            }
        case Figure(words, vectors, _, caption):
            return _figure(safe_svg(vectors, words), words, said(caption), said)
        case Chart():
            return _figure(chart_svg(block), block.title, said(""), said)
        case Part(letter, text, marks, options, tick):
            listed = [[_plain(one), said(two)] for one, two in options]
            return {
                "letter": letter,
                "text": said(text),
                "marks": marks,
                "options": listed,
                "tick": tick,
            }
        case Boxes(count, inset):
            return {"count": count, "inset": inset}
        case AnswerLines(count) | Working(count):
            return {"count": count}
        case FinalAnswer(before, unit, unit_asked):
            return {"before": said(before), "unit": said(unit), "asked": unit_asked}
        case Grid(across, up):
            return {"svg": grid_svg(across, up), "wide": across * 10.0}
        case PageBreak(numbered_anew):
            return {"anew": numbered_anew}
        case Kept(inner):
            return {"blocks": list(_blocks(inner, said))}
    raise TypeError(f"no block: {type(block).__name__}")


def _figure(svg: str, words: str, caption: Any, said: Any) -> dict[str, Any]:
    """Vectors in their own size, in the font of the page; without them, the words."""
    wide = re.search(r'<svg[^>]* width="([\d.]+)mm"', svg)
    return {
        "svg": svg.replace("sans-serif", _FONT),
        "wide": float(wide[1]) if wide else 0.0,
        "words": harmless(words, _LONGEST),
        "text": said(words),
        "caption": caption,
    }


def _plain(text: str) -> list[list[str]]:
    """A text as one stretch."""
    return [[harmless(text, _LONGEST), ""]] if text else []


def _set(text: str) -> list[list[str]]:
    """A text in stretches: [text, place]; what is kept together has no place for a line to end."""
    return [
        [run.text.replace("/", f"/{_JOINED}") if run.kept else run.text, run.place]
        for run in runs(harmless(text, _LONGEST))
    ]
