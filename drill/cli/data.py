"""`drill data`: the learner's own data, out, safe and whole."""

from __future__ import annotations

import sys
from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from drill.cli.common import (
    AsJson,
    At,
    LearnerCode,
    clock,
    existing_learner,
    open_store,
    rows_as_json,
)
from drill.errors import DrillError
from drill.places import data_dir
from drill.plaintext import one_line

app = typer.Typer(help="Your own data: take it out, copy it, check it.", no_args_is_help=True)


class Form(StrEnum):
    """The two open forms data leaves in."""

    xapi = "xapi"
    csv = "csv"


FormOption = Annotated[Form, typer.Option("--form", help="xAPI statements (JSON Lines), or CSV.")]
Out = Annotated[str, typer.Option("--out", help="The file to write; left out: the screen.")]


@app.command()
def export(learner: LearnerCode = "", form: FormOption = Form.xapi, out: Out = "") -> None:
    """Write everything one learner has answered."""
    from drill.exchange import export_csv, export_jsonl

    write = export_csv if form is Form.csv else export_jsonl
    with open_store() as store:
        who = existing_learner(store, learner)
        if not out:
            write(store, who, sys.stdout)
            return
        with Path(out).open("w", encoding="utf-8", newline="") as file:
            write(store, who, file)
    sys.stdout.write(f"{who.code}'s answers are in {out}.\n")


@app.command()
def backup(
    to: Annotated[str, typer.Argument(help="A folder; left out: backups in the data folder.")] = "",
    at: At = "",
) -> None:
    """Make a safe copy of all learners' data, whole even while somebody practises."""
    from drill.exchange import backup as copied

    folder = Path(to) if to else data_dir() / "backups"
    with open_store() as store:
        path = copied(store, folder, clock(at))
    sys.stdout.write(f"A copy is in {path}.\n")


@app.command()
def verify(as_json: AsJson = False) -> None:
    """Check every row against its checksum, and the database itself. Exit 1 when one fails."""
    with open_store() as store:
        faults, counts = store.verify(), store.counts()
    if as_json:
        rows_as_json({"faults": faults, "rows": counts})
    else:
        for fault in faults:
            sys.stdout.write(f"{fault}\n")
        total = sum(counts.values())
        said = "all whole" if not faults else f"{len(faults)} faults: restore a backup"
        sys.stdout.write(f"{total} rows checked, {said}.\n")
    if faults:
        raise typer.Exit(1)


@app.command("import")
def import_(
    file: Annotated[str, typer.Argument(help="A file that drill data export has written (xAPI).")],
    into: Annotated[
        str, typer.Option("--into", help="Credit all of it to this learner; else kept apart.")
    ] = "",
) -> None:
    """Put exported answers beside what is here, each only once. Exit 1 when a line is damaged."""
    from drill.exchange import import_jsonl

    path = Path(file)
    if not path.is_file():
        raise DrillError(f'there is no file "{file}".')
    with open_store() as store, path.open("rb") as lines:
        who = existing_learner(store, into) if into else None
        merged = import_jsonl(store, lines, who)
    for fault in merged.faults:
        sys.stdout.write(f"{file}:{fault.line}: {one_line(fault.message)}\n")
    sys.stdout.write(f"{merged.added} rows added, {merged.known} were here before.\n")
    if merged.faults:
        raise typer.Exit(1)


@app.command()
def erase(
    learner: Annotated[str, typer.Argument(help="Whose data goes.")],
    yes: Annotated[bool, typer.Option("--yes", help="Do not ask again.")] = False,
) -> None:
    """Remove everything of one learner, also from the write-ahead log; copies are named."""
    from drill.sitting import forget_settled

    with open_store() as store:
        who = existing_learner(store, learner)
        if not yes and not typer.confirm(f"Remove all answers of {who.code} for good?"):
            raise typer.Exit(1)
        forget_settled(store, who)
        copies = store.erase(who)
    sys.stdout.write(f"Everything of {who.code} is gone from this computer's store.\n")
    for copy in copies:
        sys.stdout.write(f"A copy still holds it: {copy}\n")
