"""Stored records as xAPI 1.0.3 statements (ADL, Experience API specification, "xAPI-Data").

The standard fields hold the id, the time, what was typed, how long it took and what it is about.
The rest of the record is in one extension, with a checksum, so that `reading` can rebuild it
exactly. Scores are there for other programs.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from itertools import chain, pairwise
from typing import Any
from uuid import UUID

from drill.exchange.durations import duration
from drill.exchange.vocabulary import (
    HOME,
    RECORD,
    TEMPLATE,
    activity,
    actor,
    reference,
    score,
    verb,
)
from drill.store import Record, moment, row_sum

Statement = dict[str, Any]

SAID = {
    "setting": "value",
    "reading": "text",
    "answer": "text",
    "appeal": "reason",
    "faulty": "note",
}
"""{table: the column a statement gives as its response}."""
ABOUT = {
    "sitting_end": "sitting",
    "reading": "asking",
    "faulty": "asking",
    "verdict": "answer",
    "acceptance": "verdict",
    "appeal": "answer",
}
"""{table: the column with the id of the statement this one is about}."""
IDS = frozenset({"learner", "sitting", "asking", "answer", "verdict", "origin"})
"""Columns that hold an id of 16 bytes, written as a uuid."""
JSON = frozenset({"goal", "points", "unsure", "rows", "slips"})
"""Columns that hold JSON, written as such."""


def statements(code: str, history: Iterable[Record]) -> Iterator[Statement]:
    """A learner's history, a statement for each record but those of template versions.

    These travel in the first statement about a question that needs them.
    """
    telling = _Telling(code)
    for record, following in pairwise(chain(history, [None])):
        assert record is not None
        if record.table == "template_version":
            telling.version = record
        else:
            yield telling.statement(record, following)


class _Telling:
    """Writes one learner's history; remembers which question the answers belong to."""

    def __init__(self, code: str) -> None:
        self._actor = actor(code)
        self.version: Record | None = None
        self._question: tuple[str, ...] = ()

    def statement(self, record: Record, following: Record | None) -> Statement:
        rest: dict[str, Any] = dict(record.values)
        about = rest.pop(ABOUT[record.table], None) if record.table in ABOUT else None
        told: Statement = {
            "id": _uuid(rest.pop("id")),
            "actor": self._actor,
            "verb": verb(_verb_name(record)),
            "object": reference(_uuid(about)) if about else self._activity(record),
        }
        result = _result(record, rest, following)
        if result:
            told["result"] = result
        context = self._context(record, rest)
        told["timestamp"] = moment(rest.pop("at"), rest.pop("zone")).isoformat(
            timespec="milliseconds"
        )
        context["extensions"] = {RECORD: _extension(record, rest)}
        return {**told, "context": context, "version": "1.0.3"}

    def _activity(self, record: Record) -> dict[str, Any]:
        values = record.values
        if record.table == "sitting":
            return activity("decks", str(values["deck"]), name=str(values["deck"]))
        if record.table == "asking":
            return self._asked(record)
        if record.table == "answer":
            part = str(values["part"])
            return activity(*self._question, part, name=f"part {part}", question=True)
        if record.table == "setting":
            return activity("settings", str(values["name"]), name=str(values["name"]))
        return {"objectType": "Activity", "id": HOME, "definition": {"name": {"en": "drill"}}}

    def _asked(self, record: Record) -> dict[str, Any]:
        values = record.values
        place = (str(values[name]) for name in ("template", "hash", "seed"))
        self._question = ("questions", *place)
        question = activity(*self._question, name=str(values["template"]), question=True)
        if self.version is not None:
            rest = {
                name: value
                for name, value in self.version.values.items()
                if name not in ("hash", "template")
            }
            extension = _extension(self.version, rest)
            question["definition"]["extensions"] = {TEMPLATE: extension}
            self.version = None
        return question

    def _context(self, record: Record, rest: dict[str, Any]) -> dict[str, Any]:
        if record.table == "asking":
            return {"registration": _uuid(rest.pop("sitting"))}
        if record.table == "answer":
            return {"statement": reference(_uuid(rest.pop("asking")))}
        return {}


def _verb_name(record: Record) -> str:
    if record.table == "asking" and record.values["shown"]:
        return "shown"
    if record.table == "answer" and record.values["kind"] == "hint":
        return "hint"
    return record.table


def _result(record: Record, rest: dict[str, Any], following: Record | None) -> dict[str, Any]:
    """What came of it; an answer shows the marks it got at the time, if it got any."""
    result: dict[str, Any] = {}
    judged = following if record.table == "answer" else record
    if judged is not None and judged.table == "verdict":
        result |= score(_int(judged, "marks"), _int(judged, "of"))
    if record.table in SAID:
        result["response"] = rest.pop(SAID[record.table])
    if record.table == "answer":
        result["duration"] = duration(rest.pop("ms"))
    return result


def _int(record: Record, name: str) -> int:
    value = record.values[name]
    assert isinstance(value, int)
    return value


def _extension(record: Record, rest: dict[str, Any]) -> dict[str, Any]:
    """The rest of a record as JSON, with the checksum of all of it."""
    written = {name: _written(name, value) for name, value in rest.items() if value is not None}
    sum = row_sum(record.table, record.values).hex()
    return {"table": record.table, **written, "sum": sum}


def _written(name: str, value: Any) -> Any:
    if name in IDS:
        return _uuid(value)
    return json.loads(value) if name in JSON else value


def _uuid(id: Any) -> str:
    return str(UUID(bytes=id))
