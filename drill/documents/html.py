"""A document as one HTML file: inline vectors and style, no script, nothing fetched, fit for A4."""

from __future__ import annotations

from collections.abc import Iterator

from drill.documents.html_chart import chart_svg
from drill.documents.safe_svg import safe_svg
from drill.documents.values import (
    AnswerLines,
    Block,
    Chart,
    Document,
    Figure,
    Heading,
    Labelled,
    Listing,
    PageBreak,
    Paragraph,
    Part,
    Table,
)
from drill.plaintext import counted, escaped

# a browser that keeps to this fetches and runs nothing, whatever a text may hold
_POLICY = "default-src 'none'; style-src 'unsafe-inline'"

_STYLE = """
@page { size: A4; margin: 18mm }
body { font: 11pt/1.45 sans-serif; color: #111; background: #fff; max-width: 174mm;
  margin: 1.5em auto; padding: 0 1em; overflow-wrap: anywhere }
h1, h2, h3, h4, h5, h6 { line-height: 1.2; break-after: avoid }
p, dd, li, td, th { white-space: pre-line }
.quiet { color: #555 }
table { border-collapse: collapse; margin: 1em 0 }
caption { text-align: left; font-weight: bold; padding-bottom: .3em }
th, td { text-align: left; vertical-align: top; padding: .2em .9em .2em 0;
  border-bottom: 1px solid #bbb }
thead { display: table-header-group }
tr, figure, .part { break-inside: avoid }
tbody th { font-weight: normal }
dl { display: grid; grid-template-columns: max-content 1fr; gap: .2em 1em }
dd { margin: 0 }
figure { margin: 1em 0 }
svg { max-width: 100%; height: auto }
.part { display: flex; gap: 1em; justify-content: space-between }
.marks { white-space: nowrap; align-self: end }
.room { border-bottom: 1px solid #888; height: 9mm }
.options { list-style: none; padding-left: 1em }
.page { break-after: page; border: 0; margin: 0 }
@media print { body { margin: 0; padding: 0; max-width: none } }
"""


def write(document: Document) -> str:
    """The whole file as text; every text in it is escaped."""
    body = "\n".join(_Body().blocks(document.blocks))
    title = escaped(document.title)
    return (
        f'<!DOCTYPE html>\n<html lang="{escaped(document.language)}">\n<head>\n'
        '<meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{_POLICY}">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{title}</title>\n<style>{_STYLE}</style>\n</head>\n"
        f"<body>\n<main>\n<h1>{title}</h1>\n{body}\n</main>\n</body>\n</html>\n"
    )


class _Body:
    """Writes blocks in order; no heading is more than one level below the one before."""

    def __init__(self) -> None:
        self._level = 1

    def blocks(self, blocks: tuple[Block, ...]) -> Iterator[str]:
        for block in blocks:
            yield self._heading(block) if isinstance(block, Heading) else _block(block)

    def _heading(self, heading: Heading) -> str:
        self._level = max(2, min(heading.level, self._level + 1, 6))
        return f"<h{self._level}>{escaped(heading.text)}</h{self._level}>"


def _block(block: Block) -> str:
    match block:
        case Paragraph(text, strong, quiet):
            said = f"<strong>{escaped(text)}</strong>" if strong else escaped(text)
            return f'<p class="quiet">{said}</p>' if quiet else f"<p>{said}</p>"
        case Labelled(pairs):
            inner = (f"<dt>{escaped(a)}</dt><dd>{escaped(b)}</dd>" for a, b in pairs)
            return f"<dl>{''.join(inner)}</dl>"
        case Listing(items, numbered):
            name = "ol" if numbered else "ul"
            return f"<{name}>{''.join(f'<li>{escaped(one)}</li>' for one in items)}</{name}>"
        case Table():
            return _table(block)
        case Figure():
            return _figure(block)
        case Chart():
            return f"<figure>{chart_svg(block)}</figure>"
        case Part():
            return _part(block)
        case AnswerLines(lines):
            return f'<div aria-hidden="true">{"<div class=room></div>" * lines}</div>'
        case PageBreak():
            return '<hr class="page" aria-hidden="true">'
    raise TypeError(f"no block: {type(block).__name__}")


def _table(table: Table) -> str:
    caption = f"<caption>{escaped(table.caption)}</caption>" if table.caption else ""
    head = "".join(f'<th scope="col">{escaped(name)}</th>' for name in table.head)
    rows = "".join(
        f'<tr><th scope="row">{escaped(first)}</th>'
        f"{''.join(f'<td>{escaped(cell)}</td>' for cell in rest)}</tr>"
        for first, *rest in table.rows
    )
    return f"<table>{caption}<thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table>"


def _figure(figure: Figure) -> str:
    """The vectors with their words as description; the words alone when there are none."""
    vectors = safe_svg(figure.vectors, figure.words) if figure.vectors else ""
    caption = f"<figcaption>{escaped(figure.caption)}</figcaption>" if figure.caption else ""
    return f"<figure>{vectors or f'<p>{escaped(figure.words)}</p>'}{caption}</figure>"


def _part(part: Part) -> str:
    letter = f"({escaped(part.letter)}) " if part.letter else ""
    options = "".join(
        f"<li><strong>{escaped(one)}</strong> {escaped(text)}</li>" for one, text in part.options
    )
    marks = f'<p class="marks">[{counted(part.marks, "mark")}]</p>'
    listed = f'<ul class="options">{options}</ul>' if options else ""
    return f'<div class="part"><p>{letter}{escaped(part.text)}</p>{marks}</div>{listed}'
