"""One open SQLite file: opening, whole transactions, and clear messages for its errors.

Only the standard library's sqlite3 is imported here. sqlite-utils, which costs more than the rest
of a start, comes in only when the file is missing or older than this program.
"""

from __future__ import annotations

import errno
import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from drill.errors import DrillError
from drill.places import private_file, private_folder, reason
from drill.plaintext import one_line
from drill.store.checksum import Cell, row_sum
from drill.store.witness import Witness

CURRENT = 3
"""The version of the tables this program writes; one more with each migration."""
APPLICATION = 0x6472696C
"""SQLite's application_id of our files ("dril"): a stranger's file is not taken for ours."""
_PATIENCE = 10.0
"""Seconds to wait for another program that is writing."""
_ROOM = 64 * 1024


class CannotWrite(DrillError):
    """The file or its folder may only be read, or its disk is full."""


_FAULTS = {
    sqlite3.SQLITE_BUSY: "another program is busy with it. Close that one and try again.",
    sqlite3.SQLITE_LOCKED: "another program is busy with it. Close that one and try again.",
    sqlite3.SQLITE_FULL: "the disk is full; nothing was lost that was there before.",
    sqlite3.SQLITE_IOERR: "the disk cannot be read or written.",
    sqlite3.SQLITE_READONLY: "it may not be written to. Look at the permissions of its folder.",
    sqlite3.SQLITE_PERM: "it may not be written to. Look at the permissions of its folder.",
    sqlite3.SQLITE_CANTOPEN: "it cannot be opened. Look at the permissions of its folder.",
    sqlite3.SQLITE_CORRUPT: "it is damaged. Run `drill data verify`, then go back to a backup.",
    sqlite3.SQLITE_NOTADB: "it is not a database of drill, or its beginning is damaged.",
}
_UNWRITABLE = (
    sqlite3.SQLITE_READONLY,
    sqlite3.SQLITE_PERM,
    sqlite3.SQLITE_CANTOPEN,
    sqlite3.SQLITE_FULL,
    sqlite3.SQLITE_IOERR,
)
_DENIED = (errno.EACCES, errno.EPERM, errno.EROFS, errno.ENOSPC, errno.EDQUOT)
# text in a row that is no longer UTF-8; a file header that names another format
_DAMAGED = ("Could not decode to UTF-8", "unsupported file format")
_MISSING = "no such table: "
"""Of a table of ours it is damage; of any other it is a mistake of ours."""


def _code(error: sqlite3.Error | UnicodeDecodeError) -> int:
    """SQLite's result code, or that of damage where SQLite and Python have no code for it."""
    told = str(error)
    if told.startswith(_MISSING):
        from drill.store.tables import TABLES

        lost = told.removeprefix(_MISSING).removeprefix("main.") in TABLES
        return sqlite3.SQLITE_CORRUPT if lost else sqlite3.SQLITE_ERROR
    if isinstance(error, UnicodeDecodeError) or any(words in told for words in _DAMAGED):
        return sqlite3.SQLITE_CORRUPT
    return getattr(error, "sqlite_errorcode", sqlite3.SQLITE_ERROR) & 0xFF


def _is_full(path: Path) -> bool:
    """Whether the disk has no space for the file that SQLite keeps beside a log."""
    try:
        return shutil.disk_usage(path.parent).free < _ROOM
    except OSError:
        return False


class Database:
    """A connection that speaks in rows and whose machine faults are `DrillError`s in words."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.witness: Witness | None = None
        with self.faults():
            self.connection = sqlite3.connect(path, timeout=_PATIENCE, isolation_level=None)

    @contextmanager
    def faults(self) -> Iterator[None]:
        """Turns errors of disk or file into messages; internal errors pass unchanged."""
        try:
            yield
        except (sqlite3.Error, UnicodeDecodeError) as error:
            code = _code(error)
            if code == sqlite3.SQLITE_IOERR and _is_full(self.path):
                code = sqlite3.SQLITE_FULL
            words = _FAULTS.get(code)
            if words is None:
                raise
            kind = CannotWrite if code in _UNWRITABLE else DrillError
            raise kind(f"{one_line(str(self.path))}: {words}") from error

    def damaged(self) -> DrillError:
        """What to raise where a row makes no sense."""
        return DrillError(f"{one_line(str(self.path))}: {_FAULTS[sqlite3.SQLITE_CORRUPT]}")

    def rows(self, sql: str, *values: Cell) -> list[tuple[Any, ...]]:
        """All rows of a statement."""
        with self.faults():
            return self.connection.execute(sql, values).fetchall()

    def row(self, sql: str, *values: Cell) -> tuple[Any, ...] | None:
        """The first row of a statement, or None."""
        with self.faults():
            found: tuple[Any, ...] | None = self.connection.execute(sql, values).fetchone()
            return found

    def insert(self, table: str, **values: Cell) -> int:
        """Add one row with its checksum; returns its integer key. On disk when this returns.

        Inside `transaction()` it is on disk when that one ends.
        """
        names = ", ".join(f'"{name}"' for name in values)
        marks = "?, " * len(values)
        sql = f'INSERT INTO "{table}" ({names}, "sum") VALUES ({marks}?)'
        with self.faults():
            cursor = self.connection.execute(sql, (*values.values(), row_sum(table, values)))
        self._noted()
        return int(cursor.lastrowid or 0)

    def _noted(self) -> None:
        """Record how many rows are on disk, after a transaction has ended."""
        if self.witness is not None and not self.connection.in_transaction:
            self.witness.leave(self.total())

    def total(self) -> int:
        """How many rows were ever added: keys only grow, so this never decreases."""
        found = self.row('SELECT coalesce(sum("seq"), 0) FROM "sqlite_sequence"')
        return int(found[0]) if found else 0

    def replace(self, table: str, key: int, **values: Cell) -> None:
        """Replace a row: only for data that can be rebuilt, never for what a learner has done."""
        names = ", ".join(f'"{name}" = ?' for name in (*values, "sum"))
        sql = f'UPDATE "{table}" SET {names} WHERE "key" = ?'
        self.rows(sql, *values.values(), row_sum(table, values), key)

    def key(self, table: str, id: bytes) -> int:
        """The integer key of the row with this uuid.

        Raises:
            KeyError: there is none; callers only hand in ids they were given.
        """
        found = self.row(f'SELECT "key" FROM "{table}" WHERE "id" = ?', id)
        if found is None:
            raise KeyError(f"no {table} with the id {id.hex()}")
        return int(found[0])

    @contextmanager
    def transaction(self) -> Iterator[None]:
        """All or nothing; waits for the write lock first, so that it never fails half-way."""
        with self.faults():
            self.connection.execute("BEGIN IMMEDIATE")
        try:
            yield
        except BaseException:
            if self.connection.in_transaction:
                self.connection.execute("ROLLBACK")
            raise
        with self.faults():
            self.connection.execute("COMMIT")
        self._noted()

    def close(self) -> None:
        """Let go of the file."""
        self.connection.close()


def open_database(path: Path, watched: bool = True) -> Database:
    """The database at `path`, made or brought up to date if need be.

    `watched`: a small file beside it records how many rows it holds, to detect a loss.

    Raises:
        DrillError: it was written by a newer drill, is somebody else's, cannot be opened, or is
            empty though it was not when it was last used.
    """
    witness = Witness(path) if watched else None
    with in_words(path):
        private_folder(path.parent)
        if witness is not None:
            witness.look(path)
        private_file(path)
    database = Database(path)
    try:
        made_ready(database)
        if witness is not None:
            _compare(database, witness)
    except BaseException:
        database.close()
        raise
    return database


def made_ready(database: Database) -> Database:
    """The database brought up to date if need be, and set to lose nothing.

    Raises:
        DrillError: it was written by a newer drill or is somebody else's.
    """
    if _version(database) < CURRENT:
        from drill.store.migrations import migrate

        migrate(database)
    database.rows("PRAGMA journal_mode = WAL")  # a backup put in its place has none yet
    database.rows("PRAGMA synchronous = FULL")
    database.rows("PRAGMA fullfsync = ON")  # on a Mac, fsync alone stops at the drive's cache
    database.rows("PRAGMA foreign_keys = ON")
    return database


@contextmanager
def in_words(path: Path) -> Iterator[None]:
    """Turns an operating system error about a file or folder into a message."""
    try:
        yield
    except (OSError, ValueError) as error:
        denied = isinstance(error, OSError) and error.errno in _DENIED
        kind = CannotWrite if denied else DrillError
        raise kind(f"{one_line(str(path))}: it cannot be used ({reason(error)}).") from error


def _compare(database: Database, witness: Witness) -> None:
    """Record a loss when rows that were on disk before are missing: a lost log."""
    told = witness.told() or 0  # read first: another program may add rows in between
    missing = told - database.total()
    if missing > 0:
        from drill.store import losses

        losses.note(database, missing)
    database.witness = witness
    witness.leave(database.total())


def _version(database: Database) -> int:
    found = database.row("PRAGMA user_version")
    version = int(found[0]) if found else 0
    if version > CURRENT:
        raise DrillError(
            f"{database.path}: written by a newer drill (its tables are version {version}, "
            f"this drill knows up to {CURRENT}). Update drill; nothing was changed."
        )
    mark = database.row("PRAGMA application_id")
    empty = database.row("SELECT 1 FROM sqlite_schema LIMIT 1") is None
    if mark != (APPLICATION,) and not empty:
        raise DrillError(f"{database.path}: a database, but not one of drill. Name another file.")
    return version
