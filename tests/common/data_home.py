"""A data folder under attack, looked into: its store, its learners, a sitting in it."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

from drill.app.context import deck_of, open_bank
from drill.planning import lessons
from drill.sitting import Goal, Sitting, history
from drill.sitting.skill_plans import skill_plans
from drill.store import Learner, Store
from tests.common.attacks import START, small_deck
from tests.store.making import in_haste


def opened(home: Path) -> Store:
    return in_haste(Store.open(home / "drill.db"))


def learner(store: Store, code: str = "K7") -> Learner:
    return next(one for one in store.learners() if one.code == code)


def is_true(store: Store, who: Learner) -> bool:
    """Whether the memory a command would use is the one rebuilt from what is stored."""
    deck = deck_of(store, who, small_deck(store.path.parent))
    zone = START.tzinfo
    assert zone is not None
    taught = lessons(skill_plans(deck, open_bank(deck).entries(), zone))
    used = history.remembered(store, who, taught).to_state()
    return used == history.rebuilt(store, who, taught).to_state()


def sit_down(store: Store, who: Learner, now: datetime) -> Sitting:
    deck = deck_of(store, who, small_deck(store.path.parent))
    return Sitting(store, open_bank(deck), deck, who, now, Goal(30, None))


def answer(sitting: Sitting, now: datetime) -> str:
    """Answer the next question; returns its template and seed."""
    asked = sitting.next(now, extra=True)
    assert asked is not None
    for part in () if asked.shown else asked.waiting():
        sitting.answer(asked, part, part.model_answer, 20.0, now, again=True)
    sitting.finish(asked, now)
    return f"{asked.question.template} {asked.question.seed}"
