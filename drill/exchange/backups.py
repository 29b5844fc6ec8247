"""Safe copies: dated, verified after writing, and known to `erase` wherever they were put."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

from drill.errors import DrillError
from drill.places import private_folder, reason
from drill.plaintext import one_line
from drill.store import BACKUP_FOLDER, Store


def backup(store: Store, folder: Path, now: datetime) -> Path:
    """Copy the whole store to "drill-2027-03-01-170000.sqlite" in a folder; returns the copy.

    Raises:
        DrillError: the folder cannot be made or written to, or the copy did not come out whole.
    """
    try:
        private_folder(folder)
    except (OSError, ValueError) as error:
        raise DrillError(
            f"{one_line(str(folder))}: cannot be made ({reason(error)}). Name another."
        ) from error
    path = folder / f"drill-{now:%Y-%m-%d-%H%M%S}.sqlite"
    store.backup(path)
    place = str(folder.resolve())
    if store.setting(None, BACKUP_FOLDER) != place:
        store.set_setting(None, BACKUP_FOLDER, place, now)
    return path
