"""Reads a store in a read-only place, from a temporary copy."""

from __future__ import annotations

import shutil
from pathlib import Path
from tempfile import TemporaryDirectory

from drill.errors import DrillError
from drill.store.database import CannotWrite, Database, in_words, made_ready, open_database

_LOGS = ("", "-wal")


def open_aside(path: Path) -> tuple[Database, TemporaryDirectory[str] | None]:
    """An opened copy of the store with its log, and the temporary folder to clean up later.

    If every disk is full, the copy is in memory and there is no folder.

    Raises:
        DrillError: it cannot be read either.
    """
    with in_words(path), path.open("rb"):  # else a copy that fails would be the one complained of
        pass
    try:
        return _on_disk(path)
    except (OSError, CannotWrite) as error:
        try:
            return _in_memory(path), None
        except DrillError as second:
            raise second from error


def _on_disk(path: Path) -> tuple[Database, TemporaryDirectory[str]]:
    aside = TemporaryDirectory(prefix="drill-")
    try:
        copy = Path(aside.name) / path.name
        for ending in _LOGS:
            source = path.with_name(path.name + ending)
            if source.exists():
                shutil.copyfile(source, copy.with_name(copy.name + ending))
        return open_database(copy, watched=False), aside
    except BaseException:
        aside.cleanup()
        raise


def _in_memory(path: Path) -> Database:
    """Open without the shared-memory file that SQLite keeps beside a log, if the disk is full."""
    found, copy = Database(path), Database(Path(":memory:"))
    try:
        found.rows("PRAGMA locking_mode = EXCLUSIVE")
        with found.faults():
            found.connection.backup(copy.connection)
        copy.path = path
        return made_ready(copy)
    except BaseException:
        copy.close()
        raise
    finally:
        found.close()
