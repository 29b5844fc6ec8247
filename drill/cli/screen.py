"""The only way to the terminal: wraps text, draws rules, and makes every text harmless.

Everything a command shows goes through a `Screen`. In plain mode (for screen readers) there are no
rules, colour or cursor movement; without a terminal, or with NO_COLOR, there is no colour.
"""

from __future__ import annotations

import os
import re
import sys
import textwrap
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from typing import TYPE_CHECKING

from drill.plaintext import harmless

if TYPE_CHECKING:
    from rich.console import Console

    from drill.documents.values import Document

WIDEST, NARROWEST = 88, 20
"""Columns; a terminal that says it has fewer, as COLUMNS=0 does, is not believed."""
_LONGEST_LINE = 100_000
"""Characters of a line typed; nobody types more, a file that is piped in may hold millions."""

_MOST_LINES = 200
_LEAST_ROWS = 5
_RAISED = re.compile(r"(?<![A-Za-z0-9_-])([cd]?m)([23])(?![A-Za-z0-9_-])")
"""Units of area and volume, which carry their figure raised."""


_SIGNS = re.compile(r"\S(?: *\S)*")


def _raised(found: re.Match[str]) -> str:
    return found[1] + {"2": "²", "3": "³"}[found[2]]


class Screen:
    """Lines of text of at most `WIDEST` columns."""

    def __init__(self, plain: bool = False, console: Console | None = None) -> None:
        from rich.console import Console

        self.plain = plain
        self.console = console or Console(
            highlight=False,
            markup=False,
            emoji=False,
            soft_wrap=True,
            no_color=plain or bool(os.environ.get("NO_COLOR")),
        )
        if self.console.width < NARROWEST:  # rich prints nothing at all on none
            self.console.width = NARROWEST

    @property
    def width(self) -> int:
        """Columns to write in, read each time: the window may have been made larger or smaller."""
        return min(WIDEST, max(NARROWEST, self.console.width))

    @property
    def draws(self) -> bool:
        """Whether lines, dots and raised figures can be shown."""
        return not self.plain and self.console.encoding.lower().startswith("utf")

    def line(self, text: str = "", style: str = "", indent: int = 0) -> None:
        """One paragraph, wrapped; line ends in `text` are kept."""
        for row in self._shown(text).split("\n"):
            self._rows(row, style, indent, indent)

    def item(self, label: str, text: str, style: str = "", label_width: int = 10) -> None:
        """A labelled paragraph: the label once, the text hanging beside it."""
        rows = self._shown(text).split("\n")
        if self.plain:
            self._rows(f"{label}: {rows[0]}" if label else rows[0], style, 0, 0)
            for row in rows[1:]:
                self._rows(row, style, 0, 0)
            return
        margin = label_width + 4
        first = "  " + label.ljust(label_width) + "  "
        self._rows(rows[0], style, margin, margin, first)
        for row in rows[1:]:
            self._rows(row, style, margin, margin)

    def pair(self, left: str, right: str, style: str = "") -> None:
        """`left` at the margin, `right` at the far end of the line."""
        left, right = self._shown(left), self._shown(right)
        gap = self.width - len(left) - len(right)
        if self.plain or gap < 2:
            self.line(f"{left}  {right}" if right else left, style)
        else:
            self.console.print(left + " " * gap + right, style=self._style(style))

    def ended(self, text: str, end: str) -> None:
        """A paragraph with `end` at the far end of its last line, or on a line of its own."""
        rows = textwrap.wrap(self._shown(text), self.width, break_on_hyphens=False) or [""]
        for row in rows[:-1]:
            self.line(row)
        if self.plain or len(rows[-1]) + len(end) + 2 <= self.width:
            self.pair(rows[-1], end)
        else:
            self.line(rows[-1])
            self.pair("", end)

    def rule(self) -> None:
        """A thin line across; nothing in plain mode."""
        if not self.plain:
            self.console.print("─" * self.width, style="dim")

    def picture(self, rows: Sequence[str], faint: Sequence[str] = ()) -> None:
        """Line art, row by row as it is; fainter where a row of `faint` has a sign."""
        from rich.text import Text

        for number, row in enumerate(rows):
            shown = Text(harmless(row).rstrip())
            for found in _SIGNS.finditer(faint[number] if number < len(faint) else ""):
                shown.stylize("dim", *found.span())
            self.console.print(shown)

    def table(self, head: Sequence[str], rows: Iterable[Sequence[str]]) -> None:
        """Columns as wide as they need to be, the widest wrapped where all would not fit.

        In plain mode `name value, name value` lines.
        """
        from drill.documents.tables import plain_rows
        from drill.documents.terminal import print_table

        cells = list(rows)
        if self.plain:
            for row in plain_rows(head, cells):
                self.line(row)
        else:
            print_table(self.console, head, cells, self.width)

    def document(self, document: Document) -> None:
        """A whole document, as wide as the screen."""
        from drill.documents.terminal import write

        colour = self.console.color_system is not None and not self.console.no_color
        self.console.file.write(write(document, self.width, self.plain, colour))

    @contextmanager
    def by_windows(self) -> Iterator[None]:
        """What is shown meanwhile waits for Enter whenever the window is full.

        Where nobody types or nobody sees it, as in a pipe, it is shown whole.
        """
        if not (self.is_typed_at and self.console.is_terminal):
            yield
            return
        with self.console.capture() as held:
            yield
        rows = held.get().splitlines(keepends=True)
        full = max(_LEAST_ROWS, self.console.height - 2)
        for start in range(0, len(rows), full):
            if start:
                self.ask("Enter for the rest > ")
            self.console.file.write("".join(rows[start : start + full]))

    @property
    def is_typed_at(self) -> bool:
        """Whether somebody sits at a terminal and sees each prompt."""
        return sys.stdin is not None and sys.stdin.isatty()

    def ask(self, prompt: str) -> str:
        """What is typed, without its end: a line, or a paste of several.

        Raises:
            EOFError: the terminal has gone.
        """
        from drill.cli.line_reader import read_line

        self.console.file.flush()
        if sys.stdin is None:  # closed before we began
            raise EOFError
        ask = read_line if self.is_typed_at else _from_pipe
        return ask(self._shown(prompt))

    def further_lines(self) -> list[str]:
        """What is typed until an empty line; nothing where nobody sees that more is waited for."""
        lines: list[str] = []
        while self.is_typed_at and len(lines) < _MOST_LINES:
            try:
                typed = self.ask("  > ")
            except EOFError:
                break
            if not typed.strip():
                break
            lines.append(typed)
        return lines

    def _style(self, style: str) -> str | None:
        """No style at all in plain mode: a screen reader may spell escapes out."""
        return None if self.plain else style or None

    def _shown(self, text: str, most: int = 20_000) -> str:
        """Text made harmless, with cm3 and dm3 as they are printed where that can be shown."""
        text = harmless(text, most)
        if self.plain:
            return text.replace(" · ", ", ")  # a screen reader says "middle dot"
        return _RAISED.sub(_raised, text) if self.draws else text

    def _rows(self, text: str, style: str, indent: int, hang: int, first: str = "") -> None:
        rows = textwrap.wrap(
            text,
            self.width,
            initial_indent=first or " " * indent,
            subsequent_indent=" " * hang,
            break_on_hyphens=False,
        )
        for row in rows or [first.rstrip()]:
            self.console.print(row, style=self._style(style))


def _from_pipe(prompt: str) -> str:
    """The same where nobody types: of a line that never ends only the beginning is held."""
    sys.stdout.write(prompt)
    sys.stdout.flush()
    line = rest = sys.stdin.readline(_LONGEST_LINE)
    if not line:
        raise EOFError
    while rest and not rest.endswith("\n"):
        rest = sys.stdin.readline(_LONGEST_LINE)
    return line.rstrip("\n")
