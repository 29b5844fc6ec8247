"""`drill learner`: the short codes of those who share this computer."""

from __future__ import annotations

import sys
from typing import Annotated

import typer

from drill.app.context import open_store
from drill.cli.common import AsJson, At, clock, print_rows

app = typer.Typer(help="Short codes for the people who share this computer.", no_args_is_help=True)

Code = Annotated[str, typer.Argument(help="Up to 12 letters, digits or dashes.")]


@app.command("list")
def list_(as_json: AsJson = False) -> None:
    """List the codes, and since when each has practised."""
    from drill.app.learners import learners

    with open_store(reading=True) as store:
        rows = learners(store)
    if as_json:
        print_rows(rows)
        return
    for row in rows:
        sys.stdout.write(f"{row.code}  since {row.since}\n")
    if not rows:
        sys.stdout.write("Nobody yet. The first sitting asks for a code: drill sit\n")


@app.command()
def new(code: Code, at: At = "") -> None:
    """Add a learner."""
    from drill.app.learners import new_learner

    with open_store() as store:
        new_learner(store, code, clock(at))
    sys.stdout.write(f"{code} can now practise: drill sit --learner {code}\n")


@app.command()
def rename(code: Code, to: Code, at: At = "") -> None:
    """Give a learner another code; everything answered stays theirs."""
    from drill.app.learners import rename_learner

    with open_store() as store:
        rename_learner(store, code, to, clock(at))
    sys.stdout.write(f"{code} is now {to}.\n")
