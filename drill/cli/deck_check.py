"""What `drill deck check` finds: problems with their lines, skills with dates, own questions."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

from drill.cli.common import deck_files, open_bank
from drill.errors import DrillError, Problem
from drill.places import bank_dir

if TYPE_CHECKING:
    from drill.bank import Bank
    from drill.model import Deck

_PROOFS = 50
"""Instances of each own question that are proved; `drill bank check FILE` proves more."""


class DeckFindings(NamedTuple):
    """A deck's problems; a row per skill; a row per question of the school's own."""

    problems: list[Problem]
    skills: list[dict[str, Any]]
    own: list[dict[str, Any]]


def checked(name: str) -> DeckFindings:
    """A deck by id or file, held against the bank and its own questions.

    Raises:
        DrillError: there is no such deck.
    """
    from drill.bank import read_deck

    path = _file_of(name)
    deck = read_deck(path)
    if isinstance(deck, tuple):
        return DeckFindings(sorted(deck), [], [])
    bank = open_bank(deck)
    against = read_deck(path, bank)
    problems = sorted(against) if isinstance(against, tuple) else []
    faults, own = _own(deck, bank)
    rows = _skills(deck, bank)
    if not rows and not problems:
        hint = "Check course, practicals and without."
        problems.append(Problem(str(path), 0, 0, "the deck asks no question at all.", hint))
    return DeckFindings(problems + faults, rows, own)


def _file_of(name: str) -> Path:
    path = Path(name)
    if path.is_file():
        return path
    known = deck_files()
    if name not in known:
        raise DrillError(f'no topic deck "{name}". There are: {", ".join(sorted(known))}.')
    return known[name]


def _skills(deck: Deck, bank: Bank) -> list[dict[str, Any]]:
    from drill.sitting import skill_plans

    zone = datetime.now().astimezone().tzinfo
    assert zone is not None
    says = bank.skills()
    return [
        {
            "skill": skill,
            "name": says[skill].says if skill in says else skill,
            "templates": len(plan.templates),
            "marks": round(plan.marks, 1),
            "taught": plan.taught_from.date().isoformat() if plan.taught_from else "already",
            "exam": plan.exam.date().isoformat() if plan.exam else "",
        }
        for skill, plan in skill_plans(deck, bank.entries(), zone).items()
    ]


def _own(deck: Deck, bank: Bank) -> tuple[list[Problem], list[dict[str, Any]]]:
    """The errors of the school's own questions, and a row for each: asked, or why not."""
    from drill.sitting import topic_of

    mine = [entry for entry in bank.entries() if entry.id.startswith("own/")]
    if not mine:
        return [], []
    from drill.checking import check

    report = check([Path(entry.path) for entry in mine], bank_dir(), seeds=_PROOFS, jobs=1)
    errors = [problem for problem in report.problems if problem.level == "error"]
    failed = {Path(problem.path).resolve() for problem in errors}
    rows = []
    for entry in mine:
        state = "asked" if topic_of(deck, entry) else "not asked: in no topic, or another course"
        if not entry.ok or Path(entry.path).resolve() in failed:
            state = "not asked: has not passed"
        row = {"question": entry.id, "title": entry.title, "state": state, "path": entry.path}
        rows.append(row)
    return sorted(errors), rows


def show(found: DeckFindings) -> None:
    """The problems, then the tables."""
    from drill.cli.screen import Screen
    from drill.errors import problems_as_text

    screen = Screen()
    files = 1 + len(found.own)
    screen.line(problems_as_text(found.problems, files))
    head = ("name", "templates", "marks", "taught", "exam")
    if found.skills:
        screen.table(head, [tuple(str(row[name]) for name in head) for row in found.skills])
    if found.own:
        screen.line()
        screen.line("Your own questions (every file in the folder is asked, starters too):")
        rows = [(_short(row["question"]), row["title"], row["state"]) for row in found.own]
        screen.table(("question", "title", ""), rows)


def _short(id_: str) -> str:
    """`practical/question` of `own/deck/practical/question`."""
    return "/".join(id_.split("/")[-2:])
