"""The owner of an imported file: a file may add to one learner already here, no more.

A forged line could claim anybody's rows. So the learner that most lines name is taken as the owner;
other learners in the file are accepted only if they are new here, each under their own code.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING

from drill.store.checksum import Cell
from drill.store.database import Database
from drill.store.fitness import Unfit
from drill.store.people import learners

if TYPE_CHECKING:
    from drill.store.merge import Arrival
    from drill.store.rows import Learner

_FROM_ANSWER = (
    'FROM "answer" n JOIN "asking" a ON a."key" = n."asking" '
    'JOIN "learner" l ON l."key" = a."learner"'
)
_WHOSE = {
    "learner": 'SELECT "id" FROM "learner" WHERE "key" = ?',
    "sitting": 'SELECT l."id" FROM "sitting" s JOIN "learner" l ON l."key" = s."learner" '
    'WHERE s."key" = ?',
    "asking": 'SELECT l."id" FROM "asking" a JOIN "learner" l ON l."key" = a."learner" '
    'WHERE a."key" = ?',
    "answer": f'SELECT l."id" {_FROM_ANSWER} WHERE n."key" = ?',
    "verdict": f'SELECT l."id" {_FROM_ANSWER} JOIN "verdict" v ON v."answer" = n."key" '
    'WHERE v."key" = ?',
}
"""{column: the statement that leads from it to a learner}."""


class Owners:
    """The learners of one file, by the codes of its lines."""

    def __init__(
        self,
        db: Database,
        arrivals: Iterable[Arrival],
        into: Learner | None,
        joined: Mapping[bytes, bytes],
    ) -> None:
        self._db, self._into, self._joined = db, into, joined
        self._here = {one.id for one in learners(db)}
        named: dict[str, Counter[bytes]] = {}
        for arrival in arrivals:
            id = arrival.record.values.get("learner")
            if isinstance(id, bytes):
                named.setdefault(arrival.code, Counter())[id] += 1
        self._named = {code: ids.most_common(1)[0][0] for code, ids in named.items()}
        every = sum(named.values(), Counter[bytes]())
        self._main = every.most_common(1)[0][0] if every else None
        self.added_to: set[bytes] = set()

    def check(self, table: str, values: Mapping[str, Cell], code: str) -> None:
        """See that a row, its keys those of this store, is its file's to bring.

        Raises:
            Unfit: it is about somebody else than the other lines.
        """
        column = next((column for column in _WHOSE if column in values), None)
        if column is None:
            return
        found = self._db.row(_WHOSE[column], values[column])
        if found is None or found[0] != self._here_as(self._named.get(code)):
            raise Unfit(f"{table}: it belongs to somebody else than the other lines")
        if found[0] in self._here:
            if found[0] != self._here_as(self._main):
                raise Unfit(f"{table}: it is somebody else's; import a file of their own")
            self.added_to.add(found[0])

    def _here_as(self, learner: bytes | None) -> bytes | None:
        """Who a learner of the file is here."""
        if self._into is not None:
            return self._into.id
        return None if learner is None else self._joined.get(learner, learner)
