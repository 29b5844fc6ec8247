"""Topic decks: those that are here, and writing a new one."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from drill.app.context import deck_files, listed
from drill.errors import DrillError

if TYPE_CHECKING:
    from drill.bank import Bank


@dataclass(frozen=True)
class DeckRow:
    """A deck that can be used; `exam` lists its papers' dates."""

    id: str
    title: str
    course: str
    exam: str


@dataclass(frozen=True)
class FaultyDeck:
    """A deck whose file has problems, under the file's name."""

    id: str
    title: str
    problems: int
    path: str


def decks() -> list[DeckRow | FaultyDeck]:
    """Every deck in the data folder and every demonstration deck."""
    return [_row(name, path) for name, path in sorted(deck_files().items())]


def _row(name: str, path: Path) -> DeckRow | FaultyDeck:
    from drill.bank import read_deck

    deck = read_deck(path)
    if isinstance(deck, tuple):
        return FaultyDeck(name, "", len(deck), str(path))
    exams = ", ".join(paper.exam for paper in deck.papers if paper.exam)
    return DeckRow(deck.id, deck.title, ", ".join(deck.courses), exams)


class NewTopic(NamedTuple):
    """A practical of a new deck; `taught` is an ISO date or "", `paper` counts from 1."""

    practical: str
    taught: str = ""
    paper: int = 1


@dataclass(frozen=True)
class NewDeck:
    """All that a new deck is written from; `papers` are ISO dates, `bench` keys of [bench]."""

    path: Path
    title: str
    courses: Sequence[str]
    papers: Sequence[str]
    topics: Sequence[NewTopic]
    minutes: int
    bench: Mapping[str, str] = field(default_factory=dict)


def nothing_for(
    bank: Bank, practicals: Sequence[str], courses: Sequence[str]
) -> dict[str, list[str]]:
    """{practical: those of the courses for which it has no question}, where there are any."""
    has: dict[str, set[str]] = {practical: set() for practical in practicals}
    for entry in bank.entries():
        if entry.ok and not entry.retired and entry.practical in has:
            has[entry.practical].update(entry.course)
    lacks = {id_: [one for one in courses if one not in known] for id_, known in has.items()}
    return {id_: several for id_, several in lacks.items() if several}


def write_deck(wanted: NewDeck, bank: Bank) -> None:
    """Write a deck's file, with comments; it passes its own check.

    Raises:
        DrillError: the file is there or cannot be written, or (then it is taken away) has faults.
    """
    from drill.bank import new_deck, read_deck

    text = new_deck(
        title=wanted.title,
        id=id_from(wanted.title),
        courses=wanted.courses,
        minutes=wanted.minutes,
        papers=wanted.papers,
        topics=wanted.topics,
        bench=wanted.bench,
    )
    _write(wanted.path, text)
    found = read_deck(wanted.path, bank)
    errors = [one for one in found if one.level == "error"] if isinstance(found, tuple) else ()
    if errors:
        wanted.path.unlink()
        raise DrillError(listed(errors))


def id_from(title: str) -> str:
    """Small letters and digits with - between words, for the deck and its file."""
    letters = "".join(
        sign if sign.isascii() and sign.isalnum() else "-" for sign in title.casefold()
    )
    return "-".join(part for part in letters.split("-") if part)[:40].strip("-") or "deck"


def _write(path: Path, text: str) -> None:
    """Write a file that is not there yet."""
    try:
        with path.open("x", encoding="utf-8") as file:
            file.write(text)
    except OSError as error:
        raise DrillError(f"{path} cannot be written: {error.strerror}.") from None
