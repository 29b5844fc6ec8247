"""What a teacher shows a class: questions from the deck, and a starter on earlier topics."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import TYPE_CHECKING

from drill.app.papers.assembly import PaperWish, assemble_versions, expected_share
from drill.app.papers.paper_making import usable_in
from drill.app.papers.paper_rows import PaperQuestion, paper_questions
from drill.errors import DrillError, Problem

if TYPE_CHECKING:
    from collections.abc import Callable

    from drill.bank import Bank, Entry
    from drill.model import Deck, Question, Template
    from drill.store import Store

STARTER = 5
_AGO = timedelta(days=14)
_SHORT = 60  # seconds, typed
_FEW = 2  # marks


@dataclass(frozen=True)
class Board:
    """`starter` is from topics taught two weeks ago or earlier; both are numbered from 1."""

    title: str
    deck: str
    seed: int
    starter: tuple[PaperQuestion, ...]
    questions: tuple[PaperQuestion, ...]


def board(store: Store, bank: Bank, deck: Deck, marks: int, seed: int, now: datetime) -> Board:
    """Questions worth so many marks, balanced as a paper is, and a starter with others.

    Raises:
        DrillError: the deck has too little for so many marks, or nothing of it is taught by now.
    """
    usable = usable_in(store, bank, now)
    made = assemble_versions(bank, deck, PaperWish(marks, seed), ("A",), now, usable)[0]
    shown = {question.template for question in made.questions}
    starter = _starter(bank, deck, seed, now, usable, shown)
    return Board(
        deck.title,
        deck.id,
        seed,
        paper_questions(bank, starter),
        paper_questions(bank, made.questions),
    )


def _starter(
    bank: Bank,
    deck: Deck,
    seed: int,
    now: datetime,
    usable: Callable[[Template], bool],
    without: set[str],
) -> list[Question]:
    """Short questions, no two of a skill or about the same thing, easy ones first."""
    from drill.generate import choose, generate

    left = [entry for entry in _long_ago(bank, deck, now) if entry.id not in without]
    found: list[Question] = []
    taken: set[str] = set()
    while left and len(found) < STARTER:
        entry = left.pop(choose(seed, f"starter {len(left)}", len(left)))
        template = bank.template(entry.id)
        if {entry.skills[0], entry.object} & taken or isinstance(template, tuple):
            continue
        made = generate(template, choose(seed, f"board {entry.id}", 1_000_000))
        if not isinstance(made, Problem) and usable(template):
            found.append(made)
            taken |= {entry.skills[0], entry.object} - {""}
    return sorted(found, key=lambda one: -expected_share([one], now))


def _long_ago(bank: Bank, deck: Deck, now: datetime) -> list[Entry]:
    """Short questions of topics taught two weeks ago; of all taught where there are too few."""
    from drill.sitting import topic_of

    today, ago = now.date().isoformat(), (now - _AGO).date().isoformat()
    topics = ((entry, topic_of(deck, entry)) for entry in bank.entries())
    taught = [
        (entry, topic)
        for entry, topic in topics
        if topic and topic.taught <= today and entry.marks <= _FEW and entry.seconds <= _SHORT
    ]
    old = [entry for entry, topic in taught if topic.taught <= ago]
    if not taught:
        raise DrillError(f'nothing of the deck "{deck.id}" is taught yet.')
    return old if len(old) >= 4 * STARTER else [entry for entry, _ in taught]
