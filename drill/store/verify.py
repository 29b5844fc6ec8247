"""Checks that every stored row is as it was written, and makes backups."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from pathlib import Path

from drill.errors import DrillError
from drill.places import keep_names, private_file
from drill.plaintext import one_line
from drill.store.checksum import RawText
from drill.store.database import Database, in_words
from drill.store.losses import losses as every_loss
from drill.store.tables import TABLES, is_whole, outline


def verify(db: Database, losses: bool = True) -> list[str]:
    """What is wrong, a line each; empty when all is well. Never raises for a damaged file.

    `losses`: rows that are missing altogether count as well, until somebody accepts that.
    """
    try:
        found = [*_structure(db), *_tables(db), *_references(db), *_sums(db)]
        lost = [str(loss) for loss in every_loss(db) if loss.accepted is None] if losses else []
        return [*found, *lost]
    except (sqlite3.Error, DrillError, UnicodeDecodeError, OverflowError) as error:
        return [f"{db.path}: cannot be read to the end ({error})"]


def verify_copy(path: Path) -> list[str]:
    """The same for a copy, which is only read."""
    db = Database(path)
    try:
        return verify(db, losses=False)
    finally:
        db.close()


def _structure(db: Database) -> Iterator[str]:
    for (line,) in db.rows("PRAGMA integrity_check"):
        if line != "ok":
            yield f"structure: {line}"


def _tables(db: Database) -> Iterator[str]:
    """Differences from tables made afresh: a bit flipped in a column's name is no value's fault."""
    from drill.store.migrations import expected, recorded

    tables, migrations = expected()
    found = outline(db)
    for table, lines in tables.items():
        if found[table] != lines:
            changed = ", ".join(sorted(set(found[table]) ^ set(lines))) or "its columns' order"
            yield f"{table}: not as this drill makes it ({changed})"
    for name in sorted(set(migrations) - set(recorded(db))):
        yield f"migrations: there is no record of {name}"


def _references(db: Database) -> Iterator[str]:
    for table, key, parent, _ in db.rows("PRAGMA foreign_key_check"):
        yield f"{table} row {key}: refers to a row of {parent} that is not there"


def _sums(db: Database) -> Iterator[str]:
    connection = db.connection
    before = connection.text_factory
    connection.text_factory = RawText
    try:
        for table in TABLES:
            cursor = connection.execute(f'SELECT * FROM "{table}"')
            names = [column[0] for column in cursor.description]
            for values in cursor:
                row = dict(zip(names, values, strict=True))
                if not is_whole(table, row):
                    key = row.get("key") or row.get("learner")
                    yield f"{table} row {key}: not what was written"
    finally:
        connection.text_factory = before


def counts(db: Database) -> dict[str, int]:
    """How many rows each table has."""
    return {table: db.rows(f'SELECT count(*) FROM "{table}"')[0][0] for table in TABLES}


def backup(db: Database, path: Path) -> None:
    """A whole copy at `path` that only its owner may read, complete or not there at all.

    Raises:
        DrillError: something is there already, the folder cannot be written to, or the copy is
            not whole: then it is kept under another name, as it may be the best there is.
    """
    if path.exists():
        raise DrillError(f"{one_line(str(path))}: is there already. Name another file.")
    part = path.with_name(path.name + ".part")
    with in_words(path):
        part.unlink(missing_ok=True)
        private_file(part)
    try:
        db.rows("VACUUM INTO ?", str(part))
        wrong = verify_copy(part)
        with in_words(path), part.open("rb+") as copy:
            os.fsync(copy.fileno())
            part.replace(path.with_name(path.name + ".damaged") if wrong else path)
            keep_names(path.parent)
    except BaseException:
        part.unlink(missing_ok=True)
        raise
    if wrong:
        raise DrillError(
            f"{one_line(str(path))}: the copy did not come out whole ({wrong[0]}). It is kept as "
            f"{path.name}.damaged. Keep your older copies."
        )
