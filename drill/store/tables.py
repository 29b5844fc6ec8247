"""What the tables look like, asked of the database itself: nothing is written down twice."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from drill.store.database import Database

TABLES = (
    "learner",
    "learner_name",
    "setting",
    "deck",
    "template_version",
    "sitting",
    "sitting_end",
    "asking",
    "faulty",
    "answer",
    "verdict",
    "appeal",
    "passed",
    "memory_state",
)
"""Every table of ours, each after those it refers to."""


@dataclass(frozen=True)
class Shape:
    """A table's columns besides its key and checksum: SQLite's type, whether it may be empty,
    and the table whose key it holds ("" for a plain value)."""

    types: Mapping[str, str]
    optional: frozenset[str]
    refers: Mapping[str, str]


def shape(db: Database, table: str) -> Shape:
    """The shape of one table."""
    columns = db.rows('SELECT "name", "type", "notnull" FROM pragma_table_info(?)', table)
    keys = db.rows('SELECT "from", "table" FROM pragma_foreign_key_list(?)', table)
    plain = [row for row in columns if row[0] not in ("key", "sum")]
    return Shape(
        types={name: type for name, type, _ in plain},
        optional=frozenset(name for name, _, needed in plain if not needed),
        refers=dict(keys),
    )
