"""What several commands share: their options, the clock, and rows as JSON."""

from __future__ import annotations

import json
import sys
from datetime import datetime
from math import isfinite
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from drill.errors import WrongValue
from drill.plaintext import one_line

if TYPE_CHECKING:
    from drill.app.context import Learner, Store

AsJson = Annotated[bool, typer.Option("--json", help="Rows as JSON, for programs.")]
Plain = Annotated[
    bool, typer.Option("--plain", help="For screen readers: no lines, boxes or colour.")
]
PlainKept = Annotated[
    bool | None,
    typer.Option("--plain/--no-plain", help="For screen readers: no lines or colour; remembered."),
]
At = Annotated[
    str, typer.Option("--at", help="Set the clock for this command, as 2027-03-01T17:00.")
]
LearnerCode = Annotated[str, typer.Option("--learner", help="The code of who is practising.")]
TopicArgument = Annotated[
    str, typer.Argument(help="A topic deck: its id, or its file. Left out: the one used last.")
]

FIRST_YEAR, LAST_YEAR = 2000, 2100


def is_plain(store: Store, code: str, plain: bool | None) -> bool:
    """Whether to show things plainly: as asked for now, else as the learner wanted it last.

    `code`: whose wish counts; "" is who practised here last.
    """
    if plain is not None:
        return plain
    code = code or store.setting(None, "last learner") or ""
    found = [who for who in store.learners() if who.code.casefold() == code.casefold()]
    return bool(found) and store.setting(found[0], "plain") == "yes"


def keep_plain(store: Store, who: Learner, plain: bool | None, now: datetime) -> None:
    """Keep the learner's wish, when it is a change."""
    wanted = {True: "yes", False: "no", None: None}[plain]
    if wanted is not None and (store.setting(who, "plain") or "no") != wanted:
        store.set_setting(who, "plain", wanted, now)


def clock(at: str) -> datetime:
    """Now, or the moment `--at` sets, with this machine's zone."""
    if not at:
        return datetime.now().astimezone()
    try:
        moment = datetime.fromisoformat(at).astimezone()
    except (ValueError, OverflowError, OSError):
        shown = one_line(at, 40)
        said = f'--at "{shown}" is not a moment. Write it as 2027-03-01T17:00.'
        raise WrongValue(said) from None
    if not FIRST_YEAR <= moment.year <= LAST_YEAR:
        raise WrongValue(
            f"--at {one_line(at, 40)}: the year must be from {FIRST_YEAR} to {LAST_YEAR}."
        )
    return moment


def finite(value: float | None) -> float | None:
    """A number that is one: nan slips through limits, since it compares with nothing.

    Raises:
        WrongValue: it is not.
    """
    if value is not None and not isfinite(value):
        raise WrongValue(f'"{value}" is no number of minutes. Write it as 20.')
    return value


def print_rows(rows: Any) -> None:
    """Print a row, or a list of them, as indented JSON on standard output."""
    from drill.app.rows import plain

    sys.stdout.write(json.dumps(plain(rows), ensure_ascii=False, indent=2) + "\n")


def write_file(path: Path, text: str) -> None:
    """Write what a command made, and say where it is.

    Raises:
        DrillError: the file cannot be written.
    """
    from drill.app.data import written

    with written(path) as file:
        file.write(text)
    sys.stdout.write(f"{one_line(str(path))} is ready.\n")


def write_bytes(path: Path, data: bytes) -> None:
    """The same for what is no text.

    Raises:
        DrillError: the file cannot be written.
    """
    from drill.app.papers.paper_files import save

    save(path, data)
    sys.stdout.write(f"{one_line(str(path))} is ready.\n")


def quoted(name: str) -> str:
    """A file's name as it is typed: in quotes where it holds a space."""
    return f'"{name}"' if " " in name else name
