"""`drill data`: the learner's own data, out, safe and whole."""

from __future__ import annotations

import sys
from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from drill.app.context import existing_learner, open_store
from drill.cli.common import AsJson, At, LearnerCode, clock, print_rows

app = typer.Typer(help="Your own data: take it out, copy it, check it.", no_args_is_help=True)


class Format(StrEnum):
    """The open formats data leaves in."""

    xapi = "xapi"
    csv = "csv"


FormatOption = Annotated[
    Format, typer.Option("--format", help="xAPI statements (JSON Lines), or CSV.")
]
Out = Annotated[str, typer.Option("--out", help="The file to write; left out: the screen.")]


@app.command()
def export(learner: LearnerCode = "", format: FormatOption = Format.xapi, out: Out = "") -> None:
    """Write everything one learner has answered."""
    from drill.app.data import export_data

    with open_store() as store:
        who = existing_learner(store, learner)
        if not out:
            export_data(store, who, format, sys.stdout)
            return
        with Path(out).open("w", encoding="utf-8", newline="") as file:
            export_data(store, who, format, file)
    sys.stdout.write(f"{who.code}'s answers are in {out}.\n")


@app.command()
def backup(
    to: Annotated[str, typer.Argument(help="A folder; left out: backups in the data folder.")] = "",
    at: At = "",
) -> None:
    """Make a safe copy of all learners' data, whole even while somebody practises."""
    from drill.app.data import backup_data

    with open_store() as store:
        path = backup_data(store, to, clock(at))
    sys.stdout.write(f"A copy is in {path}.\n")


@app.command()
def verify(as_json: AsJson = False) -> None:
    """Check every row against its checksum, and the database itself. Exit 1 when one fails."""
    from drill.app.data import verify_data

    with open_store() as store:
        found = verify_data(store)
    if as_json:
        print_rows(found)
    else:
        for fault in found.faults:
            sys.stdout.write(f"{fault}\n")
        said = f"{len(found.faults)} faults: restore a backup" if found.faults else "all whole"
        sys.stdout.write(f"{sum(found.rows.values())} rows checked, {said}.\n")
    if found.faults:
        raise typer.Exit(1)


@app.command("import")
def import_(
    file: Annotated[str, typer.Argument(help="A file that drill data export has written (xAPI).")],
    into: Annotated[
        str, typer.Option("--into", help="Credit all of it to this learner; else kept apart.")
    ] = "",
) -> None:
    """Put exported answers beside what is here, each only once. Exit 1 when a line is damaged."""
    from drill.app.data import import_data

    with open_store() as store:
        who = existing_learner(store, into) if into else None
        found = import_data(store, file, who)
    for fault in found.faults:
        sys.stdout.write(f"{file}:{fault.line}: {fault.says}\n")
    sys.stdout.write(f"{found.added} rows added, {found.known} were here before.\n")
    if found.faults:
        raise typer.Exit(1)


@app.command()
def erase(
    learner: Annotated[str, typer.Argument(help="Whose data goes.")],
    yes: Annotated[bool, typer.Option("--yes", help="Do not ask again.")] = False,
) -> None:
    """Remove everything of one learner, also from the write-ahead log; copies are named."""
    from drill.app.data import erase_data

    with open_store() as store:
        who = existing_learner(store, learner)
        if not yes and not typer.confirm(f"Remove all answers of {who.code} for good?"):
            raise typer.Exit(1)
        copies = erase_data(store, who)
    sys.stdout.write(f"Everything of {who.code} is gone from this computer's store.\n")
    for copy in copies:
        sys.stdout.write(f"A copy still holds it: {copy}\n")
