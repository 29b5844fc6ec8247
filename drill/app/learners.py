"""The people who share this computer, by their short codes."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING

from drill.app.context import existing_learner

if TYPE_CHECKING:
    from drill.store import Store


@dataclass(frozen=True)
class LearnerRow:
    """A code, and the date since when it has been here."""

    code: str
    since: str


def learners(store: Store) -> list[LearnerRow]:
    """Everybody here, in the order they came."""
    return [LearnerRow(who.code, who.when.date().isoformat()) for who in store.learners()]


def new_learner(store: Store, code: str, now: datetime) -> None:
    """Add somebody.

    Raises:
        DrillError: the code is taken or cannot be one.
    """
    store.new_learner(code, now)


def rename_learner(store: Store, code: str, to: str, now: datetime) -> None:
    """Give a learner another code; everything answered stays theirs.

    Raises:
        DrillError: nobody has the code, or the new one is taken or cannot be one.
    """
    store.rename_learner(existing_learner(store, code).code, to, now)
