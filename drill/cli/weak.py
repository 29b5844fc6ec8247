"""`drill weak`: where marks are lost and why."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from drill.app.context import deck_of, existing_learner, open_bank, open_store
from drill.cli.common import AsJson, At, Plain, clock, print_rows, write_file

Who = Annotated[str, typer.Argument(help="A learner's code; left out: the one who sat last.")]
Html = Annotated[str, typer.Option("--html", help="Write a page for a browser or printer here.")]
Deck = Annotated[str, typer.Option("--deck", help="The topic deck whose exam counts.")]


def weak(
    learner: Who = "",
    deck: Deck = "",
    plain: Plain = False,
    html: Html = "",
    as_json: AsJson = False,
    at: At = "",
) -> None:
    """Show per skill the marks lost, most exam marks still to win first.

    Each skill: marks, attempts, days, state, why (never known, forgotten, slip), and a slip that
    came back with two answers as they were typed.
    """
    from drill.app.weak import weak_areas
    from drill.cli.screen import Screen
    from drill.documents import writer
    from drill.documents.weak_report import weak_report

    with open_store(reading=True) as store:
        who = existing_learner(store, learner)
        chosen = deck_of(store, who, deck)
        rows = weak_areas(store, open_bank(chosen), chosen, who, clock(at))
    report = weak_report(who.code, rows)
    if as_json:
        print_rows(rows)
    elif html:
        write_file(Path(html), writer("html")(report))
    else:
        Screen(plain).document(report)
