"""`drill weak`: where marks are lost and why."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from drill.app.context import deck_of, existing_learner, open_bank, open_store
from drill.cli.common import AsJson, At, Plain, clock, print_rows
from drill.cli.views import share

if TYPE_CHECKING:
    from collections.abc import Sequence

    from drill.app.weak import WeakArea
    from drill.cli.screen import Screen

Who = Annotated[str, typer.Argument(help="A learner's code; left out: the one who sat last.")]
Deck = Annotated[str, typer.Option("--deck", help="The topic deck whose exam counts.")]


def weak(
    learner: Who = "", deck: Deck = "", plain: Plain = False, as_json: AsJson = False, at: At = ""
) -> None:
    """Show per skill the marks lost, most exam marks still to win first.

    Each skill: marks, attempts, days, state, why (never known, forgotten, slip), and a slip that
    came back with two answers as they were typed.
    """
    from drill.app.weak import weak_areas
    from drill.cli.screen import Screen

    with open_store(reading=True) as store:
        who = existing_learner(store, learner)
        chosen = deck_of(store, who, deck)
        rows = weak_areas(store, open_bank(chosen), chosen, who, clock(at))
    if as_json:
        print_rows(rows)
    else:
        _show(Screen(plain), who.code, rows)


def _show(screen: Screen, code: str, rows: Sequence[WeakArea]) -> None:
    screen.line(f"Where {code} loses marks", style="bold")
    screen.rule()
    if not rows:
        screen.line("Nothing answered yet.")
        return
    head = ("skill", "marks", "tries", "days", "state", "exam", "to win", "why")
    screen.table(
        head,
        [
            (
                row.name,
                f"{row.marks} of {row.of}",
                str(row.attempts),
                str(row.days),
                row.state,
                share(row.exam_share),
                f"{row.marks_to_win:.1f}",
                row.why,
            )
            for row in rows
        ],
    )
    own = [(row.name, f"{row.own_marks} of {row.own_of}") for row in rows if row.own_of]
    if own:
        screen.line()
        screen.line("Decided by the learner, counted in no figure above:")
        for name, marks in own:
            screen.item(marks, name)
    for row in rows:
        for slip in row.slips:
            screen.line()
            screen.line(
                f"{row.name}: {slip.slip.replace('-', ' ')}, {slip.times} times in {slip.attempts}"
            )
            for example in slip.examples:
                screen.item(example.date, f"“{example.typed}”  {example.template}")
