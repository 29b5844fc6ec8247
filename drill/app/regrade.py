"""Stored answers marked again with today's schemes: what would change, and storing it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING

from drill.app.appeals import short_id
from drill.app.ask import no_template
from drill.errors import DrillError

if TYPE_CHECKING:
    from drill.bank import Bank
    from drill.sitting import Change
    from drill.store import Store


@dataclass(frozen=True)
class ChangedMark:
    """An answer whose mark is another one by today's scheme."""

    id: str
    learner: str
    template: str
    part: str
    answer: str
    old: int
    new: int
    of: int
    not_sure: tuple[str, ...]
    says: str


@dataclass(frozen=True)
class Regraded:
    """What marking again showed; `left` answers belong to questions that cannot be made again."""

    looked_at: int
    left: int
    stored: bool
    changes: tuple[ChangedMark, ...]


def regrade(store: Store, bank: Bank, question: str, keep: bool, now: datetime) -> Regraded:
    """Mark stored answers again, of one question or (with "") of all.

    Args:
        bank: with the own questions of every deck, so that a school's own answers are looked at.
        keep: store the new marks; otherwise nothing is stored.

    Raises:
        DrillError: the question is neither in the bank nor answered by anybody here.
    """
    from drill.sitting import remark, store_changes

    found = remark(store, bank, _full_id(store, bank, question))
    if keep:
        store_changes(store, bank, found, now)
    return Regraded(found.looked_at, found.left, keep, tuple(map(_row, found.changes)))


def _full_id(store: Store, bank: Bank, name: str) -> str:
    """The question's id; one that is gone from the bank may still have answers."""
    if not name:
        return ""
    entry, id_ = bank.entry(name), name.replace(".", "/")
    if entry is not None:
        return entry.id
    answered = {row.template for who in store.learners() for row in store.askings(who)}
    if id_ not in answered:
        raise DrillError(no_template(name, [*(one.id for one in bank.entries()), *answered]))
    return id_


def _row(change: Change) -> ChangedMark:
    return ChangedMark(
        id=short_id(change.answer.id),
        learner=change.learner.code,
        template=change.asking.template,
        part=change.answer.part,
        answer=change.answer.text,
        old=change.old.marks,
        new=change.new.marks,
        of=change.new.of,
        not_sure=tuple(change.new.unsure),
        says=change.new.says,
    )
