"""Learners, their codes and settings. A code can change; the learner behind it does not.

Of several codes or values the one made last counts, told by its id and not by its place in the
file: what is merged in from another computer later may well be older.
"""

from __future__ import annotations

from datetime import datetime

from drill.errors import DrillError
from drill.plaintext import one_line
from drill.store.database import Database
from drill.store.rows import Learner
from drill.store.values import moment, new_id, stamp, storable

LONGEST_CODE = 12

_LEARNERS = """
    SELECT l."id", n."code", l."at", l."zone" FROM "learner" l
    JOIN "learner_name" n ON n."key" =
        (SELECT "key" FROM "learner_name" WHERE "learner" = l."key" ORDER BY "id" DESC LIMIT 1)
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
        db.insert("learner_name", id=new_id(), learner=key, code=code, **stamp(now))
    return next(learner for learner in learners(db) if learner.id == id)


def rename_learner(db: Database, code: str, new: str, now: datetime) -> Learner:
    """Give a learner another code; the old one is free again."""
    with db.transaction():
        found = find_learner(db, code)
        if found is None:
            raise DrillError(f'no learner has the code "{one_line(code)}"')
        _must_be_free(db, new, besides=found)
        key = db.key("learner", found.id)
        db.insert("learner_name", id=new_id(), learner=key, code=new, **stamp(now))
    return Learner(found.id, new, found.when)


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
    """The value set last, None when never set; learner None asks for the machine's own."""
    found = db.row(
        'SELECT "value" FROM "setting" WHERE "learner" IS ? AND "name" = ? '
        'ORDER BY "id" DESC LIMIT 1',
        _key(db, learner),
        name,
    )
    return None if found is None else str(found[0])


def set_setting(
    db: Database, learner: Learner | None, name: str, value: str, now: datetime
) -> None:
    """Set a value from now on; earlier ones stay on record."""
    text = storable(value)
    key = _key(db, learner)
    db.insert("setting", id=new_id(), learner=key, name=name, value=text, **stamp(now))


def _key(db: Database, learner: Learner | None) -> int | None:
    return None if learner is None else db.key("learner", learner.id)
