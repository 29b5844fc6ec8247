"""The third form of the tables: rows ordered without a clock, in half the space.

Keys are never given twice (AUTOINCREMENT), so a row that was erased leaves no key for another. Of
settings, codes, answers, marks and what is said of them a `count` keeps the order they were said
in; it is empty where the time `at` says the same. `origin` is the machine a row was made on. Words
that come again and again (skills, markers) are kept once.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from contextlib import suppress
from fractions import Fraction
from typing import Any

from sqlite_utils.db import Database as Tables

from drill.store.checksum import row_sum
from drill.store.marks import brief

_AT = '"at" INTEGER NOT NULL, "zone" INTEGER NOT NULL'
_ID = '"id" BLOB NOT NULL'
_SAID = '"origin" INTEGER REFERENCES "machine"("key"), "count" INTEGER'


def _of(table: str, column: str = "", empty: bool = False) -> str:
    needed = "" if empty else " NOT NULL"
    return f'"{column or table}" INTEGER{needed} REFERENCES "{table}"("key")'


COLUMNS = {
    "machine": (_ID, _AT),
    "word": ('"text" TEXT NOT NULL',),
    "learner": (_ID, _AT),
    "learner_name": (_ID, _of("learner"), '"code" TEXT NOT NULL', _SAID, _AT),
    "setting": (
        _ID, _of("learner", empty=True), '"name" TEXT NOT NULL', '"value" TEXT NOT NULL', _SAID,
        _AT,
    ),
    "deck": ('"name" TEXT NOT NULL', _AT),
    "template_version": (
        '"hash" TEXT NOT NULL', '"template" TEXT NOT NULL', '"text" TEXT NOT NULL',
        '"rows" TEXT NOT NULL', '"slips" TEXT NOT NULL',
    ),
    "sitting": (_ID, _of("learner"), _of("deck"), '"goal" TEXT NOT NULL', _AT),
    "sitting_end": (_ID, _of("sitting"), '"how" TEXT NOT NULL', _AT),
    "asking": (
        _ID, _of("sitting"), _of("learner"), _of("template_version"), '"seed" INTEGER NOT NULL',
        _of("word", "skill"), '"shown" INTEGER NOT NULL', _AT,
    ),
    "reading": (_ID, _of("asking"), '"name" TEXT NOT NULL', '"text" TEXT NOT NULL', _AT),
    "faulty": (_ID, _of("asking"), '"note" TEXT NOT NULL', _AT),
    "answer": (
        _ID, _of("asking"), '"part" TEXT NOT NULL', '"text" TEXT NOT NULL', '"kind" TEXT NOT NULL',
        '"sure" TEXT', '"ms" INTEGER NOT NULL', '"count" INTEGER', _AT,
    ),
    "verdict": (
        _ID, _of("answer"), '"judge" TEXT NOT NULL', _of("word", "marker"),
        '"marks" INTEGER NOT NULL', '"of" INTEGER NOT NULL', '"says" TEXT NOT NULL',
        '"points" TEXT NOT NULL', '"unsure" TEXT NOT NULL', '"slip" TEXT',
        '"readable" INTEGER NOT NULL', '"value" TEXT', '"carried" INTEGER NOT NULL',
        '"self_marked" INTEGER NOT NULL', '"note" TEXT', _SAID, _AT,
    ),
    "acceptance": (_ID, _of("verdict"), _SAID, _AT),
    "appeal": (_ID, _of("answer"), '"reason" TEXT NOT NULL', _SAID, _AT),
    "arrival": (
        _ID, _of("learner", empty=True), '"file" TEXT NOT NULL', '"who" TEXT NOT NULL',
        '"keys" TEXT NOT NULL', _AT,
    ),
    "passed": ('"hash" TEXT NOT NULL', _AT),
}  # fmt: skip
"""The columns of each table between its key and its checksum, tables after those they refer to."""

_INDEXES = {
    "sitting": ("learner",),
    "sitting_end": ("sitting",),
    "asking": ("learner, at", "learner, template_version"),
    "reading": ("asking",),
    "faulty": ("asking",),
    "answer": ("asking",),
    "verdict": ("answer",),
    "acceptance": ("verdict",),
    "appeal": ("answer",),
}
_UNIQUE = {
    "word": "text", "deck": "name", "template_version": "hash, template", "passed": "hash",
}  # fmt: skip
_QUANTITY = re.compile(
    r"Quantity\(value=Fraction\((-?\d+), (\d+)\), unit=Unit\(symbol='([^']*)'.*"
    r"decimals=(\d+|None), figures=(?:\d+|None)\)"
)


def compact(db: Tables) -> None:
    """Create every table again, and copy its rows with their keys."""
    old = {row[0] for row in db.execute("SELECT \"name\" FROM sqlite_schema WHERE type = 'table'")}
    for table, columns in COLUMNS.items():
        inner = ", ".join(('"key" INTEGER PRIMARY KEY AUTOINCREMENT', *columns))
        db.execute(f'CREATE TABLE "{table} anew" ({inner}, "sum" BLOB NOT NULL) STRICT')
        if table in old:
            _put_over(db, table)
            db.execute(f'DROP TABLE "{table}"')
        # references of other tables to the old name now mean this one
        db.execute(f'ALTER TABLE "{table} anew" RENAME TO "{table}"')
        unique = _UNIQUE.get(table, "id")
        for number, index in enumerate((unique, *_INDEXES.get(table, ()))):
            names = index.split(", ")
            said = "UNIQUE INDEX" if not number else "INDEX"
            title = "_".join(["idx", table, *names])
            of = ", ".join(f'"{name}"' for name in names)
            db.execute(f'CREATE {said} "{title}" ON "{table}" ({of})')
    _memory(db)


def _memory(db: Tables) -> None:
    """The cache starts empty; it stores its inputs, and its state compressed."""
    db.execute('DROP TABLE "memory_state"')
    db.execute(
        'CREATE TABLE "memory_state" ("learner" INTEGER PRIMARY KEY REFERENCES "learner"("key"), '
        '"weights" TEXT NOT NULL, "seen" TEXT NOT NULL, "state" BLOB NOT NULL, '
        '"sum" BLOB NOT NULL) STRICT'
    )


def _put_over(db: Tables, table: str) -> None:
    changed = _CHANGED.get(table)
    if changed is None:
        names = [row[1] for row in db.execute(f'PRAGMA table_info("{table}")')]
        of = ", ".join(f'"{name}"' for name in names)
        db.execute(f'INSERT INTO "{table} anew" ({of}) SELECT {of} FROM "{table}" ORDER BY "key"')
        return
    cursor = db.execute(f'SELECT * FROM "{table}" ORDER BY "key"')
    names = [column[0] for column in cursor.description]
    for row in cursor.fetchall():
        values = dict(zip(names, row, strict=True))
        key, sum = values.pop("key"), values.pop("sum")
        sound = row_sum(table, values) == sum
        values = changed(db, values)
        # a row that was damaged before stays so: it must not look whole with a fresh sum
        values |= {"key": key, "sum": row_sum(table, values) if sound else sum}
        of = ", ".join(f'"{name}"' for name in values)
        places = ", ".join("?" * len(values))
        db.execute(f'INSERT INTO "{table} anew" ({of}) VALUES ({places})', list(values.values()))


def _verdict(db: Tables, values: dict[str, Any]) -> dict[str, Any]:
    with suppress(ValueError, TypeError):  # damaged before, and told so by its checksum
        values["points"] = brief(values["points"], values["says"])
    return {**values, "marker": _word(db, values["marker"])}


def _with_word(column: str) -> Callable[[Tables, dict[str, Any]], dict[str, Any]]:
    return lambda db, values: {**values, column: _word(db, values[column])}


def _word(db: Tables, text: str) -> int:
    found = db.execute('SELECT "key" FROM "word" WHERE "text" = ?', [text]).fetchone()
    if found:
        return int(found[0])
    made = db.execute(
        'INSERT INTO "word" ("text", "sum") VALUES (?, ?)', [text, row_sum("word", {"text": text})]
    )
    return int(made.lastrowid or 0)


def _with_plain_rows(_: Tables, values: dict[str, Any]) -> dict[str, Any]:
    return {**values, "rows": plain_rows(values["rows"])}


def plain_rows(rows: str) -> str:
    """Facts rows whose cells read as the version's hash reads them; unreadable ones unchanged.

    Earlier versions kept "Quantity(value=Fraction(4, 5), …)"; it becomes "4/5 g 1".
    """
    try:
        kept: list[dict[str, Any]] = json.loads(rows)
        for row in kept:
            row["cells"] = {name: _cell(cell) for name, cell in row["cells"].items()}
    except (ValueError, TypeError, KeyError, AttributeError):
        return rows
    return json.dumps(kept, ensure_ascii=False, separators=(",", ":"))


def _cell(text: str) -> str:
    found = _QUANTITY.fullmatch(text)
    if found is None:
        return f"text {text}"
    return f"{Fraction(int(found[1]), int(found[2]))} {found[3]} {found[4]}"


_CHANGED: dict[str, Callable[[Tables, dict[str, Any]], dict[str, Any]]] = {
    "asking": _with_word("skill"),
    "verdict": _verdict,
    "template_version": _with_plain_rows,
}
