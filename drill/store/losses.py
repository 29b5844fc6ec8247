"""Rows that were on disk once and are gone: when that was noticed, and who accepted the loss.

Both are settings of this machine, so they are ordered like all other entries, and no imported file
can contain them.
"""

from __future__ import annotations

from datetime import datetime
from typing import Any, NamedTuple

from drill.store.database import Database
from drill.store.order import said
from drill.store.people import set_setting
from drill.store.values import moment

LOST = "rows lost"
ACCEPTED = "loss accepted"
_OF_THE_MACHINE = '"learner" IS NULL AND "name" = ?'


class Loss(NamedTuple):
    """So many rows were missing on a day; `accepted`: by whom and when, None while by nobody."""

    id: bytes
    when: datetime
    rows: str
    accepted: tuple[str, datetime] | None

    def __str__(self) -> str:
        told = f"on {self.when:%Y-%m-%d} {self.rows} rows were missing that had been stored"
        if self.accepted is None:
            return (
                f"{told}: the log beside the file was lost, or an older copy was put in its place"
            )
        by, when = self.accepted
        return f"{told}; the {by} accepted that on {when:%Y-%m-%d}"


def note(db: Database, missing: int) -> None:
    """Record that rows which were on disk before are missing."""
    set_setting(db, None, LOST, str(missing), datetime.now().astimezone())


def losses(db: Database) -> list[Loss]:
    """Every loss that was noticed."""
    taken = {}
    for value, at, zone in _settings(db, '"value", "at", "zone"', ACCEPTED):
        id, _, by = value.partition(" ")
        taken[id] = (by, moment(at, zone))
    return [
        Loss(id, moment(at, zone), value, taken.get(id.hex()))
        for id, value, at, zone in _settings(db, '"id", "value", "at", "zone"', LOST)
    ]


def _settings(db: Database, columns: str, name: str) -> list[tuple[Any, ...]]:
    return db.rows(f'SELECT {columns} FROM "setting" WHERE {_OF_THE_MACHINE} ORDER BY "key"', name)


def accept(db: Database, by: str, now: datetime) -> int:
    """Record that somebody accepts every loss so far; returns how many."""
    waiting = [loss for loss in losses(db) if loss.accepted is None]
    with db.transaction():
        for loss in waiting:
            told = said(db, now, "setting", _OF_THE_MACHINE, ACCEPTED)
            db.insert("setting", name=ACCEPTED, value=f"{loss.id.hex()} {by}", **told)
    return len(waiting)
