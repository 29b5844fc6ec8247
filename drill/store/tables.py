"""The structure of the tables, read from the database itself so that it is defined only once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from drill.store.checksum import Cell, RawText, row_sum
from drill.store.database import Database

TABLES = (
    "machine",
    "word",
    "learner",
    "learner_name",
    "setting",
    "deck",
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
    "arrival",
    "passed",
    "memory_state",
)
"""Every table of ours, each after those it refers to."""

_ANSWERS = '(SELECT n."key" FROM "answer" n JOIN "asking" a ON a."key" = n."asking" '
_ANSWERS += 'WHERE a."learner" = ?)'
_ASKINGS = '(SELECT "key" FROM "asking" WHERE "learner" = ?)'
_VERDICTS = f'(SELECT "key" FROM "verdict" WHERE "answer" IN {_ANSWERS})'
_SITTINGS = '(SELECT "key" FROM "sitting" WHERE "learner" = ?)'

OWNED = {
    "learner": '"key" = ?',
    "learner_name": '"learner" = ?',
    "setting": '"learner" = ?',
    "sitting": '"learner" = ?',
    "sitting_end": f'"sitting" IN {_SITTINGS}',
    "asking": '"learner" = ?',
    "reading": f'"asking" IN {_ASKINGS}',
    "faulty": f'"asking" IN {_ASKINGS}',
    "answer": f'"asking" IN {_ASKINGS}',
    "verdict": f'"answer" IN {_ANSWERS}',
    "acceptance": f'"verdict" IN {_VERDICTS}',
    "appeal": f'"answer" IN {_ANSWERS}',
    "arrival": '"learner" = ?',
    "memory_state": '"learner" = ?',
}
"""{table: the condition that picks one learner's rows}, parents first."""


@dataclass(frozen=True)
class TableShape:
    """A table's columns besides its key and checksum.

    `types` names SQLite's type of each, `optional` those that may be empty, `refers` the table
    whose key a column holds.
    """

    types: Mapping[str, str]
    optional: frozenset[str]
    refers: Mapping[str, str]


def shape(db: Database, table: str) -> TableShape:
    """The shape of one table."""
    columns = db.rows('SELECT "name", "type", "notnull" FROM pragma_table_info(?)', table)
    keys = db.rows('SELECT "from", "table" FROM pragma_foreign_key_list(?)', table)
    plain = [row for row in columns if row[0] not in ("key", "sum")]
    return TableShape(
        types={name: type for name, type, _ in plain},
        optional=frozenset(name for name, _, needed in plain if not needed),
        refers=dict(keys),
    )


def whole_rows(
    db: Database, table: str, rest: str, *values: Cell
) -> tuple[list[dict[str, Any]], int]:
    """Rows of a table that are what was written, by column, and how many others there are.

    `rest` follows the table's name in the statement.
    """
    connection = db.connection
    before = connection.text_factory
    connection.text_factory = RawText
    try:
        with db.faults():
            cursor = connection.execute(f'SELECT * FROM "{table}" {rest}', values)
            names = [column[0] for column in cursor.description]
            found = [dict(zip(names, row, strict=True)) for row in cursor]
    finally:
        connection.text_factory = before
    whole = [_decoded(row) for row in found if is_whole(table, row)]
    return whole, len(found) - len(whole)


def is_whole(table: str, row: Mapping[str, Cell]) -> bool:
    """Whether a row's checksum fits its other columns; the key is in no checksum.

    The cached memory alone has a learner for its key, which is in it.
    """
    rest = {name: value for name, value in row.items() if name not in ("key", "sum")}
    return row_sum(table, rest) == row["sum"]


def _decoded(row: Mapping[str, Cell]) -> dict[str, Any]:
    return {
        name: value.decode() if isinstance(value, RawText) else value for name, value in row.items()
    }


def outline(db: Database) -> dict[str, list[str]]:
    """{table: what it is made of, a line for each column, reference and index}.

    Told from what SQLite understands, not from the text of the statements, which depends on who
    wrote them.
    """
    return {table: _lines(db, table) for table in TABLES}


def _lines(db: Database, table: str) -> list[str]:
    columns = db.rows('SELECT "name", "type", "notnull", "pk" FROM pragma_table_info(?)', table)
    refers = dict(db.rows('SELECT "from", "table" FROM pragma_foreign_key_list(?)', table))
    strict = db.rows('SELECT "strict" FROM pragma_table_list WHERE "name" = ?', table)
    lines = [
        _column(name, type, bool(needed), bool(key), refers.get(name))
        for name, type, needed, key in columns
    ]
    indexes = db.rows('SELECT "name", "unique" FROM pragma_index_list(?)', table)
    lines += sorted(_index(db, name, bool(unique)) for name, unique in indexes)
    return lines if strict == [(1,)] else [*lines, "not strict"]


def _column(name: str, type: str, needed: bool, key: bool, refers: str | None) -> str:
    rest = "primary key" if key else "" if needed else "may be empty"
    return " ".join(word for word in (name, type, f"-> {refers}" if refers else "", rest) if word)


def _index(db: Database, name: str, unique: bool) -> str:
    columns = db.rows('SELECT "name" FROM pragma_index_info(?) ORDER BY "seqno"', name)
    return f"{'unique' if unique else 'index'} {', '.join(str(column) for (column,) in columns)}"
