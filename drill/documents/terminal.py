"""A document as lines of text, for a screen of a given width or (plain) for a screen reader."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence
from io import StringIO
from typing import TYPE_CHECKING

from drill.documents.tables import plain_rows, screen_table
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
from drill.plaintext import counted, harmless

if TYPE_CHECKING:
    from rich.console import Console

_LABEL = 10  # columns of a label
_CHART, _LEAST_CHART = 31, 17  # columns of a bar
_LABELS, _GAPS = 30, 10  # columns of a bar's label, and of the space between the columns
_LINE = "_" * 24
_LONGEST = 20_000  # characters of one text


def write(document: Document, width: int = 80, plain: bool = False, colour: bool = False) -> str:
    """The document as text of at most `width` columns.

    Args:
        plain: no lines, columns or drawings: words only, in the order they are read.
        colour: with the terminal's codes for bold and dim.
    """
    from rich.console import Console

    console = Console(
        file=StringIO(),
        width=width,
        force_terminal=colour,
        no_color=not colour,
        highlight=False,
        markup=False,
        emoji=False,
        legacy_windows=False,
    )
    page = _Page(console, width, plain)
    page.line(document.title, "bold")
    page.rule()
    page.blocks(document.blocks)
    if document.foot:
        page.line()
        page.line(document.foot, "dim")
    assert isinstance(console.file, StringIO)
    return console.file.getvalue()


def _apart(before: Block, block: Block) -> bool:
    """Whether an empty line stands between two: not between a text and what belongs to it."""
    belongs = isinstance(before, Paragraph | Heading) and isinstance(block, Labelled | Table)
    return not belongs


class _Page:
    """Puts one block after the other on a console."""

    def __init__(self, console: Console, width: int, plain: bool) -> None:
        self.console, self.width, self.plain = console, width, plain

    def blocks(self, blocks: Sequence[Block]) -> None:
        """One after the other, an empty line between what is apart."""
        for before, block in zip((None, *blocks), blocks, strict=False):
            if before is not None and _apart(before, block):
                self.line()
            self.block(block)

    def block(self, block: Block) -> None:
        match block:
            case Heading(text):
                self.line(text, "bold")
            case Paragraph(text, strong, quiet):
                self.line(text, "bold" if strong else "dim" if quiet else "")
            case Labelled(pairs):
                for label, text in pairs:
                    self._labelled(label, text, _LABEL)
            case Listing(items, numbered):
                for number, item in enumerate(items, 1):
                    self._hanging(f"  {number}. " if numbered else "  - ", item)
            case Table(head, rows):
                self._table(head, rows)
            case Figure():
                self._figure(block)
            case Chart():
                self._chart(block)
            case Part():
                self._part(block)
            case AnswerLines(lines):
                for _ in range(0 if self.plain else lines):
                    self._print("_" * self.width)
            case Working(lines):
                for _ in range(0 if self.plain else lines):
                    self._print("")
            case FinalAnswer(before, unit, unit_asked):
                self.line(
                    f"{before} {_LINE} {f'unit {_LINE[:8]}' if unit_asked else unit}".rstrip()
                )
            case Form(fields):
                self.line("   ".join(f"{label} {value or _LINE}" for label, value in fields))
            case Boxes(count):
                self.line("[  ] " * (0 if self.plain else count))
            case Grid(across, up):
                self.line(f"(squared paper, {across} by {up} cm)")
            case Kept(blocks):
                self.blocks(blocks)
            case PageBreak():
                self.rule()

    def line(self, text: str = "", style: str = "") -> None:
        """A paragraph, wrapped; line ends and indents in it are kept."""
        for row in harmless(text, _LONGEST).split("\n"):
            under = row[: len(row) - len(row.lstrip(" "))][: self.width // 2]
            for piece in textwrap.wrap(
                row, self.width, subsequent_indent=under, break_on_hyphens=False
            ) or [""]:
                self._print(piece, style)

    def rule(self) -> None:
        """A thin line across; nothing in plain mode."""
        if not self.plain:
            self._print("─" * self.width, "dim")

    def _print(self, text: str, style: str = "") -> None:
        self.console.print(text, style=style or None, soft_wrap=True)

    def _labelled(self, label: str, text: str, width: int) -> None:
        label = harmless(label, 200)
        if self.plain:
            self.line(f"{label}: {text}")
        else:
            self._hanging(f"  {label.ljust(width)}  ", text)

    def _hanging(self, first: str, text: str) -> None:
        """Text beside its first words, its further lines under it."""
        rows = harmless(text, _LONGEST).split("\n")
        margin = " " * min(len(first), self.width // 2)
        for number, row in enumerate(rows):
            lead = margin if number else first
            pieces = textwrap.wrap(
                row,
                self.width,
                initial_indent=lead,
                subsequent_indent=margin,
                break_on_hyphens=False,
            )
            for piece in pieces or [lead.rstrip()]:
                self._print(piece)

    def _table(self, head: tuple[str, ...], rows: tuple[tuple[str, ...], ...]) -> None:
        if self.plain:
            for line in plain_rows(head, rows):
                self.line(line)
        else:
            print_table(self.console, head, rows, self.width)

    def _figure(self, figure: Figure) -> None:
        if self.plain or not figure.cells or max(map(len, figure.cells)) > self.width:
            self.line(figure.words)
        else:
            for row in figure.cells:
                self._print(harmless(row).rstrip())
        if figure.caption:
            self.line(figure.caption, "dim")

    def _chart(self, chart: Chart) -> None:
        self.line(chart.title)
        shares = [(bar.label, *_shares(bar.value, bar.low, bar.high)) for bar in chart.bars]
        if self.plain:
            for label, value, between in shares:
                self.line(f"{label}: {value}{f', {between}' if between else ''}")
            return
        sides = [max((len(row[n]) for row in shares), default=0) for n in (1, 2)]
        longest = min(max((len(row[0]) for row in shares), default=0), _LABELS)
        cells = max(_LEAST_CHART, min(_CHART, self.width - longest - sum(sides) - _GAPS))
        rows = [
            (la, va, _bar(bar.low, bar.value, bar.high, cells), be)
            for (la, va, be), bar in zip(shares, chart.bars, strict=True)
        ]
        print_table(self.console, ("", "", _scale(cells), ""), rows, self.width)

    def _part(self, part: Part) -> None:
        marks = f"[{counted(part.marks, 'mark')}]"
        text = f"({part.letter}) {part.text}" if part.letter else part.text
        rows = list(self._wrapped(text))
        for row in rows[:-1]:
            self._print(row)
        gap = self.width - len(rows[-1]) - len(marks)
        if gap >= 2:
            self._print(rows[-1] + " " * (2 if self.plain else gap) + marks)
        else:
            self._print(rows[-1])
            self._print(marks if self.plain else marks.rjust(self.width))
        if part.tick:
            self.line(part.tick)
        for letter, option in part.options:
            self._labelled(f"[ ] {letter}" if part.tick and not self.plain else letter, option, 2)

    def _wrapped(self, text: str) -> Iterator[str]:
        for row in harmless(text, _LONGEST).split("\n"):
            yield from textwrap.wrap(row, self.width, break_on_hyphens=False) or [""]


def print_table(
    console: Console, head: Sequence[str], rows: Sequence[Sequence[str]], width: int
) -> None:
    """A table on a console, without the spaces at the end of its lines."""
    with console.capture() as captured:
        console.print(screen_table(head, rows), width=width)
    for line in captured.get().splitlines():
        console.out(line.rstrip(), highlight=False)


def _shares(value: float, low: float | None, high: float | None) -> tuple[str, str]:
    """A share and its range in words."""
    between = "" if low is None or high is None else f"{_share(low)} to {_share(high)}"
    return _share(value), between


def _share(value: float) -> str:
    return f"{100 * value:.0f} %"


def _scale(cells: int) -> str:
    """0, 25, 50, 75 and 100 above a bar of so many columns."""
    row = [" "] * cells
    for percent in (0, 25, 50, 75, 100):
        text = str(percent)
        start = min(cells - len(text), max(0, percent * (cells - 1) // 100 - len(text) // 2))
        row[start : start + len(text)] = text
    return "".join(row)


def _bar(low: float | None, value: float, high: float | None, columns: int) -> str:
    """The range as a line with the value on it; without a range a line from 0."""
    first, at, last = (
        round(min(1.0, max(0.0, one)) * (columns - 1))
        for one in (low or 0.0, value, value if high is None else high)
    )
    cells = ["·"] * columns
    cells[first : last + 1] = ["─"] * (last + 1 - first)
    cells[at] = "●"
    return "".join(cells)
