"""A learner's rows as records that mean the same on every computer, to carry them elsewhere.

Inside a file rows refer to each other by integer keys, which another file gives to other rows. A
record names rows by their uuid instead, a topic deck by its id and a template version by its hash
and template.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from drill.store.checksum import Cell
from drill.store.database import Database
from drill.store.rows import Learner
from drill.store.tables import OWNED

_CHILDREN = {
    "learner": ("learner_name", "setting", "sitting"),
    "sitting": ("asking", "sitting_end"),
    "asking": ("faulty", "answer"),
    "answer": ("verdict", "appeal"),
}
"""What is told right after a row, in this order."""
CARRIED = (
    "learner_name",
    "setting",
    "template_version",
    "sitting",
    "sitting_end",
    "asking",
    "faulty",
    "answer",
    "verdict",
    "appeal",
)
"""The tables whose rows are carried, each after those it refers to."""

_Row = dict[str, Any]


@dataclass(frozen=True)
class Record:
    """One row without key and checksum; columns that refer to rows hold their uuid.

    `deck` holds the deck's id; in an asking, `hash` and `template` stand for its version.
    """

    table: str
    values: Mapping[str, Cell]


def history(db: Database, learner: Learner) -> Iterator[Record]:
    """Everything a learner has done, each record after those it refers to.

    Answers follow their asking and verdicts their answer; a template version stands before the
    first asking that needs it.
    """
    key = db.key("learner", learner.id)
    rows = {table: _rows(db, table, key) for table in OWNED if table in CARRIED}
    yield from _Telling(db, rows).children("learner", key, learner.id)


def _rows(db: Database, table: str, learner: int) -> dict[int, list[_Row]]:
    """A learner's rows of a table by the key of what they belong to, in the order they came."""
    cursor = db.connection.execute(
        f'SELECT * FROM "{table}" WHERE {OWNED[table]} ORDER BY "key"', (learner,)
    )
    names = [column[0] for column in cursor.description]
    parent = next(parent for parent, children in _CHILDREN.items() if table in children)
    grouped: dict[int, list[_Row]] = {}
    for values in cursor:
        row = dict(zip(names, values, strict=True))
        grouped.setdefault(row[parent], []).append(row)
    return grouped


class _Telling:
    """One walk through a learner's rows."""

    def __init__(self, db: Database, rows: Mapping[str, dict[int, list[_Row]]]) -> None:
        self._db, self._rows = db, rows
        self._decks: dict[int, str] = dict(db.rows('SELECT "key", "name" FROM "deck"'))
        self._told: dict[int, tuple[str, str]] = {}

    def children(self, table: str, key: int, id: bytes, **known: Cell) -> Iterator[Record]:
        """The records below one row; `known` are the uuids of the rows above it."""
        known = {**known, table: id}
        for child in _CHILDREN.get(table, ()):
            for row in self._rows[child].get(key, ()):
                if child == "asking":
                    yield from self._version(row["template_version"])
                yield self._record(child, row, known)
                yield from self.children(child, row["key"], row["id"], **known)

    def _record(self, table: str, row: _Row, known: Mapping[str, Cell]) -> Record:
        values: dict[str, Cell] = {}
        for name, value in row.items():
            if name == "deck":
                values[name] = self._decks[value]
            elif name == "template_version":
                values["hash"], values["template"] = self._told[value]
            elif name not in ("key", "sum"):
                values[name] = known.get(name, value)
        return Record(table, values)

    def _version(self, key: int) -> Iterator[Record]:
        if key in self._told:
            return
        columns = ("hash", "template", "text", "rows", "slips")
        names = ", ".join(f'"{name}"' for name in columns)
        row = self._db.row(f'SELECT {names} FROM "template_version" WHERE "key" = ?', key)
        assert row is not None
        self._told[key] = row[0], row[1]
        yield Record("template_version", dict(zip(columns, row, strict=True)))
