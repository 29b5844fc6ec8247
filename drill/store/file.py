"""The store as a file: opened and closed, carried to other computers, checked, copied, cleaned.

What is in it, and what a sitting writes, is in `store`.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime
from pathlib import Path
from types import TracebackType
from typing import TYPE_CHECKING

from drill.store.database import CannotWrite, Database, open_database
from drill.store.presence import Held

if TYPE_CHECKING:
    from tempfile import TemporaryDirectory
    from typing import Self

    from drill.store.arrivals import ArrivalRow, TakenBack
    from drill.store.erase import Erased
    from drill.store.merge import Arrival, Merged
    from drill.store.records import History
    from drill.store.rows import Learner


class StoreFile:
    """An open store as the file it is; use it as a context manager, from one thread."""

    def __init__(self, database: Database) -> None:
        self._db = database
        self._held = Held(database.path)
        self._aside: TemporaryDirectory[str] | None = None
        self._is_aside = False

    @classmethod
    def open(cls, path: Path, reading: bool = False) -> Self:
        """The store at `path`, made or brought up to date if need be.

        `reading`: nothing is going to be stored, so a place that cannot be written to will do:
        there a copy is opened, and thrown away with what is written to it.

        Raises:
            DrillError: it was written by a newer drill, is somebody else's, cannot be opened, or
                is empty though it was not when it was last used.
        """
        try:
            return cls(open_database(path))
        except CannotWrite:
            if not reading:
                raise
        from drill.store.aside import open_aside

        database, aside = open_aside(path)
        store = cls(database)
        store._aside, store._is_aside = aside, True
        return store

    @property
    def path(self) -> Path:
        """The file it is kept in."""
        return self._db.path

    @property
    def is_aside(self) -> bool:
        """Whether it is a copy to be thrown away, as nothing can be written where the store is."""
        return self._is_aside

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()

    def is_thrown_away(self) -> None:
        """Wait for no disk from here on: for a copy that is gone after its command."""
        self._db.connection.execute("PRAGMA synchronous = OFF")

    def close(self) -> None:
        """Let go of the file, and of the sittings held."""
        self._held.let_go()
        self._db.close()
        if self._aside is not None:
            self._aside.cleanup()

    # ------------------------------------------------------------ to and from other computers

    def history(self, learner: Learner) -> History:
        """Everything a learner has done, as records that mean the same on every computer."""
        from drill.store.records import history

        return history(self._db, learner)

    def merge(
        self,
        arrivals: Iterable[Arrival],
        now: datetime,
        into: Learner | None = None,
        file: str = "",
    ) -> Merged:
        """Put records from elsewhere beside what is here, each only once."""
        from drill.store.merge import merge

        return merge(self._db, arrivals, now, into, file)

    def arrivals(self) -> list[ArrivalRow]:
        """Every import that was not taken back."""
        from drill.store.arrivals import arrivals

        return arrivals(self._db)

    def take_back(self, number: int) -> TakenBack:
        """Remove what an import brought; `DrillError` when there is none of that number."""
        from drill.store.arrivals import take_back

        return take_back(self._db, number)

    # ------------------------------------------------------------ the file itself

    def verify(self) -> list[str]:
        """What is wrong with the file, a line each; empty when all is well."""
        from drill.store.verify import verify

        return verify(self._db)

    def accept_losses(self, by: str, now: datetime) -> int:
        """Put on record who takes the losses that `verify` tells as they are; returns how many."""
        from drill.store.losses import accept

        return accept(self._db, by, now)

    def accepted_losses(self) -> list[str]:
        """What was lost and is accepted, a line each."""
        from drill.store.losses import losses

        return [str(loss) for loss in losses(self._db) if loss.accepted]

    def backup(self, path: Path) -> None:
        """A whole copy at `path`; `DrillError` when something is there already."""
        from drill.store.verify import backup

        backup(self._db, path)

    def counts(self) -> dict[str, int]:
        """How many rows each table has."""
        from drill.store.verify import counts

        return counts(self._db)

    def erase(self, learner: Learner) -> Erased:
        """Forget a learner for good; says what is left of them, and where."""
        from drill.store.erase import erase

        return erase(self._db, learner)

    def scrub(self) -> tuple[str, ...]:
        """Write the file anew without deleted content and empty its log; what was not possible."""
        from drill.store.erase import scrub

        return scrub(self._db)
