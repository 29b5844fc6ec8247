"""The tutor's first page: where a learner's marks are lost and why."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from drill.documents.values import Block, Document, Labelled, Paragraph, Table

if TYPE_CHECKING:
    from drill.app.weak import WeakArea

_HEAD = ("skill", "marks", "tries", "days", "state", "exam", "to win", "why")


def weak_report(code: str, rows: Sequence[WeakArea]) -> Document:
    """The report on the learner with that code; rows as the use case orders them."""
    return Document(f"Where {code} loses marks", tuple(_blocks(rows)))


def _blocks(rows: Sequence[WeakArea]) -> Iterator[Block]:
    if not rows:
        yield Paragraph("Nothing answered yet.")
        return
    yield Table(_HEAD, tuple(_cells(row) for row in rows))
    own = [(f"{row.own_marks} of {row.own_of}", row.name) for row in rows if row.own_of]
    if own:
        yield Paragraph("Decided by the learner, counted in no figure above:")
        yield Labelled(tuple(own))
    for row in rows:
        for slip in row.slips:
            name = slip.slip.replace("-", " ")
            yield Paragraph(f"{row.name}: {name}, {slip.times} times in {slip.attempts}")
            typed = ((one.date, f"“{one.typed}”  {one.template}") for one in slip.examples)
            yield Labelled(tuple(typed))


def _cells(row: WeakArea) -> tuple[str, ...]:
    return (
        row.name,
        f"{row.marks} of {row.of}",
        str(row.attempts),
        str(row.days),
        row.state,
        f"{100 * row.exam_share:.0f} %",
        f"{row.marks_to_win:.1f}",
        row.why,
    )
