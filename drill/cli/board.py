"""`drill board`: questions for a class before a screen."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Annotated

import typer

from drill.app.context import find_deck, open_checked, open_store
from drill.cli.common import At, clock, write_file

Marks = Annotated[int, typer.Option("--marks", help="Marks of the questions together.", min=5)]
Seed = Annotated[int, typer.Option("--seed", help="Other numbers for another lesson.", min=0)]
Course = Annotated[str, typer.Option("--course", help='For which course, as "combined higher".')]
Out = Annotated[str, typer.Option("--out", help="The file to write; left out: by deck and seed.")]


def board(
    deck: Annotated[str, typer.Argument(help="A topic deck: its id, or its file.")],
    marks: Marks = 20,
    seed: Seed = 1,
    course: Course = "",
    out: Out = "",
    at: At = "",
) -> None:
    """Write one HTML file for a class before a screen.

    A starter of five short questions from weeks ago, then questions of the deck: each large on a
    page, with hint, mark scheme and worked answer on pages of their own. Keys or clicks lead on.
    """
    from drill.app.board import board as made_board
    from drill.app.topics.left_out import for_teacher, left_out
    from drill.cli.paper import course_for
    from drill.documents.board import write
    from drill.frozen import replace

    chosen, now = find_deck(deck), clock(at)
    told = course_for(course, chosen)
    chosen = replace(chosen, course=told) if told else chosen
    bank = open_checked(chosen)
    for line in for_teacher(left_out(chosen, bank)):
        sys.stdout.write(f"{line}\n")
    with open_store() as store:
        made = made_board(store, bank, chosen, marks, seed, now)
    write_file(Path(out or f"{chosen.id}-{seed}-board.html"), write(made))
