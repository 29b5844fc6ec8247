"""A store of its own for a teacher who sits a deck as a pupil: gone when they are done."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from drill.store import Learner, Store


@contextmanager
def pretend_pupil(now: datetime) -> Iterator[tuple[Store, Learner]]:
    """A store with one learner, kept nowhere."""
    from drill.store import Store

    with (
        TemporaryDirectory(prefix="drill-try-") as folder,
        Store.open(Path(folder) / "drill.db") as store,
    ):
        yield store, store.new_learner("pupil", now)
