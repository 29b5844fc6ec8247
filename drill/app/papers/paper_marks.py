"""Marks from paper, read from a sheet and checked against the paper before anything is stored.

A row a pupil, a column a part. Nothing is guessed: whatever is in doubt is told with its line, and
as long as anything is, nothing of the sheet counts.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from drill.app.papers.marks_table import table_in
from drill.app.papers.paper_files import OUT_OF
from drill.errors import DrillError
from drill.plaintext import one_line

NOT_TRIED = "-"
_DASHES = (NOT_TRIED, "\N{EN DASH}", "\N{EM DASH}")
_NOTHING = (None, "", *_DASHES)
_PUPIL, _PAPER, _TOTAL = "pupil", "paper", "total"


@dataclass(frozen=True)
class PaperItemKept:
    """A question of a kept paper; `parts` are the maximum of each by its letter."""

    template: str
    version: str
    seed: int
    skill: str
    parts: Mapping[str, int]


@dataclass(frozen=True)
class KeptPaper:
    """A paper as the store keeps it; `columns` are (name, question, letter, maximum)."""

    code: str
    deck: str
    pupil: str
    items: tuple[PaperItemKept, ...]

    @property
    def columns(self) -> tuple[tuple[str, int, str, int], ...]:
        return tuple(
            (f"{number}{letter}" if len(item.parts) > 1 else str(number), number - 1, letter, of)
            for number, item in enumerate(self.items, 1)
            for letter, of in item.parts.items()
        )

    @property
    def marks(self) -> int:
        return sum(of for _, _, _, of in self.columns)


@dataclass(frozen=True)
class PupilMarks:
    """A pupil's marks by column; None for a part that was not tried."""

    line: int
    pupil: str
    paper: KeptPaper
    marks: Mapping[str, int | None]

    @property
    def total(self) -> int:
        return sum(mark or 0 for mark in self.marks.values())


@dataclass(frozen=True)
class MarksSheet:
    """What a sheet holds: rows to store, pupils without marks, and whatever is in doubt."""

    rows: tuple[PupilMarks, ...]
    empty: tuple[str, ...]
    doubts: tuple[str, ...]


def kept_paper(code: str, text: str | None) -> KeptPaper | None:
    """The paper the store keeps under a code; None when this computer has not made it."""
    if not text:
        return None
    raw = json.loads(text)
    items = tuple(PaperItemKept(**item) for item in raw["items"])
    return KeptPaper(code, raw["deck"], raw["pupil"], items)


def read_marks(file: str, paper_of: Callable[[str], KeptPaper | None]) -> MarksSheet:
    """The marks of a CSV file, or what is wrong with it.

    Args:
        paper_of: the paper with that code, as this computer keeps it.

    Raises:
        DrillError: it cannot be read, or is no sheet of marks at all.
    """
    rows = table_in(file)
    head = [" ".join(cell.casefold().split()) for cell in rows[0][1]]
    for name in (_PUPIL, _PAPER):
        if name not in head:
            raise DrillError(
                f'{one_line(file)}, line {rows[0][0]}: no column "{name}". Use the sheet that '
                "drill paper make wrote beside the paper."
            )
    twice = sorted({name for name in head if name and head.count(name) > 1})
    if twice:
        raise DrillError(f"{one_line(file)}: the column {one_line(twice[0], 20)} is there twice.")
    named = [(line, dict(zip(head, cells, strict=False)), cells) for line, cells in rows[1:]]
    out_of = [(line, row) for line, row, _ in named if row.get(_PUPIL, "").casefold() == OUT_OF]
    reader = _Reader(head, paper_of, out_of[0] if out_of else None)
    for line, row, cells in named:
        reader.row(line, row, len(cells) > len(head))
    return MarksSheet(tuple(reader.rows), tuple(reader.empty), tuple(reader.doubts))


class _Reader:
    """Reads row after row; every doubt is kept with its line."""

    def __init__(
        self,
        head: Sequence[str],
        paper_of: Callable[[str], KeptPaper | None],
        out_of: tuple[int, Mapping[str, str]] | None,
    ) -> None:
        self._head = [name for name in head if name not in (_PUPIL, _PAPER, _TOTAL, "")]
        self._paper_of = paper_of
        self._checked: dict[str, KeptPaper | None] = {}
        self._lines: dict[str, int] = {}
        self._out_of = out_of
        self.rows: list[PupilMarks] = []
        self.empty: list[str] = []
        self.doubts: list[str] = []

    def row(self, line: int, cells: Mapping[str, str], more: bool) -> None:
        """One row of the sheet; `more`: it has cells that stand under no head."""
        pupil = cells.get(_PUPIL, "")
        if pupil.casefold() == OUT_OF:
            return
        if more:
            self._doubt(line, "there are more cells than heads. Is a mark written with a comma?")
            return
        marked = [typed for name in self._head if (typed := cells.get(name)) not in _NOTHING]
        if not marked and cells.get(_TOTAL) in (*_NOTHING, "0"):
            if pupil:
                self.empty.append(one_line(pupil, 40))
            return
        if marked and not any(re.search("[0-9]", typed) for typed in marked):
            shown = one_line(marked[0], 20)
            self._doubt(line, f'no marks, only "{shown}". Leave all empty for who was away.')
            return
        if not pupil:
            self._doubt(line, "there are marks and no pupil. Write whose they are.")
            return
        if self._lines.setdefault(pupil.casefold(), line) != line:
            first = self._lines[pupil.casefold()]
            self._doubt(line, f'"{one_line(pupil, 40)}" has marks in line {first} already.')
            return
        paper = self._paper(line, cells.get(_PAPER, ""))
        if paper is not None:
            self._marks(line, pupil, paper, cells)

    def _doubt(self, line: int, says: str) -> None:
        self.doubts.append(f"line {line}: {says}")

    def _paper(self, line: int, code: str) -> KeptPaper | None:
        """The paper a row is about, its columns checked the first time."""
        code = code.strip().upper()
        if code not in self._checked:
            self._checked[code] = self._known(line, code)
        return self._checked[code]

    def _known(self, line: int, code: str) -> KeptPaper | None:
        paper = self._paper_of(code) if code else None
        if paper is None:
            said = (
                f'no paper "{one_line(code, 20)}" was made on this computer.'
                if code
                else ("the paper's code is missing. It stands at the foot of each page.")
            )
            self._doubt(line, f"{said} The same deck, marks and seed make it again.")
            return None
        names = [name for name, *_ in paper.columns]
        wrong = [name for name in self._head if name not in names]
        missing = [name for name in names if name not in self._head]
        if wrong or missing:
            said = (
                f"paper {code} has no part {one_line(', '.join(wrong[:5]), 60)}." if wrong else ""
            )
            said += f" No column for part {', '.join(missing[:5])}." if missing else ""
            self._doubt(line, said.strip())
            return None
        return paper if self._as_out_of(paper) else None

    def _as_out_of(self, paper: KeptPaper) -> bool:
        """Whether the row of maxima is this paper's: heads may be swapped."""
        if self._out_of is None:
            self._no_maxima()
            return False
        line, cells = self._out_of
        wrong = [
            f"{name} out of {one_line(cells.get(name) or 'nothing', 10)} (the paper has {of})"
            for name, _, _, of in paper.columns
            if cells.get(name) != str(of)
        ]
        if wrong:
            says = "; ".join(wrong[:4])
            self._doubt(line, f"{says}. Columns may be swapped, or it is another paper's sheet.")
        return not wrong

    def _no_maxima(self) -> None:
        says = (
            f'the row "{OUT_OF}" is missing, and without it swapped columns go unseen. Copy it '
            "from the sheet that drill paper make wrote beside the paper."
        )
        if says not in self.doubts:
            self.doubts.append(says)

    def _marks(self, line: int, pupil: str, paper: KeptPaper, cells: Mapping[str, str]) -> None:
        before = len(self.doubts)
        if paper.pupil and paper.pupil.casefold() != pupil.casefold():
            self._doubt(
                line, f'paper {paper.code} is the one of "{paper.pupil}", not of this pupil.'
            )
        marks = {
            name: self._mark(line, name, cells.get(name, ""), of)
            for name, _, _, of in paper.columns
        }
        found = PupilMarks(line, pupil, paper, marks)
        total = cells.get(_TOTAL, "")
        if len(self.doubts) == before and total and total != str(found.total):
            shown = one_line(total, 20)
            self._doubt(line, f"the marks add up to {found.total}, the total says {shown}.")
        if len(self.doubts) == before:
            self.rows.append(found)

    def _mark(self, line: int, name: str, typed: str, of: int) -> int | None:
        if typed in _DASHES:
            return None
        shown = one_line(typed, 20)
        if not typed:
            self._doubt(line, f"{name} is empty. Write 0, or {NOT_TRIED} if it was not tried.")
        elif not (typed.isascii() and typed.isdecimal()):
            half = re.fullmatch(r"[0-9]*([.,][0-9]+|\s*½)", typed)
            why = "marks are whole" if half else "that is no mark"
            self._doubt(line, f'{name} is "{shown}": {why}. Write a number from 0 to {of}.')
        elif len(typed) > 4 or int(typed) > of:
            self._doubt(line, f"{name} is {shown}, and the part has {of}. Columns may be swapped.")
        else:
            return int(typed)
        return 0


def in_words(sheet: MarksSheet, file: str) -> Iterator[str]:
    """What is in doubt, a line each, and what to do."""
    yield from (f"{one_line(file)}, {doubt}" for doubt in sheet.doubts)
    yield "Nothing was stored. Put these right and enter the sheet again."
