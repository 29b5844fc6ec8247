"""Which sittings are open in any window: known from file locks, which end with the program.

Each sitting has an empty file beside the store, which is locked. On a file system without locks
every sitting counts as free.
"""

from __future__ import annotations

import os
from pathlib import Path


class Held:
    """The sittings that one window holds."""

    def __init__(self, store: Path) -> None:
        self._store = store
        self._files: dict[bytes, int] = {}

    def take(self, sitting: bytes) -> bool:
        """Hold a sitting; False when another window does."""
        if sitting in self._files:
            return True
        path = self._path(sitting)
        try:
            file = os.open(path, os.O_RDWR | os.O_CREAT, 0o600)
        except OSError:
            return True
        if not _lock(file):
            os.close(file)
            return False
        self._files[sitting] = file
        return True

    def is_elsewhere(self, sitting: bytes) -> bool:
        """Whether another window holds a sitting; it is not taken."""
        if sitting in self._files or not self._path(sitting).exists():
            return False
        taken = self.take(sitting)
        if sitting in self._files:
            os.close(self._files.pop(sitting))
        return not taken

    def let_go(self) -> None:
        """Free all of them."""
        for sitting, file in self._files.items():
            self._path(sitting).unlink(missing_ok=True)
            os.close(file)
        self._files.clear()

    def _path(self, sitting: bytes) -> Path:
        return self._store.with_name(f"{self._store.stem}-open-{sitting.hex()}")


def _lock(file: int) -> bool:
    """Whether the file is ours now; True where there are no locks."""
    try:
        import fcntl
    except ImportError:
        return _lock_elsewhere(file)
    try:
        fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        return False
    except OSError:
        pass
    return True


def _lock_elsewhere(file: int) -> bool:
    try:
        import msvcrt
    except ImportError:
        return True
    try:
        msvcrt.locking(file, msvcrt.LK_NBLCK, 1)  # type: ignore[attr-defined,unused-ignore]
    except OSError:
        return False
    return True
