"""Forgetting a learner: the rows, their pages, the write-ahead log, and where copies are.

The one place where rows are deleted.
"""

from __future__ import annotations

from pathlib import Path

from drill.errors import DrillError
from drill.store.database import Database
from drill.store.rows import Learner
from drill.store.tables import OWNED

BACKUP_FOLDER = "backup folder"
"""The machine's setting that says where backups are written to; earlier values count as well."""


def erase(db: Database, learner: Learner) -> tuple[Path, ...]:
    """Remove everything of one learner; returns the copies that still hold it.

    Raises:
        DrillError: another program kept the file busy; the rows are gone, `scrub` again for the
            pages they stood on.
    """
    copies = copies_with(db, learner)
    db.rows("PRAGMA secure_delete = ON")
    with db.transaction():
        key = db.key("learner", learner.id)
        db.rows(
            'DELETE FROM "setting" WHERE "learner" IS NULL AND "value" IN '
            '(SELECT "code" FROM "learner_name" WHERE "learner" = ?)',
            key,
        )
        for table in reversed(OWNED):
            db.rows(f'DELETE FROM "{table}" WHERE {OWNED[table]}', key)
    scrub(db)
    return copies


def scrub(db: Database) -> None:
    """Write the file anew without deleted content, and empty the write-ahead log."""
    db.rows("VACUUM")
    done = db.row("PRAGMA wal_checkpoint(TRUNCATE)")
    if done is None or done[0]:
        raise DrillError(
            f"{db.path}: erased, but another program still reads the old pages. "
            "Close it and run the same command again."
        )


def copies_with(db: Database, learner: Learner) -> tuple[Path, ...]:
    """Backups and copies made before migrations, as far as they hold this learner."""
    return tuple(path for path in _copies(db) if learner.id in path.read_bytes())


def _copies(db: Database) -> list[Path]:
    """Files that look like copies of ours: beside the store, and wherever backups were put."""
    noted = db.rows('SELECT DISTINCT "value" FROM "setting" WHERE "name" = ?', BACKUP_FOLDER)
    folders = {db.path.parent, db.path.parent / "backups", *(Path(place) for (place,) in noted)}
    found = {path.resolve() for folder in folders for path in folder.glob("drill*")}
    found |= {path.resolve() for path in db.path.parent.glob(f"{db.path.name}.before-*")}
    own = {Path(f"{db.path.resolve()}{ending}") for ending in ("", "-wal", "-shm")}
    return sorted(path for path in found - own if path.is_file())
