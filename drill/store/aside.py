"""A store in a place that cannot be written to, read from a copy of it that is thrown away."""

from __future__ import annotations

import shutil
from pathlib import Path
from tempfile import TemporaryDirectory

from drill.store.database import Database, in_words, open_database


def open_aside(path: Path) -> tuple[Database, TemporaryDirectory[str]]:
    """A copy of the store with its log, opened; and the folder it is in, to be cleaned up.

    Raises:
        DrillError: it cannot be read either.
    """
    aside = TemporaryDirectory(prefix="drill-")
    try:
        copy = Path(aside.name) / path.name
        with in_words(path):
            for ending in ("", "-wal"):
                source = path.with_name(path.name + ending)
                if source.exists():
                    shutil.copyfile(source, copy.with_name(copy.name + ending))
        return open_database(copy, watched=False), aside
    except BaseException:
        aside.cleanup()
        raise
