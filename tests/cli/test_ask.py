"""`drill ask --json`: what a script is told of a question."""

from __future__ import annotations

from drill.app.ask import as_row, question_of
from drill.app.context import open_bank


def test_slips_of_a_table_are_listed_with_their_cell() -> None:
    question = question_of(open_bank(), "titration/concordant-table", 0)
    slips = [slip for part in as_row(question).parts for slip in part.slips]
    assert {"titres used", "mean titre"} <= {slip.cell for slip in slips}
    assert all(slip.id and slip.value for slip in slips)
