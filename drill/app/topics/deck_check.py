"""A deck held against the bank: problems with their lines, skills with dates, own questions."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, tzinfo
from pathlib import Path
from typing import TYPE_CHECKING

from drill.app.context import deck_file, open_bank
from drill.errors import Problem
from drill.places import bank_dir

if TYPE_CHECKING:
    from drill.bank import Bank
    from drill.model import Deck

_PROOFS = 50
"""Instances of each own question that are proved; `drill bank check FILE` proves more."""


@dataclass(frozen=True)
class DeckSkill:
    """A skill the deck covers; `taught` is a date or "already", `exam` a date or ""."""

    skill: str
    name: str
    templates: int
    marks: float
    taught: str
    exam: str


@dataclass(frozen=True)
class OwnQuestion:
    """A question of the school's own, and in words whether it is asked."""

    question: str
    title: str
    state: str
    path: str


@dataclass(frozen=True)
class DeckFindings:
    """A deck's problems; a row per skill; a row per question of the school's own."""

    problems: tuple[Problem, ...]
    skills: tuple[DeckSkill, ...]
    own: tuple[OwnQuestion, ...]


def check_deck(name: str, now: datetime) -> DeckFindings:
    """A deck by id or file, held against the bank, its own questions and the calendar.

    Raises:
        DrillError: there is no such deck.
    """
    from drill.bank import deck_notes, read_deck

    path = deck_file(name)
    deck = read_deck(path)
    if isinstance(deck, tuple):
        return DeckFindings(tuple(sorted(deck)), (), ())
    bank = open_bank(deck)
    against = read_deck(path, bank)
    problems = list(against) if isinstance(against, tuple) else []
    faults, own = own_questions(deck, bank)
    zone = now.tzinfo
    assert zone is not None, "the moment knows its zone"
    found = sorted((*problems, *deck_notes(deck, now.date())))
    return DeckFindings((*found, *faults), _skills(deck, bank, zone), own)


def calendar_notes(deck: Deck, now: datetime) -> list[str]:
    """What is odd about a deck's dates, a line each."""
    from drill.bank import deck_notes

    return [one.message for one in deck_notes(deck, now.date())]


def _skills(deck: Deck, bank: Bank, zone: tzinfo) -> tuple[DeckSkill, ...]:
    from drill.sitting import skill_plans

    says = bank.skills()
    return tuple(
        DeckSkill(
            skill=skill,
            name=says[skill].says if skill in says else skill,
            templates=len(plan.templates),
            marks=round(plan.marks, 1),
            taught=plan.taught_from.date().isoformat() if plan.taught_from else "already",
            exam=plan.exam.date().isoformat() if plan.exam else "",
        )
        for skill, plan in skill_plans(deck, bank.entries(), zone).items()
    )


def own_questions(deck: Deck, bank: Bank) -> tuple[list[Problem], tuple[OwnQuestion, ...]]:
    """The errors of the school's own questions, and a row for each: asked, or why not."""
    from drill.sitting import topic_of

    mine = [entry for entry in bank.entries() if entry.id.startswith("own/")]
    if not mine:
        return [], ()
    from drill.checking import check

    report = check([Path(entry.path) for entry in mine], bank_dir(), seeds=_PROOFS, jobs=1)
    errors = [problem for problem in report.problems if problem.level == "error"]
    failed = {Path(problem.path).resolve() for problem in errors}
    rows = []
    for entry in mine:
        state = "asked" if topic_of(deck, entry) else "not asked: in no topic, or another course"
        if not entry.ok or Path(entry.path).resolve() in failed:
            state = "not asked: has not passed"
        rows.append(OwnQuestion(entry.id, entry.title, state, entry.path))
    return sorted(errors), tuple(rows)
