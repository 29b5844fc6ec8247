"""Learners, their codes and settings. A code can change; the learner behind it does not.

Of several codes or values the one said last counts, told by its place (see `order`), not by a
clock or by its row: what is merged in from another computer later may well be older.
"""

from __future__ import annotations

from datetime import datetime

from drill.errors import DrillError
from drill.plaintext import one_line
from drill.store.checksum import Cell
from drill.store.database import Database
from drill.store.limits import is_sound
from drill.store.order import ordered, said
from drill.store.rows import Learner
from drill.store.values import moment, new_id, stamp, storable

LONGEST_CODE = 12
CODE_HERE = "code here"
"""A learner's setting: the code on this machine only, where somebody else has theirs."""

_DESC = ", ".join(f"{piece} DESC" for piece in ordered().rsplit(", ", 1))
_LEARNERS = f"""
    SELECT l."id", coalesce(nullif(
        (SELECT "value" FROM "setting" WHERE "learner" = l."key" AND "name" = '{CODE_HERE}'
         ORDER BY {_DESC} LIMIT 1), ''), n."code"), l."at", l."zone"
    FROM "learner" l JOIN "learner_name" n ON n."key" =
        (SELECT "key" FROM "learner_name" WHERE "learner" = l."key" ORDER BY {_DESC} LIMIT 1)
    ORDER BY l."key"
"""


def learners(db: Database) -> tuple[Learner, ...]:
    """Everybody who shares this computer, in the order they came."""
    return tuple(Learner(id, code, moment(at, zone)) for id, code, at, zone in db.rows(_LEARNERS))


def new_learner(db: Database, code: str, now: datetime) -> Learner:
    """Add somebody under a free code."""
    with db.transaction():
        _must_be_free(db, code)
        id = new_id()
        key = db.insert("learner", id=id, **stamp(now))
        _call(db, key, code, now)
    return next(learner for learner in learners(db) if learner.id == id)


def rename_learner(db: Database, code: str, new: str, now: datetime) -> Learner:
    """Give a learner another code; the old one is free again."""
    with db.transaction():
        found = find_learner(db, code)
        if found is None:
            raise DrillError(f'no learner has the code "{one_line(code)}"')
        _must_be_free(db, new, besides=found)
        _call(db, db.key("learner", found.id), new, now)
        if setting(db, found, CODE_HERE):
            _set(db, found, CODE_HERE, "", now)
    return Learner(found.id, new, found.when)


def call_here(db: Database, learner: Learner, taken: set[str], now: datetime) -> Learner:
    """The learner under a free code on this machine, like the one they have elsewhere."""
    number = 1
    code = learner.code
    while code.casefold() in taken:
        number += 1
        code = f"{learner.code[: LONGEST_CODE - len(f'-{number}')]}-{number}"
    _set(db, learner, CODE_HERE, code, now)
    return Learner(learner.id, code, learner.when)


def _call(db: Database, learner: int, code: str, now: datetime) -> None:
    values = said(db, now, "learner_name", '"learner" = ?', learner)
    db.insert("learner_name", learner=learner, code=code, **values)


def find_learner(db: Database, code: str) -> Learner | None:
    """Whoever has this code now, in upper or lower case."""
    wanted = code.casefold()
    return next((one for one in learners(db) if one.code.casefold() == wanted), None)


def is_code(text: str) -> bool:
    """Whether it can be a code: 1 to 12 letters a-z, digits or "-", not beginning with "-"."""
    plain = text.replace("-", "")
    fits = 1 <= len(text) <= LONGEST_CODE and not text.startswith("-")
    return fits and plain.isascii() and plain.isalnum()


def _must_be_free(db: Database, code: str, besides: Learner | None = None) -> None:
    if not is_code(code):
        raise DrillError(
            f'"{one_line(code)}" cannot be a code. '
            f'A code is 1 to {LONGEST_CODE} letters a-z, digits or "-".'
        )
    holder = find_learner(db, code)
    if holder is not None and holder != besides:
        raise DrillError(f'the code "{code}" is taken. Choose another one.')


def setting(db: Database, learner: Learner | None, name: str) -> str | None:
    """The value set last, None when never set; learner None asks for the machine's own.

    A value outside the limits of its option counts as not set.
    """
    found = db.row(
        'SELECT "value" FROM "setting" WHERE "learner" IS ? AND "name" = ? '
        f"ORDER BY {_DESC} LIMIT 1",
        _key(db, learner),
        name,
    )
    return str(found[0]) if found and is_sound(name, str(found[0])) else None


def settings_in_order(db: Database, learner: Learner, name: str) -> list[tuple[datetime, str]]:
    """(when it was set, value) of every value a setting has had, the one that counts now last."""
    found = db.rows(
        'SELECT "at", "zone", "value" FROM "setting" WHERE "learner" IS ? AND "name" = ? '
        f"ORDER BY {_DESC}",
        _key(db, learner),
        name,
    )
    told = [(moment(at, zone), str(value)) for at, zone, value in found]
    return [row for row in reversed(told) if is_sound(name, row[1])]


def set_setting(
    db: Database, learner: Learner | None, name: str, value: str, now: datetime
) -> None:
    """Set a value from now on; earlier ones stay on record."""
    with db.transaction():
        _set(db, learner, name, storable(value), now)


def _set(db: Database, learner: Learner | None, name: str, value: str, now: datetime) -> None:
    key = _key(db, learner)
    values: dict[str, Cell] = said(db, now, "setting", '"learner" IS ? AND "name" = ?', key, name)
    db.insert("setting", learner=key, name=name, value=value, **values)


def _key(db: Database, learner: Learner | None) -> int | None:
    return None if learner is None else db.key("learner", learner.id)
