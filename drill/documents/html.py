"""A document as one HTML file: inline vectors and style, no script, nothing fetched, fit for A4."""

from __future__ import annotations

from collections.abc import Iterator

from drill.documents.html_chart import chart_svg
from drill.documents.html_text import room, set_text
from drill.documents.safe_svg import safe_svg
from drill.documents.values import (
    Block,
    Chart,
    Document,
    Figure,
    Heading,
    Kept,
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
.tall td { height: 9mm; border: 1px solid #888; vertical-align: middle }
dl { display: grid; grid-template-columns: max-content 1fr; gap: .2em 1em }
dd { margin: 0 }
figure { margin: 1em 0 }
svg { max-width: 100%; height: auto }
.part { display: flex; gap: 1em; justify-content: space-between }
.marks { white-space: nowrap; align-self: end }
.room { border-bottom: 1px solid #888; height: 9mm }
.kept { break-inside: avoid; margin-top: 1.2em }
.kept p, .kept ul, .kept figure { margin: .4em 0 }
.kept-together { white-space: nowrap }
sub, sup { line-height: 0 }
.working { height: 9mm }
.form { display: flex; gap: 1.5em }
.form span { flex: 1; border-bottom: 1px solid #888; min-height: 1.6em }
.final { text-align: right }
.final span { display: inline-block; min-width: 45mm; border-bottom: 1px solid #888 }
.final .unit { min-width: 20mm }
.box { display: inline-block; width: 1em; height: 1em; border: 1px solid #111;
  margin-right: .6em; vertical-align: -.1em }
.tick { font-size: .9em; margin: 0 }
.boxes .box { width: 9mm; height: 9mm }
.large { font-size: 18pt }
footer { color: #555; font-size: 8pt; white-space: pre-line; margin-top: 2em }
.options { list-style: none; padding-left: 1em }
.page { break-after: page; border: 0; margin: 0 }
@media print { body { margin: 0; padding: 0; max-width: none } }
"""


def write(document: Document) -> str:
    """The whole file as text; every text in it is escaped."""
    inner = body(document.blocks, document.notation)
    title = escaped(document.title)
    foot = f"<footer>{escaped(document.foot)}</footer>\n" if document.foot else ""
    large = ' class="large"' if document.large else ""
    return (
        f'<!DOCTYPE html>\n<html lang="{escaped(document.language)}">\n<head>\n'
        '<meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{_POLICY}">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{title}</title>\n<style>{_STYLE}</style>\n</head>\n"
        f"<body{large}>\n<main>\n<h1>{title}</h1>\n{inner}\n</main>\n{foot}</body>\n</html>\n"
    )


def body(blocks: tuple[Block, ...], notation: bool = False) -> str:
    """Blocks as elements, for a page with a head of its own."""
    return "\n".join(_Body(notation).blocks(blocks))


class _Body:
    """Writes blocks in order.

    No heading is more than one level below the one before, and those of one level look alike.
    """

    def __init__(self, notation: bool = False) -> None:
        self._open = {1: 1}  # the levels of a document that are open, with those on the page
        self._said = set_text if notation else escaped

    def blocks(self, blocks: tuple[Block, ...]) -> Iterator[str]:
        for block in blocks:
            yield self._block(block)

    def _block(self, block: Block) -> str:
        match block:
            case Heading():
                return self._heading(block)
            case Paragraph(text, strong, quiet):
                said = f"<strong>{self._said(text)}</strong>" if strong else self._said(text)
                return f'<p class="quiet">{said}</p>' if quiet else f"<p>{said}</p>"
            case Labelled(pairs):
                inner = (f"<dt>{self._said(a)}</dt><dd>{self._said(b)}</dd>" for a, b in pairs)
                return f"<dl>{''.join(inner)}</dl>"
            case Listing(items, numbered):
                name = "ol" if numbered else "ul"
                inner = (f"<li>{self._said(one)}</li>" for one in items)
                return f"<{name}>{''.join(inner)}</{name}>"
            case Table():
                return self._table(block)
            case Figure():
                return self._figure(block)
            case Chart():
                return f"<figure>{chart_svg(block)}</figure>"
            case Part():
                return self._part(block)
            case Kept(blocks):
                return f'<section class="kept">{"".join(self.blocks(blocks))}</section>'
            case PageBreak():
                return '<hr class="page" aria-hidden="true">'
        return room(block)

    def _heading(self, heading: Heading) -> str:
        level = max(2, heading.level)
        self._open = {one: shown for one, shown in self._open.items() if one <= level}
        shown = self._open.setdefault(level, min(max(self._open.values()) + 1, 6))
        return f"<h{shown}>{self._said(heading.text)}</h{shown}>"

    def _table(self, table: Table) -> str:
        caption = f"<caption>{self._said(table.caption)}</caption>" if table.caption else ""
        head = "".join(self._headed(name, "col") for name in table.head)
        rows = "".join(
            f"<tr>{self._headed(first, 'row')}"
            f"{''.join(f'<td>{self._said(cell)}</td>' for cell in rest)}</tr>"
            for first, *rest in table.rows
        )
        tall = ' class="tall"' if table.tall else ""
        return f"<table{tall}>{caption}<thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table>"

    def _headed(self, name: str, scope: str) -> str:
        """A cell that heads a row or column; one that says nothing heads nothing."""
        return f'<th scope="{scope}">{self._said(name)}</th>' if name else "<td></td>"

    def _figure(self, figure: Figure) -> str:
        """The vectors with their words as description; the words alone when there are none."""
        vectors = safe_svg(figure.vectors, figure.words) if figure.vectors else ""
        said = self._said(figure.caption)
        caption = f"<figcaption>{said}</figcaption>" if figure.caption else ""
        return f"<figure>{vectors or f'<p>{self._said(figure.words)}</p>'}{caption}</figure>"

    def _part(self, part: Part) -> str:
        letter = f"({escaped(part.letter)}) " if part.letter else ""
        box = '<span class="box" aria-hidden="true"></span>' if part.tick else ""
        options = "".join(
            f"<li>{box}<strong>{escaped(one)}</strong> {self._said(text)}</li>"
            for one, text in part.options
        )
        marks = f'<p class="marks">[{counted(part.marks, "mark")}]</p>'
        listed = f'<ul class="options">{options}</ul>' if options else ""
        listed = f'<p class="tick">{escaped(part.tick)}</p>{listed}' if part.tick else listed
        return f'<div class="part"><p>{letter}{self._said(part.text)}</p>{marks}</div>{listed}'
