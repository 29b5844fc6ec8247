"""`drill learner`: the short codes of those who share this computer."""

from __future__ import annotations

import sys
from typing import Annotated

import typer

from drill.cli.common import AsJson, At, clock, open_store, rows_as_json

app = typer.Typer(help="Short codes for the people who share this computer.", no_args_is_help=True)

Code = Annotated[str, typer.Argument(help="Up to 12 letters, digits or dashes.")]


@app.command("list")
def list_(as_json: AsJson = False) -> None:
    """List the codes, and since when each has practised."""
    with open_store() as store:
        rows = [
            {"code": learner.code, "since": learner.when.date().isoformat()}
            for learner in store.learners()
        ]
    if as_json:
        rows_as_json(rows)
        return
    for row in rows:
        sys.stdout.write(f"{row['code']}  since {row['since']}\n")
    if not rows:
        sys.stdout.write("Nobody yet. The first sitting asks for a code: drill sit\n")


@app.command()
def new(code: Code, at: At = "") -> None:
    """Add a learner."""
    with open_store() as store:
        store.new_learner(code, clock(at))
    sys.stdout.write(f"{code} can now practise: drill sit --learner {code}\n")


@app.command()
def rename(code: Code, to: Code, at: At = "") -> None:
    """Give a learner another code; everything answered stays theirs."""
    from drill.cli.common import existing_learner

    with open_store() as store:
        store.rename_learner(existing_learner(store, code).code, to, clock(at))
    sys.stdout.write(f"{code} is now {to}.\n")
