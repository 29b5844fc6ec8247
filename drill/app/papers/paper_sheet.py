"""One printed paper: its questions, for whom it is, and how to find it again."""

from __future__ import annotations

from dataclasses import dataclass
from hashlib import sha256
from typing import TYPE_CHECKING

from drill.app.papers.assembly import Assembled
from drill.app.papers.paper_rows import PaperQuestion, paper_questions

if TYPE_CHECKING:
    from collections.abc import Iterable

    from drill.bank import Bank
    from drill.model import Deck, Question

_LETTERS = "BCDFGHJKLMNPQRSTVWXZ"  # no digit that reads as a formula, no vowel that makes a word
_LENGTH = 6


@dataclass(frozen=True)
class PaperSheet:
    """A paper of one version; `code` names its questions with their very numbers.

    `pupil` and `name` are "" for a paper that everybody may write on.
    """

    code: str
    deck: str
    title: str
    course: str
    seed: int
    version: str
    marks: int
    pupil: str
    name: str
    questions: tuple[PaperQuestion, ...]

    @property
    def minutes(self) -> int:
        """A mark a minute (common practice)."""
        return self.marks


def sheet(bank: Bank, deck: Deck, made: Assembled, pupil: str = "", name: str = "") -> PaperSheet:
    """The paper that was assembled, ready to be written.

    Raises:
        DrillError: a drawing is not there or is no drawing.
    """
    plan = made.plan
    return PaperSheet(
        code=code_of(made.questions),
        deck=plan.deck,
        title=deck.title,
        course=plan.course,
        seed=plan.seed,
        version=plan.version,
        marks=plan.marks,
        pupil=pupil,
        name=name,
        questions=paper_questions(bank, made.questions),
    )


def code_of(questions: Iterable[Question]) -> str:
    """Six letters that stand for just these questions in just these versions."""
    text = "\n".join(f"{one.template} {one.version} {one.seed}" for one in questions)
    number = int.from_bytes(sha256(text.encode()).digest()[:8], "big")
    letters = []
    for _ in range(_LENGTH):
        number, digit = divmod(number, len(_LETTERS))
        letters.append(_LETTERS[digit])
    return "".join(letters)


def columns(questions: Iterable[PaperQuestion]) -> tuple[tuple[str, int], ...]:
    """(name, marks) of every part in the order of the paper: 1a, 1b, 2, …"""
    return tuple(
        (part_name(question, part.asked.id), part.asked.marks)
        for question in questions
        for part in question.parts
    )


def part_name(question: PaperQuestion, letter: str) -> str:
    """How a part is named beside its marks: 1a, or 2 when it is the only one."""
    return f"{question.number}{letter}" if len(question.parts) > 1 else str(question.number)
