"""A learner's rows as records that mean the same on every computer, to carry them elsewhere.

Inside a file rows refer to each other by integer keys, which another file gives to other rows. A
record names rows by their uuid instead, a topic deck by its id, a skill or marker by its word and
a template version by its hash and template. A row that is damaged is no record: it stays behind,
with what hangs on it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from drill.store.checksum import Cell
from drill.store.database import Database
from drill.store.limits import is_known
from drill.store.rows import Learner
from drill.store.tables import OWNED, whole_rows

_CHILDREN = {
    "learner": ("learner_name", "setting", "sitting"),
    "sitting": ("asking", "sitting_end"),
    "asking": ("reading", "faulty", "answer"),
    "answer": ("verdict", "appeal"),
    "verdict": ("acceptance",),
}
"""What is told right after a row, in this order."""
CARRIED = (
    "learner_name",
    "setting",
    "template_version",
    "sitting",
    "sitting_end",
    "asking",
    "reading",
    "faulty",
    "answer",
    "verdict",
    "acceptance",
    "appeal",
)
"""The tables whose rows are carried, each after those it refers to."""
NAMED = {
    "origin": ("machine", "id"),
    "deck": ("deck", "name"),
    "skill": ("word", "text"),
    "marker": ("word", "text"),
}
"""{column: (table, column)} of what is told in place of the key."""

_Row = dict[str, Any]


@dataclass(frozen=True)
class Record:
    """One row without key and checksum; columns that refer to rows hold their uuid.

    See `NAMED` for other columns; in an asking, `hash` and `template` stand for its version.
    """

    table: str
    values: Mapping[str, Cell]


@dataclass
class History:
    """Everything a learner has done, and how many rows were left out for damage so far."""

    records: Iterator[Record]
    damaged: int = 0


def history(db: Database, learner: Learner) -> History:
    """Everything a learner has done, each record after those it refers to.

    Answers follow their asking and verdicts their answer; a template version stands before the
    first asking that needs it.
    """
    telling = Telling(db)
    key = db.key("learner", learner.id)
    for table in OWNED:
        if table in CARRIED:
            telling.read(table, key)
    telling.left_out.records = telling.children("learner", key, learner.id)
    return telling.left_out


class Telling:
    """One walk through a learner's rows."""

    def __init__(self, db: Database) -> None:
        self._db = db
        self._rows: dict[str, dict[int, list[_Row]]] = {}
        self._names = {
            column: {row["key"]: row[name] for row in whole_rows(db, table, "")[0]}
            for column, (table, name) in NAMED.items()
        }
        self._versions: dict[int, Record | None] = {}
        self.left_out = History(iter(()))

    def read(self, table: str, learner: int) -> None:
        """A learner's rows of a table by the key of what they belong to, in order."""
        parent = next(parent for parent, children in _CHILDREN.items() if table in children)
        grouped = self._rows.setdefault(table, {})
        rows, damaged = whole_rows(self._db, table, f'WHERE {OWNED[table]} ORDER BY "key"', learner)
        self.left_out.damaged += damaged
        for row in rows:
            grouped.setdefault(row[parent], []).append(row)

    def children(self, table: str, key: int, id: bytes, **known: Cell) -> Iterator[Record]:
        """The records below one row; `known` are the uuids of the rows above it."""
        known = {**known, table: id}
        for child in _CHILDREN.get(table, ()):
            for row in self._rows[child].get(key, ()):
                yield from self._told(child, row, known)

    def _told(self, table: str, row: _Row, known: Mapping[str, Cell]) -> Iterator[Record]:
        if table == "setting" and not is_known(row["name"]):
            return  # what is set for this machine only
        first = table == "asking" and row["template_version"] not in self._versions
        record = self.record(table, row, known)
        if record is None:
            self.left_out.damaged += 1
            return
        if first:
            version = self._version(row["template_version"])
            assert version is not None
            yield version
        yield record
        yield from self.children(table, row["key"], row["id"], **known)

    def record(self, table: str, row: _Row, known: Mapping[str, Cell]) -> Record | None:
        """One row as a record; None when something it refers to is damaged."""
        values: dict[str, Cell] = {}
        for name, value in row.items():
            if name in NAMED:
                values[name] = None if value is None else self._names[name].get(value)
                if value is not None and values[name] is None:
                    return None
            elif name == "template_version":
                version = self._version(value)
                if version is None:
                    return None
                values |= {name: version.values[name] for name in ("hash", "template")}
            elif name not in ("key", "sum"):
                values[name] = known.get(name, value)
        return Record(table, values)

    def _version(self, key: int) -> Record | None:
        if key not in self._versions:
            names = ("hash", "template", "text", "rows", "slips")
            rows, _ = whole_rows(self._db, "template_version", 'WHERE "key" = ?', key)
            values = [{name: row[name] for name in names} for row in rows]
            self._versions[key] = Record("template_version", values[0]) if values else None
        return self._versions[key]
