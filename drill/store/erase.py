"""Forgetting a learner: the rows, their pages, the write-ahead log, and where copies are.

With `arrivals`, the one place where rows are deleted.
"""

from __future__ import annotations

import json
import mmap
from dataclasses import dataclass
from pathlib import Path

from drill.errors import DrillError
from drill.store.database import Database
from drill.store.rows import Learner
from drill.store.tables import OWNED

BACKUP_FOLDER = "backup folder"
"""The machine's setting that says where backups are written to; earlier values count as well."""
_TOLD = ("learner", "learner_name", "setting", "sitting", "asking", "answer", "verdict", "appeal")


@dataclass(frozen=True)
class Erased:
    """What is left of a learner whose rows are gone: a line each in `left`, and whole copies."""

    left: tuple[str, ...]
    copies: tuple[Path, ...]
    unread: tuple[Path, ...] = ()

    @property
    def clean(self) -> bool:
        """Whether nothing is left in the store itself."""
        return not self.left


def erase(db: Database, learner: Learner) -> Erased:
    """Remove everything of one learner; what could not be cleaned is told, never raised.

    Raises:
        DrillError: the rows could not be deleted (a full disk, a busy file); all of them are there.
    """
    copies, unread = copies_with(db, learner)
    db.rows("PRAGMA secure_delete = ON")  # deleted rows are overwritten where they stood
    with db.transaction():
        key = db.key("learner", learner.id)
        db.rows(
            'DELETE FROM "setting" WHERE "learner" IS NULL AND "value" IN '
            '(SELECT "code" FROM "learner_name" WHERE "learner" = ?)',
            key,
        )
        for table in reversed(OWNED):
            db.rows(f'DELETE FROM "{table}" WHERE {OWNED[table]}', key)
        _forget_arrivals(db)
        db.rows('DELETE FROM "memory_state"')
    return Erased(scrub(db), copies, unread)


def _forget_arrivals(db: Database) -> None:
    """Imports of which no row is left: their files' names may tell whose they were."""
    for key, keys in db.rows('SELECT "key", "keys" FROM "arrival"'):
        spans = json.loads(keys)
        if not any(
            db.row(f'SELECT 1 FROM "{table}" WHERE "key" BETWEEN ? AND ?', *spans[table])
            for table in _TOLD
            if table in spans
        ):
            db.rows('DELETE FROM "arrival" WHERE "key" = ?', key)


def scrub(db: Database) -> tuple[str, ...]:
    """Write the file anew without deleted content and empty its log; what was not possible."""
    left = []
    log = f"{db.path}-wal"
    try:
        db.rows("VACUUM")
    except DrillError as error:
        left.append(f"The file could not be written anew: {error}")
    try:
        done = db.row("PRAGMA wal_checkpoint(TRUNCATE)")
    except DrillError as error:
        done = None
        left.append(f"{log} still holds what was deleted: {error}")
    else:
        if done is None or done[0]:
            left.append(f"{log} still holds what was deleted, as another program reads it.")
    return tuple(left)


def copies_with(db: Database, learner: Learner) -> tuple[tuple[Path, ...], tuple[Path, ...]]:
    """Backups and copies made before migrations that hold this learner, and those not readable."""
    held, unread = [], []
    for path in _copies(db):
        try:
            if _holds(path, learner.id):
                held.append(path)
        except OSError:
            unread.append(path)
    return tuple(held), tuple(unread)


def _holds(path: Path, id: bytes) -> bool:
    if path.stat().st_size == 0:
        return False
    with path.open("rb") as file, mmap.mmap(file.fileno(), 0, access=mmap.ACCESS_READ) as content:
        return content.find(id) >= 0


def _copies(db: Database) -> list[Path]:
    """Files that look like copies of ours: beside the store, and wherever backups were put."""
    noted = db.rows('SELECT DISTINCT "value" FROM "setting" WHERE "name" = ?', BACKUP_FOLDER)
    folders = {db.path.parent, db.path.parent / "backups", *(Path(place) for (place,) in noted)}
    found = {path.resolve() for folder in folders for path in folder.glob("drill*")}
    found |= {path.resolve() for path in db.path.parent.glob(f"{db.path.name}.before-*")}
    own = {Path(f"{db.path.resolve()}{ending}") for ending in ("", "-wal", "-shm")}
    return sorted(path for path in found - own if path.is_file())
