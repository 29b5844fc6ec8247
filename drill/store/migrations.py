"""The tables and their migrations: one function for each change, never edited afterwards.

To change the tables: add `m004_what_changes`, raise `CURRENT` in database.py, and say in
tests/store what an old database looks like afterwards.
"""

from __future__ import annotations

import time
from collections.abc import Iterable
from functools import cache
from pathlib import Path

from sqlite_utils import Migrations
from sqlite_utils.db import Database as Tables

from drill.errors import DrillError
from drill.places import private_file
from drill.store import database as current
from drill.store.database import APPLICATION, Database
from drill.store.tables import outline

MIGRATIONS = Migrations("drill")
_WHEN: dict[str, type] = {"at": int, "zone": int}


@MIGRATIONS()
def m001_learners_sittings_answers(db: Tables) -> None:
    """Everything the first version keeps."""
    _people(db)
    _questions(db)
    _answers(db)
    _table(db, "passed", {"hash": str, **_WHEN}, unique=["hash"])
    db.table("memory_state").create(
        {"learner": int, "weights": str, "last": bytes, "state": str, "sum": bytes},
        pk="learner",
        not_null=["weights", "state", "sum"],
        foreign_keys=[("learner", "learner", "key")],
        strict=True,
    )


@MIGRATIONS()
def m002_askings_are_found_by_time_and_template(db: Tables) -> None:
    """A start reads a learner's latest askings, not all of them."""
    asking = db.table("asking")
    asking.create_index(["learner", "at"])
    asking.create_index(["learner", "template_version", "at"])


@MIGRATIONS()
def m003_an_order_without_a_clock_in_half_the_room(db: Tables) -> None:
    """Counters, machines, acceptances, arrivals and readings; keys that are never reused."""
    from drill.store.compact import compact

    compact(db)


def _people(db: Tables) -> None:
    _table(db, "learner", {"id": bytes, **_WHEN}, unique=["id"])
    _table(
        db,
        "learner_name",
        {"id": bytes, "learner": int, "code": str, **_WHEN},
        unique=["id"],
        index=["learner"],
    )
    _table(
        db,
        "setting",
        {"id": bytes, "learner": int, "name": str, "value": str, **_WHEN},
        empty=["learner"],
        unique=["id"],
        index=["learner"],
    )


def _questions(db: Tables) -> None:
    _table(db, "deck", {"name": str, **_WHEN}, unique=["name"])
    _table(
        db,
        "template_version",
        {"hash": str, "template": str, "text": str, "rows": str, "slips": str},
        unique=["hash", "template"],
    )
    _table(
        db,
        "sitting",
        {"id": bytes, "learner": int, "deck": int, "goal": str, **_WHEN},
        unique=["id"],
        index=["learner"],
    )
    _table(
        db,
        "sitting_end",
        {"id": bytes, "sitting": int, "how": str, **_WHEN},
        unique=["id"],
        index=["sitting"],
    )
    asking = {"id": bytes, "sitting": int, "learner": int, "template_version": int}
    asking |= {"seed": int, "skill": str, "shown": int, **_WHEN}
    _table(db, "asking", asking, unique=["id"], index=["learner", "sitting"])
    _table(
        db,
        "faulty",
        {"id": bytes, "asking": int, "note": str, **_WHEN},
        unique=["id"],
        index=["asking"],
    )


def _answers(db: Tables) -> None:
    answer = {"id": bytes, "asking": int, "part": str, "text": str, "kind": str}
    answer |= {"sure": str, "ms": int, **_WHEN}
    _table(db, "answer", answer, empty=["sure"], unique=["id"], index=["asking"])
    verdict = {"id": bytes, "answer": int, "judge": str, "marker": str, "marks": int, "of": int}
    verdict |= {"says": str, "points": str, "unsure": str, "slip": str, "readable": int}
    verdict |= {"value": str, "carried": int, "self_marked": int, **_WHEN}
    _table(db, "verdict", verdict, empty=["slip", "value"], unique=["id"], index=["answer"])
    _table(
        db,
        "appeal",
        {"id": bytes, "answer": int, "reason": str, **_WHEN},
        unique=["id"],
        index=["answer"],
    )


def _table(
    db: Tables,
    name: str,
    columns: dict[str, type],
    *,
    empty: Iterable[str] = (),
    unique: list[str],
    index: Iterable[str] = (),
) -> None:
    """A STRICT table with an integer key, a checksum and its indexes.

    A column named like a table refers to that table's key. Only `empty` columns may be NULL.
    """
    refers = [(column, column, "key") for column in columns if db.table(column).exists()]
    full = {"key": int, **columns, "sum": bytes}
    table = db.table(name).create(
        full,
        pk="key",
        not_null=[column for column in full if column not in {"key", *empty}],
        foreign_keys=refers,
        strict=True,
    )
    table.create_index(unique, unique=True)
    for column in index:
        table.create_index([column])


def migrate(database: Database, migrations: Migrations = MIGRATIONS) -> None:
    """Make the tables, or bring them up to date; a database with rows is copied first.

    One process does it; others started at the same time wait and find it done.
    """
    _use_wal(database)
    with database.transaction():
        found = database.row("PRAGMA user_version")
        version = found[0] if found else 0
        if version == current.CURRENT:
            return
        if version:
            _copy_before(database, version)
        migrations.apply(Tables(database.connection, execute_plugins=False))
        database.rows(f"PRAGMA application_id = {APPLICATION}")
        database.rows(f"PRAGMA user_version = {current.CURRENT}")


_RECORDED = 'SELECT "name" FROM "_sqlite_migrations" WHERE "migration_set" = \'drill\''


@cache
def expected() -> tuple[dict[str, list[str]], list[str]]:
    """The outline of tables made afresh, and the migrations on record in them."""
    fresh = Database(Path(":memory:"))
    MIGRATIONS.apply(Tables(fresh.connection, execute_plugins=False))
    made = outline(fresh), recorded(fresh)
    fresh.close()
    return made


def recorded(database: Database) -> list[str]:
    """Names of the migrations a database has on record."""
    return [name for (name,) in database.rows(_RECORDED)]


def _use_wal(database: Database) -> None:
    """Switch to the write-ahead log; SQLite does not wait by itself for the lock this needs."""
    for _ in range(100):
        try:
            database.rows("PRAGMA journal_mode = WAL")
        except DrillError:
            time.sleep(0.05)
        else:
            return
    database.rows("PRAGMA journal_mode = WAL")


def _copy_before(database: Database, version: int) -> Path:
    """A copy of the database as it was, beside it, made by a reader while we hold the lock."""
    path = database.path.with_name(f"{database.path.name}.before-{current.CURRENT}")
    number = 1
    while path.exists():
        number += 1
        path = database.path.with_name(f"{database.path.name}.before-{current.CURRENT}-{number}")
    private_file(path)
    reader = Database(database.path)
    try:
        reader.rows("VACUUM INTO ?", str(path))
    except BaseException:
        path.unlink(missing_ok=True)
        raise
    finally:
        reader.close()
    return path
