"""`drill weak`: where marks are lost and why."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING, Annotated, Any

import typer

from drill.cli.common import (
    AsJson,
    At,
    Plain,
    clock,
    deck_of,
    existing_learner,
    open_bank,
    open_store,
    rows_as_json,
)
from drill.cli.views import share

if TYPE_CHECKING:
    from drill.cli.screen import Screen
    from drill.store import Learner, Store

Who = Annotated[str, typer.Argument(help="A learner's code; left out: the one who sat last.")]
Deck = Annotated[str, typer.Option("--deck", help="The topic deck whose exam counts.")]


def weak(
    learner: Who = "", deck: Deck = "", plain: Plain = False, as_json: AsJson = False, at: At = ""
) -> None:
    """Show per skill the marks lost, most exam marks still to win first.

    Each skill: marks, attempts, days, state, why (never known, forgotten, slip), and a slip that
    came back with two answers as they were typed.
    """
    from drill.cli.screen import Screen

    now = clock(at)
    with open_store() as store:
        who = existing_learner(store, learner)
        rows = rows_of(store, who, deck, now)
    if as_json:
        rows_as_json(rows)
    else:
        _show(Screen(plain), who.code, rows)


def rows_of(store: Store, who: Learner, deck_name: str, now: datetime) -> list[dict[str, Any]]:
    """The rows of the report for one learner."""
    from drill.reports import weak_rows
    from drill.sitting import learners_planner, parts_of_versions, skills_of_versions, states

    deck = deck_of(store, who, deck_name)
    bank = open_bank(deck)
    askings = store.askings(who)
    names = {skill.id: skill.says for skill in bank.skills().values()}
    planner = learners_planner(store, bank, deck, who, now)
    parts = parts_of_versions(store, askings)
    words = states(askings, parts, planner, now)
    return weak_rows(askings, skills_of_versions(parts), planner, names, words, now)


def _show(screen: Screen, code: str, rows: list[dict[str, Any]]) -> None:
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
                row["name"],
                f"{row['marks']} of {row['of']}",
                str(row["attempts"]),
                str(row["days"]),
                row["state"],
                share(row["exam_share"]),
                f"{row['marks_to_win']:.1f}",
                row["why"],
            )
            for row in rows
        ],
    )
    own = [(row["name"], f"{row['own_marks']} of {row['own_of']}") for row in rows if row["own_of"]]
    if own:
        screen.line()
        screen.line("Decided by the learner, counted in no figure above:")
        for name, marks in own:
            screen.item(marks, name)
    for row in rows:
        for slip in row["slips"]:
            screen.line()
            screen.line(
                f"{row['name']}: {slip['slip'].replace('-', ' ')}, "
                f"{slip['times']} times in {slip['attempts']}"
            )
            for example in slip["examples"]:
                screen.item(example["date"], f"“{example['typed']}”  {example['template']}")
