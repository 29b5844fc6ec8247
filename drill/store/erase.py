"""Forgetting a learner: the rows, their pages, the write-ahead log, and where copies are.

The one place where rows are deleted.
"""

from __future__ import annotations

from pathlib import Path

from drill.errors import DrillError
from drill.store.database import Database
from drill.store.people import setting
from drill.store.rows import Learner

BACKUP_FOLDER = "backup folder"
"""The machine's setting that says where backups were last written to."""

_ANSWERS = '(SELECT n."key" FROM "answer" n JOIN "asking" a ON a."key" = n."asking" '
_ANSWERS += 'WHERE a."learner" = ?)'
_ASKINGS = '(SELECT "key" FROM "asking" WHERE "learner" = ?)'
_SITTINGS = '(SELECT "key" FROM "sitting" WHERE "learner" = ?)'
_OWN = "= ?"
_DELETED = (
    ("appeal", "answer", f"IN {_ANSWERS}"),
    ("verdict", "answer", f"IN {_ANSWERS}"),
    ("answer", "asking", f"IN {_ASKINGS}"),
    ("faulty", "asking", f"IN {_ASKINGS}"),
    ("asking", "learner", _OWN),
    ("sitting_end", "sitting", f"IN {_SITTINGS}"),
    ("sitting", "learner", _OWN),
    ("setting", "learner", _OWN),
    ("memory_state", "learner", _OWN),
    ("learner_name", "learner", _OWN),
    ("learner", "key", _OWN),
)
"""Every table that knows a learner, children first: (table, column, condition on the learner)."""


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
        for table, column, condition in _DELETED:
            db.rows(f'DELETE FROM "{table}" WHERE "{column}" {condition}', key)
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
    beside = list(db.path.parent.glob(f"{db.path.name}.before-*"))
    noted = setting(db, None, BACKUP_FOLDER)
    folders = {db.path.parent, db.path.parent / "backups"} | ({Path(noted)} if noted else set())
    copies = [path for folder in folders for path in folder.glob("drill-*.sqlite*")]
    return sorted({path.resolve() for path in (*beside, *copies)} - {db.path.resolve()})
