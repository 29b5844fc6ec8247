"""A few bytes beside the store that say how much it held when it was last used.

A database that lost its log is valid but older, and an emptied one looks new, so the database alone
cannot show a loss. The number is written after each commit; it may lag behind the store, but is
never ahead of it.
"""

from __future__ import annotations

import contextlib
import os
from pathlib import Path

from drill.errors import DrillError
from drill.plaintext import one_line

_SMALLEST = 512
"""Bytes of the smallest database there is."""


class Witness:
    """The file with the number of one store."""

    def __init__(self, store: Path) -> None:
        self.path = store.with_name(f"{store.stem}-seen")
        self._left: int | None = None

    def told(self) -> int | None:
        """The number it says; None when there is none."""
        try:
            return int(self.path.read_bytes()[:20])
        except (OSError, ValueError):
            return None

    def leave(self, total: int) -> None:
        """Write the number; a full disk is ignored."""
        if total == self._left:
            return
        with contextlib.suppress(OSError):
            file = os.open(self.path, os.O_WRONLY | os.O_CREAT, 0o600)
            try:
                os.write(file, b"%020d\n" % total)
            finally:
                os.close(file)
            self._left = total

    def look(self, store: Path) -> None:
        """Check that the store is not missing or empty.

        Raises:
            DrillError: it is, though something was in it.
        """
        told = self.told() or 0
        size = store.stat().st_size if store.exists() else -1
        if told and size < _SMALLEST:
            what = "is empty" if size >= 0 else "is not there"
            raise DrillError(
                f"{one_line(str(store))}: it {what}, though {told} rows were in it. Put a copy "
                f"back: drill data restore FILE. To begin with nothing, delete {self.path.name}."
            )
