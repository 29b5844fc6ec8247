"""A paper as a document: the questions with room to answer them."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import TYPE_CHECKING

from drill.documents.values import (
    AnswerLines,
    Block,
    Boxes,
    Document,
    Figure,
    FinalAnswer,
    Form,
    Grid,
    Heading,
    Kept,
    Listing,
    PageBreak,
    Paragraph,
    Part,
    Table,
    Working,
)
from drill.plaintext import counted

if TYPE_CHECKING:
    from drill.app.papers.paper_rows import PaperPart, PaperQuestion
    from drill.app.papers.paper_sheet import PaperSheet

SAFETY = (
    "For exam practice only. Practical work is done in a laboratory, with a teacher, by the "
    "school's own risk assessment."
)
_BLANK = "\N{NO-BREAK SPACE}" * 20
_TYPED = re.compile(r"\s*\bType [^.]*(?:\.\d[^.]*)*\.(?=\s|$)")  # said of a keyboard alone
_SENTENCE_END = re.compile(r"[.?!](?:\s+|$)|\n")
_BAR = " | "  # between the cells of a table that is typed as text
_DRAWN = ("plot", "draw", "sketch")  # command words answered on squared paper
_LINES = {"written": 2, "levels": 2}  # for each mark
_WORKING = 2  # lines for each mark of a calculation
_FIRST_LINES = 6  # of a long answer stay with what is asked
_LINES_TOGETHER = 2  # of those that may follow overleaf; the last few stay with one another
_EXTRA = 2  # lines more for an extended answer


def document(sheets: Sequence[PaperSheet], large: bool = False) -> Document:
    """Papers one after the other, each beginning on a page of its own."""
    first, *others = sheets
    blocks = list(_paper(first, f"Paper {first.code}" if others else ""))
    for sheet in others:
        blocks.append(PageBreak(numbered_anew=True))
        blocks += _paper(sheet, f"{sheet.title}: paper {sheet.code}")
    return Document(
        title=first.title,
        blocks=tuple(blocks),
        foot=foot_of(sheets),
        notation=True,
        large=large,
    )


def foot_of(sheets: Sequence[PaperSheet]) -> str:
    """The small print by which a paper is found or made again; of several what they share."""
    first = sheets[0]
    one = f"Paper {first.code} · version {first.version} · " if len(sheets) == 1 else ""
    return f"{one}{first.deck} · seed {first.seed}\n{SAFETY}"


def _paper(sheet: PaperSheet, headed: str) -> Iterator[Block]:
    if headed:
        yield Heading(headed, 2)
    pupil = " ".join(filter(None, (sheet.name, f"({sheet.pupil})" if sheet.pupil else "")))
    yield Form((("Name", pupil), ("Class", ""), ("Date", "")))
    version = "" if sheet.pupil else f"version {sheet.version}"
    about = (
        counted(sheet.marks, "mark"), counted(sheet.minutes, "minute"), sheet.course, version,
    )  # fmt: skip
    yield Paragraph(" · ".join(filter(None, about)), strong=True)
    yield Listing(
        (
            "Answer every question in the space below it.",
            "The marks stand in brackets at the right. Show your working.",
            "You may use a calculator and a ruler.",
        )
    )
    told: set[str] = set()
    end = (
        Paragraph("End of the questions", strong=True),
        FinalAnswer("Total", f"/ {sheet.marks}"),
    )
    for question in sheet.questions:
        yield question_block(question, told, end if question is sheet.questions[-1] else ())


def question_block(question: PaperQuestion, told: set[str], end: tuple[Block, ...] = ()) -> Block:
    """All of it on one page where it fits; else its head with the first part, then part by part.

    `end` is kept with its last part.
    """
    head = tuple(question_head(question, told))
    parts = [piece for part in question.parts for piece in _pieces(question, part)]
    parts[0] = head + parts[0]
    kept = [Kept(part) for part in parts]
    return Kept((*kept[:-1], Kept((kept[-1], Kept(end)))) if end else tuple(kept))


def _pieces(question: PaperQuestion, part: PaperPart) -> Iterator[tuple[Block, ...]]:
    """A part, or of a long answer what begins it and the lines that may follow overleaf."""
    *asked, last = _asked(question, part)
    if isinstance(last, AnswerLines) and last.lines > _FIRST_LINES + 2:
        yield (*asked, AnswerLines(_FIRST_LINES))
        left = last.lines - _FIRST_LINES
        while left > _FIRST_LINES:
            yield (AnswerLines(_LINES_TOGETHER),)
            left -= _LINES_TOGETHER
        yield (AnswerLines(left),)
    else:
        yield (*asked, last)


def question_head(question: PaperQuestion, told: set[str]) -> Iterator[Block]:
    """Number and title, safety where it was not told yet, the text, the drawing."""
    yield Heading(f"{question.number}  {question.title}", 3)
    if question.safety and question.safety not in told:
        told.add(question.safety)
        yield Paragraph(f"Safety: {question.safety}", quiet=True)
    stem = question.text or _told_first(question)
    yield from _told(stem)
    if _is_drawn(question):
        yield Figure(question.picture, question.vectors)


def _told(text: str) -> Iterator[Paragraph | Table]:
    """A text; lines in it whose cells stand apart by the same number of bars are a table."""
    for bars, lines in groupby(text.split("\n") if text else (), key=lambda one: one.count(_BAR)):
        head, *rows = lines
        if bars and rows:
            yield Table(*_cells(head, rows))
        else:
            yield Paragraph("\n".join((head, *rows)))


def _cells(head: str, rows: Sequence[str]) -> tuple[tuple[str, ...], tuple[tuple[str, ...], ...]]:
    return tuple(head.split(_BAR)), tuple(tuple(map(_cell, row.split(_BAR))) for row in rows)


def _cell(text: str) -> str:
    """What is left to fill in is left empty."""
    return _BLANK if not text.strip("_ ") else text


def _is_drawn(question: PaperQuestion) -> bool:
    return bool(question.vectors or question.picture)


def _told_first(question: PaperQuestion) -> str:
    """What the first part says before its command: it introduces the drawing, so it precedes it."""
    if question.text or not _is_drawn(question):
        return ""
    ask = question.parts[0].asked.ask
    command = re.search(rf"(?i)\b{re.escape(question.command_word)}\b", ask)
    ends = [one.end() for one in _SENTENCE_END.finditer(ask.rstrip()[:-1])]
    if command:
        ends = [end for end in ends if end <= command.start()]
    return ask[: ends[-1]].rstrip() if ends else ""


def asked_part(question: PaperQuestion, part: PaperPart, tick: str = "") -> Iterator[Block]:
    """What is asked, with its letter where there are several parts; not how to type it.

    A table in it, and what is said behind the table, stand below its first words; above what is
    to be chosen from.
    """
    asked = part.asked
    listed = asked.options or asked.steps or ()
    ask = asked.ask
    if part is question.parts[0]:
        ask = ask[len(_told_first(question)) :].lstrip()
    told = list(_told(_TYPED.sub("", ask)))
    at = len(told) - 1 if listed else 0
    words = told[at] if told else Paragraph("")
    text = words.text if isinstance(words, Paragraph) else ""
    yield from told[:at]
    yield Part(
        asked.id if len(question.parts) > 1 else "",
        text,
        asked.marks,
        tuple((one.letter, one.text) for one in listed),
        tick=tick,
    )
    yield from told[at + bool(text) :]


def _asked(question: PaperQuestion, part: PaperPart) -> Iterator[Block]:
    several = "Tick every box that applies." if part.asked.several else "Tick one box."
    yield from asked_part(question, part, several if part.asked.options else "")
    yield from _room(question, part)


def _room(question: PaperQuestion, part: PaperPart) -> Iterator[Block]:
    """Room to answer, by the kind of part and its marks."""
    asked = part.asked
    if asked.options:
        return
    if asked.steps:
        yield Boxes(len(asked.steps), inset=len(question.parts) > 1)
    elif part.cells:
        units = any(unit for _, unit in part.cells)
        rows = tuple((name, _BLANK, unit)[: 2 + units] for name, unit in part.cells)
        yield Table(("", "answer", "")[: 2 + units], rows, tall=True, inset=len(question.parts) > 1)
    elif question.command_word in _DRAWN:
        yield Grid(14, 9)
    elif asked.kind in _LINES:
        extra = _EXTRA if asked.kind == "levels" else 0
        yield AnswerLines(_LINES[asked.kind] * asked.marks + extra)
    elif asked.kind in ("number", "reading"):
        if asked.kind == "number":
            yield Working(_WORKING * asked.marks)
        yield FinalAnswer("Answer", asked.unit or "", part.unit_asked)
    else:
        yield AnswerLines(asked.marks)
