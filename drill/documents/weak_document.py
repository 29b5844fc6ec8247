"""A tutor's report put together: the first page, and the tables that were asked for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from drill.documents import weak_tables as tables
from drill.documents.values import Block, Document, Heading
from drill.documents.weak_report import PAGE, weak_report
from drill.documents.weak_words import WIDTH

if TYPE_CHECKING:
    from drill.app.weakness.weak import LearnerReport


_NARROW = 60
"""On fewer columns lines wrap, and there are more than twenty."""


@dataclass(frozen=True)
class Wanted:
    """Which tables follow; with none of them, the first page stands alone."""

    skills: bool = False
    weeks: bool = False
    sure: bool = False
    hints: bool = False
    not_sure: bool = False


def document(reports: Sequence[LearnerReport], wanted: Wanted, width: int = WIDTH) -> Document:
    """One learner's report; several side by side first, then what was asked for of each.

    A table asked for on a screen stands alone: the first page is one command away. That page is
    cut for a screen of `width` columns, of `_NARROW` where it has fewer.
    """
    if len(reports) == 1:
        first = weak_report(reports[0], min(WIDTH, max(_NARROW, width)))
        asked = tuple(_tables(reports[0], wanted))
        return Document(first.title, asked or first.blocks, first.language)
    blocks: list[Block] = list(tables.side_by_side(reports))
    for report in reports:
        more = list(_tables(report, wanted))
        blocks += [Heading(report.learner), *more] if more else []
    return Document(f"{len(reports)} learners side by side", tuple(blocks))


def whole_document(reports: Sequence[LearnerReport]) -> Document:
    """Everything there is, for a page to print or keep."""
    every = Wanted(True, True, True, True, True)
    if len(reports) == 1:
        first = weak_report(reports[0], PAGE)
        return Document(first.title, (*first.blocks, *_tables(reports[0], every)))
    blocks: list[Block] = list(tables.side_by_side(reports))
    for report in reports:
        first = weak_report(report, PAGE)
        blocks += [Heading(first.title), *first.blocks, *_tables(report, every)]
    return Document(f"{len(reports)} learners side by side", tuple(blocks))


def _tables(report: LearnerReport, wanted: Wanted) -> Iterator[Block]:
    if report.compared:
        yield from tables.periods(report.compared)
    if wanted.skills:
        yield from tables.all_skills(report.skills)
        yield from tables.all_mistakes(report.mistakes)
    if wanted.weeks:
        yield from tables.weeks(report.weeks)
    if wanted.sure:
        yield from tables.sureness(report.sureness)
    if wanted.hints:
        yield from tables.hints_and_passes(report.help)
    if wanted.not_sure:
        yield from tables.not_sure(report.not_sure)
