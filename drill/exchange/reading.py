"""Records read back from the lines of a file, which may come from anywhere.

A line is accepted only if it is complete and its checksum is correct. Any other line becomes a
fault with a message, never an exception.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any
from uuid import UUID

from drill.bank import is_version
from drill.exchange.durations import milliseconds_of
from drill.exchange.telling import ABOUT, IDS, JSON, SAID
from drill.exchange.vocabulary import RECORD, TEMPLATE
from drill.sitting.history import info_from_text
from drill.store import CARRIED, Cell, Record, as_json, brief, plain_rows, row_sum, stamp

LONGEST_LINE = 4_000_000


class Foreign(ValueError):
    """Why a line was not written by drill, or is damaged."""


@dataclass(frozen=True)
class Told:
    """What one line says: a learner's code and one record, or two where a template came along."""

    code: str
    records: tuple[Record, ...]


def told(line: str | bytes) -> Told:
    """What a line says.

    Raises:
        Foreign: it is damaged or not one of ours.
    """
    statement = _statement(line)
    rest = _at(statement, "context", "extensions", RECORD)
    if not isinstance(rest, dict):
        raise Foreign("not a statement of drill")
    table = rest.get("table")
    if table not in CARRIED or table == "template_version":
        raise Foreign("a kind of statement this drill does not know")
    try:
        record = _checked(table, _values(table, statement, rest), rest.get("sum"))
        if table == "verdict":  # earlier versions told every reason in full
            points = brief(str(record.values["points"]), str(record.values["says"]))
            record = Record(table, {**record.values, "points": points})
        return Told(_code(statement), (*_version(statement, record), record))
    except (TypeError, ValueError, LookupError, OverflowError, AttributeError) as error:
        if isinstance(error, Foreign):
            raise
        raise Foreign("damaged: something in it is missing or no longer what it was") from error


def _statement(line: str | bytes) -> Any:
    if len(line) > LONGEST_LINE:
        raise Foreign("too long to be a statement of drill")
    try:
        return json.loads(line)
    except (ValueError, RecursionError) as error:
        raise Foreign("damaged: not a line of JSON") from error


def _at(value: Any, *names: str) -> Any:
    """The value at a path, None where the path ends early."""
    for name in names:
        value = value.get(name) if isinstance(value, dict) else None
    return value


def _values(table: str, statement: Any, rest: Mapping[str, Any]) -> dict[str, Cell]:
    """The record's values, gathered from where `telling` put them."""
    values = _cells(rest)
    values["id"] = _id(_at(statement, "id"))
    values |= stamp(datetime.fromisoformat(_at(statement, "timestamp")))
    if table in SAID:
        values[SAID[table]] = _at(statement, "result", "response")
    if table in ABOUT:
        values[ABOUT[table]] = _id(_at(statement, "object", "id"))
    if table == "asking":
        values["sitting"] = _id(_at(statement, "context", "registration"))
    if table == "answer":
        values["asking"] = _id(_at(statement, "context", "statement", "id"))
        values["ms"] = milliseconds_of(_at(statement, "result", "duration"))
    return values


def _cells(rest: Mapping[str, Any]) -> dict[str, Cell]:
    return {
        name: _cell(name, value) for name, value in rest.items() if name not in ("table", "sum")
    }


def _cell(name: str, value: Any) -> Cell:
    if name in IDS:
        return _id(value)
    if name in JSON:
        return as_json(value)
    if value is not None and not isinstance(value, str | int):
        raise Foreign("damaged: something in it is no longer what it was")
    return value


def _id(value: Any) -> bytes:
    return UUID(value).bytes


def _checked(table: str, values: Mapping[str, Cell], sum: Any) -> Record:
    if row_sum(table, values).hex() != sum:
        raise Foreign("damaged: its checksum does not fit")
    return Record(table, values)


def _version(statement: Any, asking: Record) -> tuple[Record, ...]:
    """The template version that came along with a question, if one did."""
    rest = _at(statement, "object", "definition", "extensions", TEMPLATE)
    if not isinstance(rest, dict):
        return ()
    values = _cells(rest)
    values |= {name: asking.values[name] for name in ("hash", "template")}
    record = _checked("template_version", values, rest.get("sum"))
    hash, text, slips = (str(values[name]) for name in ("hash", "text", "slips"))
    kept = str(values["rows"])
    for rows in (kept, plain_rows(kept)):  # earlier versions wrote them otherwise
        if _is_what_it_says(hash, text, rows, slips):
            return (Record(record.table, {**record.values, "rows": rows}),)
    raise Foreign("the text of its question is not the one it names")


def _is_what_it_says(version: str, text: str, rows: str, slips: str) -> bool:
    """Checks that a stored text has the hash of its version, and says what its parts examine."""
    try:
        sound = is_version(version, text, json.loads(rows), json.loads(slips))
        return sound and bool(info_from_text(text))
    except (ValueError, TypeError, KeyError, AttributeError, RecursionError):
        return False


def _code(statement: Any) -> str:
    code = _at(statement, "actor", "account", "name")
    return code if isinstance(code, str) else ""
