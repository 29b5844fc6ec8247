"""Which of several entries about the same thing is the latest, decided by a counter, not a clock.

A new entry always comes after all earlier ones, even if the clock was set back: its place is the
time in milliseconds, or the last place plus one if that is later. The column `count` holds the
place only where it differs from the time, so it is nearly always empty. Ties between two machines
are broken by the row's id, which both have.
"""

from __future__ import annotations

from datetime import datetime

from drill.store.checksum import Cell
from drill.store.database import Database
from drill.store.values import new_id, stamp

LAST = 2**62
"""No place is higher: a file from outside must leave room for what is said next."""


def place(table: str = "") -> str:
    """The SQL of a row's place."""
    dot = f"{table}." if table else ""
    return f'coalesce({dot}"count", {dot}"at")'


def ordered(table: str = "") -> str:
    """The SQL that puts rows in the order they were said in, the same on every machine."""
    dot = f"{table}." if table else ""
    return f'{place(table)}, {dot}"id"'


def said(db: Database, now: datetime, table: str, condition: str, *values: Cell) -> dict[str, Cell]:
    """Id, time, place and machine of something said now, after the rows that meet a condition."""
    found = db.row(f'SELECT max({place()}) FROM "{table}" WHERE {condition}', *values)
    return stamped(db, now, found[0] if found else None)


def stamped(db: Database, now: datetime, last: int | None) -> dict[str, Cell]:
    """The same, after the place `last`."""
    return {"id": new_id(), "origin": own_machine(db), **placed(now, last)}


def placed(now: datetime, last: int | None) -> dict[str, Cell]:
    """Time and place of something that comes after the place `last`."""
    when = stamp(now)
    behind = last is not None and last >= when["at"]
    return {**when, "count": last + 1 if last is not None and behind else None}


def own_machine(db: Database) -> int:
    """The key of the machine this store is on: the first one it ever named."""
    found = db.row('SELECT min("key") FROM "machine"')
    if found and found[0] is not None:
        return int(found[0])
    return db.insert("machine", id=new_id(), **stamp(datetime.now().astimezone()))


def last_of_asking(db: Database, asking: int) -> int | None:
    """The last place of what was typed for a question and said of it."""
    found = db.row(_LAST_OF_ASKING, asking)
    return found[0] if found else None


def _of_answers(table: str) -> str:
    return (
        f'SELECT max({place("t")}) AS "last" FROM "answer" n JOIN "{table}" t '
        'ON t."answer" = n."key" WHERE n."asking" = ?1'
    )


_LAST_OF_ASKING = (
    f'SELECT max("last") FROM (SELECT max({place()}) AS "last" FROM "answer" WHERE "asking" = ?1 '
    f"UNION ALL {_of_answers('verdict')} UNION ALL {_of_answers('appeal')})"
)
