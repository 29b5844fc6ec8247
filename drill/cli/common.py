"""What several commands share: their options, the clock, and rows as JSON."""

from __future__ import annotations

import json
import sys
from datetime import datetime
from typing import Annotated, Any

import typer

from drill.errors import DrillError

AsJson = Annotated[bool, typer.Option("--json", help="Rows as JSON, for programs.")]
Plain = Annotated[
    bool, typer.Option("--plain", help="For screen readers: no lines, boxes or colour.")
]
At = Annotated[
    str, typer.Option("--at", help="Set the clock for this command, as 2027-03-01T17:00.")
]
LearnerCode = Annotated[str, typer.Option("--learner", help="The code of who is practising.")]
TopicArgument = Annotated[
    str, typer.Argument(help="A topic deck: its id, or its file. Left out: the one used last.")
]


def clock(at: str) -> datetime:
    """Now, or the moment `--at` sets, with this machine's zone."""
    if not at:
        return datetime.now().astimezone()
    try:
        return datetime.fromisoformat(at).astimezone()
    except ValueError:
        raise DrillError(f'--at "{at}" is not a moment. Write it as 2027-03-01T17:00.') from None


def print_rows(rows: Any) -> None:
    """Print a row, or a list of them, as indented JSON on standard output."""
    from drill.app.rows import plain

    sys.stdout.write(json.dumps(plain(rows), ensure_ascii=False, indent=2) + "\n")
