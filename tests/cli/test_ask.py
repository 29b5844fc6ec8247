"""`drill ask --json`: what a script is told of a question."""

from __future__ import annotations

import pytest

from drill.app.ask import as_row, question_of
from drill.app.context import open_bank
from drill.cli.screen import Screen
from drill.cli.views import show_part


def test_slips_of_a_table_are_listed_with_their_cell() -> None:
    question = question_of(open_bank(), "titration/concordant-table", 0)
    slips = [slip for part in as_row(question).parts for slip in part.slips]
    assert {"titres used", "mean titre"} <= {slip.cell for slip in slips}
    assert all(slip.id and slip.value for slip in slips)


def test_a_table_to_complete_is_shown_with_its_empty_cells(capsys: pytest.CaptureFixture) -> None:
    question = question_of(open_bank(), "titration/complete-the-titres", 0)
    show_part(Screen(), question.parts[0], alone=True)
    lines = capsys.readouterr().out.splitlines()
    assert [line.split("_")[0].strip() for line in lines[-3:]] == ["rough run", "run 1", "run 2"]
    assert all("______ cm" in line for line in lines[-3:])
