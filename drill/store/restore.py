"""A copy put in the place of the store, and the store that was there kept beside the backups."""

from __future__ import annotations

import os
import shutil
import sqlite3
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from drill.errors import DrillError
from drill.places import private_file, private_folder
from drill.plaintext import one_line
from drill.store.database import Database, in_words, open_database
from drill.store.people import learners
from drill.store.verify import verify
from drill.store.witness import Witness

_LOGS = ("-wal", "-shm", "-journal")
_PATIENCE = 300


@dataclass(frozen=True)
class Restored:
    """What was there and what is there now: {code: answers}; `kept` is where the old one is."""

    before: Mapping[str, int]
    after: Mapping[str, int]
    kept: Path | None


def restore_copy(store: Path, copy: Path, now: datetime) -> Restored:
    """Put a copy in the place of the store at `store`.

    It is first copied beside the store, with a log that belongs to it, brought up to date and
    looked over there; only then is the old store moved away, and it is never deleted.

    Raises:
        DrillError: the copy is damaged, of a newer drill or none of ours; the store is in use in
            another window. Nothing has changed then.
    """
    if not copy.is_file():
        raise DrillError(f'there is no file "{one_line(str(copy))}".')
    with in_words(store):
        if store.exists() and copy.samefile(store):
            raise DrillError(f"{one_line(str(copy))}: this is the store itself. Name a copy of it.")
        private_folder(store.parent)
        fresh = store.with_name(f"{store.name}-restoring")
        _clear(fresh)
    try:
        with in_words(copy), copy.open("rb"):
            pass
        with in_words(store):
            _put_beside(copy, fresh)
        after = _looked_over(fresh, copy)
        before = _before(store)
        with in_words(store):
            kept = _moved_away(store, now)
            fresh.replace(store)
    finally:
        _clear(fresh)
    database = Database(store)
    witness = Witness(store)
    witness.leave(database.total())
    database.close()
    return Restored(before, after, kept)


def _put_beside(copy: Path, fresh: Path) -> None:
    for ending in ("", "-wal"):
        source = copy.with_name(copy.name + ending)
        target = fresh.with_name(fresh.name + ending)
        if source.is_file():
            private_file(target)
            shutil.copyfile(source, target)


def _looked_over(fresh: Path, copy: Path) -> dict[str, int]:
    """Bring the copy up to date and look over every row; returns whose answers it holds."""
    named = one_line(str(copy))
    try:
        database = open_database(fresh, watched=False)
    except DrillError as error:
        raise DrillError(str(error).replace(one_line(str(fresh)), named)) from error
    try:
        wrong = verify(database, losses=False)
        if wrong:
            raise DrillError(f"{named}: it is damaged ({wrong[0]}). Nothing was changed.")
        held = _held(database)
        database.rows("PRAGMA journal_mode = DELETE")
        return held
    finally:
        database.close()


def _held(database: Database) -> dict[str, int]:
    """{code: how many answers} of everybody in a store."""
    answers = dict(
        database.rows(
            'SELECT l."id", count(n."key") FROM "learner" l '
            'LEFT JOIN "asking" a ON a."learner" = l."key" '
            'LEFT JOIN "answer" n ON n."asking" = a."key" AND n."kind" = \'answer\' '
            'GROUP BY l."key"'
        )
    )
    return {one.code: answers[one.id] for one in learners(database)}


def _before(store: Path) -> dict[str, int]:
    """What the store holds, as far as it can be read; its log goes into it.

    Raises:
        DrillError: another window has it open.
    """
    if not store.exists():
        return {}
    database = Database(store)
    try:
        database.rows(f"PRAGMA busy_timeout = {_PATIENCE}")
        if database.rows("PRAGMA journal_mode = DELETE") != [("delete",)]:
            raise DrillError("busy")
        return _held(database)
    except DrillError as error:
        if "busy" in str(error):
            raise DrillError(
                f"{one_line(str(store))}: it is open in another window. Close that one first."
            ) from error
        return {}  # damaged: it is moved away as it is
    except sqlite3.Error:
        return {}  # older than this program, or emptied
    finally:
        database.close()


def _moved_away(store: Path, now: datetime) -> Path | None:
    """The old store and what is left of its log, under another name among the backups."""
    if not store.exists():
        for ending in _LOGS:
            store.with_name(store.name + ending).unlink(missing_ok=True)
        return None
    folder = store.parent / "backups"
    private_folder(folder)
    name = f"drill-before-restore-{now:%Y-%m-%d-%H%M%S}"
    kept, number = folder / f"{name}.sqlite", 1
    while kept.exists():
        number += 1
        kept = folder / f"{name}-{number}.sqlite"
    for ending in _LOGS:
        log = store.with_name(store.name + ending)
        if log.exists():
            log.replace(kept.with_name(kept.name + ending))
    os.replace(store, kept)
    return kept


def _clear(fresh: Path) -> None:
    """Remove what a restore leaves beside the store, also a copy made before a migration."""
    for path in fresh.parent.glob(f"{fresh.name}*"):
        path.unlink(missing_ok=True)
