"""What a document is made of: frozen values that say nothing about how they are shown.

Every text in them may be a learner's or an author's: a writer makes it harmless, they do not.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Heading:
    """A heading below the title; `level` counts from 2, as the title is the first."""

    text: str
    level: int = 2


@dataclass(frozen=True)
class Paragraph:
    """Running text; line ends are kept. `strong` stands out, `quiet` stands back."""

    text: str
    strong: bool = False
    quiet: bool = False


@dataclass(frozen=True)
class Labelled:
    """Texts under each other, each with a short label beside it."""

    pairs: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Listing:
    """Items under each other, with numbers or without."""

    items: tuple[str, ...]
    numbered: bool = False


@dataclass(frozen=True)
class Table:
    """Columns under their heads, as wide as they need to be; the first cell of a row names it.

    `caption` says what the table shows: not on a screen that shows it under a heading already.
    `tall` rows have room to write in; `inset` as `Boxes`.
    """

    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    caption: str = ""
    tall: bool = False
    inset: bool = False

    def __post_init__(self) -> None:
        """Every row has a cell a column."""
        if any(len(row) != len(self.head) for row in self.rows):
            raise ValueError("a row has another number of cells than the head")


@dataclass(frozen=True)
class Figure:
    """A drawing: `vectors` is SVG for a page, `cells` are rows of characters for a screen.

    `words` tell the same to somebody who sees neither; `caption` stands below it.
    """

    words: str
    vectors: str = ""
    cells: tuple[str, ...] = ()
    caption: str = ""


@dataclass(frozen=True)
class Bar:
    """One value of a chart, as a share from 0 to 1, with the range it may lie in."""

    label: str
    value: float
    low: float | None = None
    high: float | None = None


@dataclass(frozen=True)
class Chart:
    """Shares beside each other, from 0 to 100 %."""

    title: str
    bars: tuple[Bar, ...]


@dataclass(frozen=True)
class Part:
    """A part of a question: its letter ("" when it is the only one), marks, options by letter.

    `tick` says what to do with the boxes that options then have.
    """

    letter: str
    text: str
    marks: int
    options: tuple[tuple[str, str], ...] = ()
    tick: str = ""


@dataclass(frozen=True)
class AnswerLines:
    """Room to write on."""

    lines: int


@dataclass(frozen=True)
class Working:
    """Empty room of so many lines, for working."""

    lines: int


@dataclass(frozen=True)
class FinalAnswer:
    """A short line for one value: `before` it what is wanted, `unit` behind it.

    `unit_asked`: a second line for the unit.
    """

    before: str
    unit: str = ""
    unit_asked: bool = False


@dataclass(frozen=True)
class Form:
    """Labels in a row, each with a line to write on, or with what is written there already."""

    fields: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Boxes:
    """So many boxes in a row, for a letter each; `inset` below the text of a lettered part."""

    count: int
    inset: bool = False


@dataclass(frozen=True)
class Grid:
    """Squared paper to plot or draw on, `across` by `up` large squares."""

    across: int
    up: int


@dataclass(frozen=True)
class PageBreak:
    """What follows begins a new page; `numbered_anew`: another document begins, at page 1."""

    numbered_anew: bool = False


@dataclass(frozen=True)
class Kept:
    """Blocks that stay together on a page."""

    blocks: tuple[Block, ...]


Block = (
    Heading | Paragraph | Labelled | Listing | Table | Figure | Chart | Part | AnswerLines
    | Working | FinalAnswer | Form | Boxes | Grid | PageBreak | Kept
)  # fmt: skip


@dataclass(frozen=True)
class Document:
    """A title and what stands below it, in one language.

    `foot` stands small at the foot of every page; with `notation`, raised and lowered digits and
    arrows are set as such where a writer can; `large` is for who needs large print.
    """

    title: str
    blocks: tuple[Block, ...]
    language: str = "en-GB"
    foot: str = ""
    notation: bool = False
    large: bool = False
