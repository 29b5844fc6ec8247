"""Imports from other computers: one row for each, and how to undo one.

An import is one transaction and keys only grow, so its rows have consecutive keys in each table.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from datetime import datetime
from typing import NamedTuple

from drill.errors import DrillError
from drill.store.database import Database
from drill.store.tables import TABLES, shape
from drill.store.values import moment, new_id, stamp

_NO_SPAN = ("machine", "word", "deck", "arrival", "passed", "memory_state")
SPANNED = tuple(table for table in TABLES if table not in _NO_SPAN)
"""The tables whose rows come with an import and go when it is taken back."""


class ArrivalRow(NamedTuple):
    """One import; `into` is the code of whom it was credited to, None where it was kept apart."""

    number: int
    when: datetime
    file: str
    into: str | None
    rows: int


class TakenBack(NamedTuple):
    """How many rows were removed, how many of those were added here later, and who is gone."""

    rows: int
    here: int
    learners: tuple[str, ...]


def last_keys(db: Database) -> dict[str, int]:
    """The last key of each table."""
    return {
        table: db.rows(f'SELECT coalesce(max("key"), 0) FROM "{table}"')[0][0] for table in SPANNED
    }


def note(
    db: Database,
    now: datetime,
    into: bytes | None,
    file: str,
    credited: Iterable[bytes],
    before: Mapping[str, int],
) -> None:
    """Put an import on record; `credited` are the learners that count as `into` from now on."""
    after = last_keys(db)
    keys = {
        table: [before[table] + 1, after[table]]
        for table in SPANNED
        if after[table] > before[table]
    }
    who = json.dumps(sorted(id.hex() for id in credited))
    learner = db.key("learner", into) if into is not None else None
    values = {"learner": learner, "file": file, "who": who, "keys": json.dumps(keys)}
    db.insert("arrival", id=new_id(), **values, **stamp(now))


def joined(db: Database) -> dict[bytes, bytes]:
    """{learner elsewhere: the learner here that is the same person}."""
    found = db.rows(
        'SELECT l."id", r."who" FROM "arrival" r JOIN "learner" l ON l."key" = r."learner"'
    )
    return {bytes.fromhex(other): id for id, who in found for other in json.loads(who)}


def arrivals(db: Database) -> list[ArrivalRow]:
    """Every import that was not taken back, in order."""
    from drill.store.people import learners

    codes = {one.id: one.code for one in learners(db)}
    found = db.rows(
        'SELECT r."key", r."at", r."zone", r."file", l."id", r."keys" FROM "arrival" r '
        'LEFT JOIN "learner" l ON l."key" = r."learner" ORDER BY r."key"'
    )
    return [
        ArrivalRow(
            key,
            moment(at, zone),
            file,
            codes.get(id),
            sum(last - first + 1 for first, last in json.loads(keys).values()),
        )
        for key, at, zone, file, id, keys in found
    ]


def take_back(db: Database, number: int) -> TakenBack:
    """Remove the rows of an import, and later rows (such as marks) that refer to them.

    A learner who came with it stays if they have practised here since.

    Raises:
        DrillError: there is no such import.
    """
    with db.transaction():
        found = db.row('SELECT "keys" FROM "arrival" WHERE "key" = ?', number)
        if found is None:
            raise DrillError(f"there is no import {number}. drill data imports lists them.")
        work = _TakingBack(db, json.loads(found[0]))
        done = work.done()
        db.rows('DELETE FROM "arrival" WHERE "key" = ?', number)
        db.rows('DELETE FROM "memory_state"')
    return done


class _TakingBack:
    """One import being taken back, table by table."""

    def __init__(self, db: Database, keys: Mapping[str, list[int]]) -> None:
        self._db, self._keys = db, keys
        db.rows('CREATE TEMP TABLE "gone" ("table" TEXT, "row" INTEGER, "here" INTEGER, '
                'PRIMARY KEY ("table", "row"))')  # fmt: skip

    def done(self) -> TakenBack:
        for table in SPANNED:
            if table not in ("learner", "template_version"):
                self._mark(table)
        self._free_learners()
        self._free_versions()
        learners = self._codes()
        for table in reversed(SPANNED):
            self._db.rows(
                f'DELETE FROM "{table}" WHERE "key" IN '
                '(SELECT "row" FROM "gone" WHERE "table" = ?)',
                table,
            )
        rows, here = self._db.rows('SELECT count(*), coalesce(sum("here"), 0) FROM "gone"')[0]
        self._db.rows('DROP TABLE "gone"')
        return TakenBack(rows, here, learners)

    def _mark(self, table: str) -> None:
        """Imported rows, and local rows that refer to some of them."""
        first, last = self._keys.get(table, (1, 0))
        self._db.rows(
            f'INSERT INTO "gone" SELECT ?1, "key", 0 FROM "{table}" WHERE "key" BETWEEN ?2 AND ?3',
            table, first, last,
        )  # fmt: skip
        for column, parent in shape(self._db, table).refers.items():
            if parent in SPANNED and parent not in ("learner", "template_version"):
                self._db.rows(
                    f'INSERT OR IGNORE INTO "gone" SELECT ?1, "key", 1 FROM "{table}" WHERE '
                    f'"{column}" IN (SELECT "row" FROM "gone" WHERE "table" = ?2)',
                    table, parent,
                )  # fmt: skip

    def _free_learners(self) -> None:
        """Learners who came with it and have begun no sitting here; their names and settings go."""
        first, last = self._keys.get("learner", (1, 0))
        self._db.rows(
            'INSERT INTO "gone" SELECT \'learner\', "key", 0 FROM "learner" l WHERE "key" BETWEEN '
            '?1 AND ?2 AND NOT EXISTS (SELECT 1 FROM "sitting" s WHERE s."learner" = l."key" AND '
            's."key" NOT IN (SELECT "row" FROM "gone" WHERE "table" = \'sitting\'))',
            first, last,
        )  # fmt: skip
        # whoever stays keeps what they are called
        self._db.rows(
            'DELETE FROM "gone" WHERE "table" = \'learner_name\' AND "row" IN (SELECT n."key" FROM '
            '"learner_name" n WHERE n."learner" BETWEEN ?1 AND ?2 AND n."learner" NOT IN '
            '(SELECT "row" FROM "gone" WHERE "table" = \'learner\'))',
            first, last,
        )  # fmt: skip
        for table in ("learner_name", "setting"):
            self._db.rows(
                f'INSERT OR IGNORE INTO "gone" SELECT \'{table}\', "key", 0 FROM "{table}" WHERE '
                '"learner" IN (SELECT "row" FROM "gone" WHERE "table" = \'learner\')'
            )

    def _free_versions(self) -> None:
        first, last = self._keys.get("template_version", (1, 0))
        self._db.rows(
            'INSERT INTO "gone" SELECT \'template_version\', "key", 0 FROM "template_version" t '
            'WHERE "key" BETWEEN ?1 AND ?2 AND NOT EXISTS (SELECT 1 FROM "asking" a WHERE '
            'a."template_version" = t."key" AND '
            'a."key" NOT IN (SELECT "row" FROM "gone" WHERE "table" = \'asking\'))',
            first, last,
        )  # fmt: skip

    def _codes(self) -> tuple[str, ...]:
        from drill.store.people import learners

        keys = {key for (key,) in self._db.rows(
            'SELECT l."id" FROM "learner" l JOIN "gone" g ON g."row" = l."key" '
            "WHERE g.\"table\" = 'learner'"
        )}  # fmt: skip
        return tuple(one.code for one in learners(self._db) if one.id in keys)
