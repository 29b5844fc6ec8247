"""A tutor's sheet as a document: questions with room to answer, then the answers on a new page."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from drill.app.papers.paper_sheet import part_name
from drill.documents.paper_document import SAFETY, question_block
from drill.documents.scheme_document import answer_lines, guidance
from drill.documents.values import (
    Block,
    Document,
    Form,
    Heading,
    PageBreak,
    Paragraph,
    Table,
)

if TYPE_CHECKING:
    from drill.app.weakness.lesson_sheet import LessonSheet


def document(sheets: Sequence[LessonSheet]) -> Document:
    """A sheet a learner, each on pages of its own."""
    blocks: list[Block] = []
    for sheet in sheets:
        if blocks:
            blocks.append(PageBreak(numbered_anew=True))
        blocks += _sheet(sheet)
    names = ", ".join(sheet.learner for sheet in sheets)
    return Document(f"Next lesson: {names}", tuple(blocks), foot=SAFETY, notation=True)


def _sheet(sheet: LessonSheet) -> Iterator[Block]:
    yield Form((("Learner", sheet.learner), ("Date", sheet.on)))
    if sheet.about:
        yield Paragraph(f"To take up: {'; '.join(sheet.about)}.")
    if not sheet.questions:
        yield Paragraph("There is no question to ask.")
        return
    told: set[str] = set()
    for question in sheet.questions:
        yield question_block(question, told)
    yield PageBreak()
    yield Heading(f"Answers for {sheet.learner}", 2)
    rows = tuple(
        (
            part_name(question, part.asked.id),
            "\n".join(dict.fromkeys((*answer_lines(part), part.asked.worked))).strip(),
            str(part.asked.marks),
            "\n".join(guidance(part)),
        )
        for question in sheet.questions
        for part in question.parts
    )
    yield Table(("", "answer", "marks", "guidance"), rows)
