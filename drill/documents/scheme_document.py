"""A mark scheme as examiners write it, from the rows the paper itself is written from."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from drill.app.papers.paper_sheet import part_name
from drill.documents.paper_document import foot_of
from drill.documents.values import Block, Document, Heading, Listing, PageBreak, Table
from drill.plaintext import counted
from drill.typed.number_asked import number_asked

if TYPE_CHECKING:
    from drill.app.ask import AskedPart
    from drill.app.papers.paper_rows import PaperPart, PaperQuestion
    from drill.app.papers.paper_sheet import PaperSheet

_RULES = (
    "A right final answer earns full marks without working, unless the question asks for more.",
    "Any sensible correct rounding is right, unless a number of figures is asked for.",
    "A printed unit may be left out; another unit that contradicts it loses the value.",
    "Carried forward: mark a later part from the pupil's own earlier value.",
    "The points are ideas: other words for the same idea earn the mark.",
    "Common wrong values: the marks they keep and, in quotes, what to tell the pupil.",
)
_WORDS = ("written", "levels")  # kinds whose answer is the same with other numbers, but for names
_JOINED = "\N{NO-BREAK SPACE}"
_STRIP = 3  # slip values told in an answer strip


def document(sheets: Sequence[PaperSheet]) -> Document:
    """The schemes of several versions, each on pages of its own."""
    blocks: list[Block] = [Listing(_RULES)]
    for place, sheet in enumerate(sheets):
        if place:
            blocks.append(PageBreak())
        blocks += _scheme(sheet)
    return _document(sheets, tuple(blocks))


def booklet(sheets: Sequence[PaperSheet]) -> Document:
    """One scheme for papers with other numbers each: the first in full, then a strip a pupil."""
    blocks: list[Block] = [Listing(_RULES), *_scheme(sheets[0])]
    for sheet in sheets:
        head = f"{sheet.pupil or sheet.version}: paper {sheet.code}"
        blocks += [Heading(head, 2), _strip(sheet)]
    return _document(sheets, tuple(blocks))


def _document(sheets: Sequence[PaperSheet], blocks: tuple[Block, ...]) -> Document:
    first = sheets[0]
    return Document(f"Mark scheme: {first.title}", blocks, foot=foot_of(sheets), notation=True)


def _scheme(sheet: PaperSheet) -> Iterator[Block]:
    yield Heading(f"Paper {sheet.code}, version {sheet.version}: {counted(sheet.marks, 'mark')}", 2)
    rows = tuple(_row(question, part) for question in sheet.questions for part in question.parts)
    yield Table(("", "answer and marking points", "marks", "guidance"), rows)


def _row(question: PaperQuestion, part: PaperPart) -> tuple[str, str, str, str]:
    return (
        part_name(question, part.asked.id),
        "\n".join(answer_lines(part)),
        str(part.asked.marks),
        "\n".join(guidance(part)),
    )


def answer_lines(part: PaperPart) -> Iterator[str]:
    """The answer first, then the points it is made of."""
    asked = part.asked
    yield from _model(part)
    pointwise = asked.kind == "written" or len(asked.points) > 1
    if pointwise and not part.levels and not asked.options:
        if sum(point.marks for point in asked.points) > asked.marks:
            yield f"Any of these, up to {counted(asked.marks, 'mark')}:"
        for point in asked.points:
            yield f"• {point.says}{_JOINED}[{point.marks}]"
    for number, level in zip(range(len(part.levels), 0, -1), part.levels, strict=True):
        marks = str(level.top) if level.low == level.top else f"{level.low} to {level.top}"
        yield f"Level {number}, {marks} marks: {level.says}"


def _model(part: PaperPart) -> Iterator[str]:
    asked = part.asked
    right = {letter.strip() for letter in asked.model_answer.split(",")}
    if asked.options:
        yield from (f"{one.letter}: {one.text}" for one in asked.options if one.letter in right)
    else:
        yield asked.model_answer


def guidance(part: PaperPart) -> Iterator[str]:
    """What else earns the marks, what does not, and the common mistakes."""
    asked = part.asked
    if asked.kind in ("number", "reading") and len(asked.points) == 1:
        yield from (f"Allow: {point.says}" for point in asked.points if "accepted" in point.says)
    if asked.kind in ("name", "formula"):
        yield from (f"Accept: {one.says}" for one in asked.points if one.says != asked.model_answer)
    if asked.marks > 1 and (asked.steps or asked.several):
        yield _lost(asked)
    for place, point in enumerate(asked.points, 1):
        wordings = [f"“{wording}”" for earned, wording in part.accept if earned == point.id]
        lead = f"point {place}: " if len(asked.points) > 1 else ""
        if wordings:
            yield f"Accept {lead}{'; '.join(wordings)}."
    if part.reject:
        yield f"Do not accept {'; '.join(f'“{wording}”' for wording in part.reject)}."
    if part.steps:
        yield "Indicative content:"
        yield from (f"• {step}" for step in part.steps)
    if part.unit_asked:
        yield "The unit is asked for and has its mark."
    if part.carried:
        letters = " and ".join(f"({letter})" for letter in part.carried)
        yield f"Carried forward from {letters}: mark from the pupil's own value."
    for slip in asked.slips:
        cell = f"{slip.cell}, " if slip.cell else ""
        yield f"{cell}{slip.value}: {counted(slip.earns, 'mark')}. “{slip.says}”"


def _lost(asked: AskedPart) -> str:
    """How marks are lost in an order and by wrong ticks: as answers on screen lose them."""
    if asked.steps:
        return "1 mark less for each step that has to be moved."
    letters = {one.letter for one in asked.options or ()}
    if any(point.id not in letters for point in asked.points):
        return "All of them and no other, or 0 marks."
    beyond = "wrong tick beyond the number asked for" if number_asked(asked.ask) else "wrong tick"
    return f"1 mark for each right tick, 1 less for each {beyond}."


def _strip(sheet: PaperSheet) -> Table:
    rows = tuple(
        (
            part_name(question, part.asked.id),
            "as in the scheme" if part.asked.kind in _WORDS else "; ".join(_model(part)),
            "; ".join(f"{s.value} [{s.earns}]" for s in part.asked.slips[:_STRIP]),
        )
        for question in sheet.questions
        for part in question.parts
    )
    return Table(("", "answer", "common mistakes with their marks"), rows)
