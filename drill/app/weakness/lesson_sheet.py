"""A tutor's sheet: the questions to ask in the next lesson, with numbers the learner never had."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING

from drill.app.papers.paper_rows import PaperQuestion, paper_questions

if TYPE_CHECKING:
    from drill.app.weakness.weak import LearnerReport
    from drill.bank import Bank
    from drill.model import Question
    from drill.store import Learner, Store

_SEEDS = 1_000_000


@dataclass(frozen=True)
class LessonSheet:
    """What is to be taken up, by name, and the questions for it."""

    learner: str
    deck: str
    on: str
    about: tuple[str, ...]
    questions: tuple[PaperQuestion, ...]


def lesson_sheet(
    store: Store, bank: Bank, report: LearnerReport, who: Learner, now: datetime
) -> LessonSheet:
    """The questions of a report, the same all day and others tomorrow.

    Raises:
        DrillError: a drawing is not there or is no drawing.
    """
    return LessonSheet(
        report.learner,
        report.deck,
        report.on,
        tuple(item.name for item in report.lesson),
        paper_questions(bank, list(_questions(store, bank, report.ask, who, now))),
    )


def _questions(
    store: Store, bank: Bank, templates: tuple[str, ...], who: Learner, now: datetime
) -> Iterator[Question]:
    from drill.errors import Problem
    from drill.generate import choose, generate

    day = now.date().toordinal()
    for id_ in templates:
        template = bank.template(id_)
        if isinstance(template, tuple):
            continue
        used = store.used_seeds(who, template.id)
        seeds = (choose(day, f"lesson {who.code} {id_} {turn}", _SEEDS) for turn in range(_SEEDS))
        made = generate(template, next(seed for seed in seeds if seed not in used))
        if not isinstance(made, Problem):
            yield made
