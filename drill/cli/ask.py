"""`drill ask`: one question as JSON, for scripts."""

from __future__ import annotations

from typing import Annotated

import typer

from drill.app.context import open_bank
from drill.cli.common import AsJson, print_rows

TemplateId = Annotated[str, typer.Argument(help="A template: its id or its file.")]
Seed = Annotated[int, typer.Option(help="Which numbers.")]


def ask(template: TemplateId, seed: Seed = 0, as_json: AsJson = False) -> None:
    """Print one question; with --json as the object that `drill mark` and scripts work with."""
    from drill.app.ask import as_row, question_of

    question = question_of(open_bank(), template, seed)
    if as_json:
        print_rows(as_row(question))
        return
    from drill.cli import views
    from drill.cli.screen import Screen

    screen = Screen()
    views.show_question(screen, question, f"{question.template} seed {question.seed}")
    for part in question.parts:
        views.show_part(screen, part, alone=len(question.parts) == 1)
