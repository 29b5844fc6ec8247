"""What several commands share: their options, the clock, the opened store, bank and deck."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterable, Mapping
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from drill.errors import DrillError, Problem
from drill.places import bank_dir, data_dir, demo_decks_dir

if TYPE_CHECKING:
    from drill.bank import Bank
    from drill.model import Deck
    from drill.store import Learner, Store

FIRST_DECK = "first-steps"

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


def rows_as_json(rows: Iterable[Mapping[str, Any]] | Mapping[str, Any]) -> None:
    """Print rows as indented JSON on standard output."""
    value = dict(rows) if isinstance(rows, Mapping) else [dict(row) for row in rows]
    sys.stdout.write(json.dumps(value, ensure_ascii=False, indent=2) + "\n")


def open_store() -> Store:
    """The store in the data folder; it is made when it is not there."""
    from drill.store import Store

    return Store.open(data_dir() / "drill.db")


def open_bank(deck: Deck | None = None) -> Bank:
    """The shipped bank, with the deck's own questions when it names a folder of them."""
    from drill.bank import Bank

    own: tuple[tuple[str, Path], ...] = ()
    if deck is not None and deck.own:
        own = ((deck.id, Path(deck.path).parent / deck.own),)
    return Bank.open(bank_dir(), cache=data_dir() / "bank-index.json", own=own)


def deck_files() -> dict[str, Path]:
    """`{id: file}` of the decks in the data folder and of the shipped demo decks."""
    folders = (demo_decks_dir(), data_dir() / "decks")
    return {path.stem: path for folder in folders for path in sorted(folder.glob("*.toml"))}


def find_deck(name: str) -> Deck:
    """The deck with that id or file.

    Raises:
        DrillError: there is none, or its file has problems (all of them are listed).
    """
    from drill.bank import read_deck

    path = Path(name)
    if not (path.suffix == ".toml" and path.is_file()):
        known = deck_files()
        if name not in known:
            raise DrillError(f'no topic deck "{name}". There are: {", ".join(sorted(known))}.')
        path = known[name]
    deck = read_deck(path)
    if isinstance(deck, tuple):
        raise DrillError(listed(deck))
    return deck


def listed(problems: Iterable[Problem]) -> str:
    """Problems a line each, in order of place."""
    return "\n".join(str(problem) for problem in sorted(problems))


def existing_learner(store: Store, code: str) -> Learner:
    """The learner with that code; without a code the only one, or the one who sat last.

    Raises:
        DrillError: nobody has that code, or nobody is here yet.
    """
    learners = store.learners()
    if code:
        for learner in learners:
            if learner.code.casefold() == code.casefold():
                return learner
        names = ", ".join(sorted(learner.code for learner in learners)) or "nobody yet"
        raise DrillError(f'no learner "{code}" here. There is: {names}.')
    if not learners:
        raise DrillError("nobody has practised here yet. Start with: drill sit")
    last = store.setting(None, "last learner")
    return next((who for who in learners if who.code == last), learners[0])


def deck_of(store: Store, learner: Learner, name: str) -> Deck:
    """The deck named, else the one this learner used last, else the one for first steps."""
    chosen = name or store.setting(learner, "deck") or FIRST_DECK
    try:
        return find_deck(chosen)
    except DrillError:
        if name:
            raise
        return find_deck(FIRST_DECK)
