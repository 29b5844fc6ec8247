"""`drill regrade`: stored answers marked again after a scheme was changed."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from drill.app.context import open_bank_of_all, open_store
from drill.cli.common import AsJson, At, clock, print_rows
from drill.plaintext import counted

if TYPE_CHECKING:
    from drill.app.regrade import ChangedMark, Regraded
    from drill.cli.screen import Screen

Question = Annotated[str, typer.Argument(help="Only answers to this template; none: all.")]
Yes = Annotated[bool, typer.Option("--yes", help="Store the new marks.")]
OfDeck = Annotated[str, typer.Option("--deck", help="A deck whose own questions count as well.")]


def regrade(
    question: Question = "",
    yes: Yes = False,
    deck: OfDeck = "",
    as_json: AsJson = False,
    at: At = "",
) -> None:
    """Mark stored answers again with today's schemes; shows what would change, --yes stores it.

    Marks given by a teacher, on paper or by the learner stand. Own questions of the decks in the
    data folder, of those that learners here use, and of --deck are looked at too.
    """
    from drill.app.regrade import regrade as regraded
    from drill.cli.screen import Screen

    with open_store(reading=not yes) as store:
        bank = open_bank_of_all(store, *filter(None, [deck]))
        found = regraded(store, bank, question, yes, clock(at))
    if as_json:
        print_rows(found)
    else:
        _show(Screen(), found)


def _show(screen: Screen, found: Regraded) -> None:
    would = "changed" if found.stored else "would change"
    answers = counted(found.looked_at, "answer")
    screen.line(f"{answers} marked again, {len(found.changes)} {would}.")
    if found.left:
        screen.line(f"{found.left} left as they are: their question cannot be made again.")
    for row in found.changes:
        _show_change(screen, row)
    if found.changes and not found.stored:
        screen.line()
        screen.line("Nothing is stored yet. To store it: drill regrade --yes")


def _show_change(screen: Screen, row: ChangedMark) -> None:
    screen.line()
    unsure = "  (not sure)" if row.not_sure else ""
    marks = f"{row.old} → {row.new} of {row.of}{unsure}"
    screen.line(f"{row.template} ({row.part})  {row.learner}  {marks}")
    screen.item("typed", row.answer)
    screen.item("marker", row.says)
