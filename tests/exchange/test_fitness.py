"""Records made to do harm, with a checksum that fits: refused in words, and nothing is stored."""

from __future__ import annotations

import json
from itertools import product
from typing import Any

import pytest

from drill.exchange.reading import Foreign, told
from drill.exchange.telling import statements
from drill.store import Arrival, Record, Store
from tests.exchange.making import accept_all, history, practised
from tests.store.making import NOW

HARM: list[tuple[str, str, Any, str]] = [
    ("answer", "kind", "exec", 'answer: kind cannot be "exec"'),
    ("answer", "text", None, "answer: text must be text, got nothing"),
    ("answer", "text", 5, 'answer: text must be text, got "5"'),
    ("answer", "ms", -1, 'answer: ms cannot be "-1"'),
    ("answer", "ms", True, 'answer: ms must be a whole number, got "True"'),
    ("answer", "ms", 2**63, 'answer: ms must be a whole number, got "9223372036854775808"'),
    ("answer", "at", 2**62, "answer: its values do not go together"),
    ("answer", "zone", 1440, "answer: its values do not go together"),
    ("answer", "more", "x", 'answer: "more" is not known here'),
    ("answer", "sum", b"x" * 8, 'answer: "sum" is not known here'),
    ("answer", "id", b"short", "answer: it has no id"),
    ("answer", "id", "0123456789abcdef", "answer: it has no id"),
    ("verdict", "judge", "root", 'verdict: judge cannot be "root"'),
    ("verdict", "marks", -1, 'verdict: marks cannot be "-1"'),
    ("verdict", "readable", 2, 'verdict: readable cannot be "2"'),
    ("verdict", "value", "1e999999999", 'verdict: value cannot be "1e999999999"'),
    ("verdict", "value", "1/0", 'verdict: value cannot be "1/0"'),
    ("verdict", "value", "nan", 'verdict: value cannot be "nan"'),
    ("verdict", "points", "{}", 'verdict: points cannot be "{}"'),
    ("verdict", "points", "[1]", "verdict: its values do not go together"),
    ("verdict", "points", '[["a",1]]', "verdict: its values do not go together"),
    ("verdict", "points", '[["a","1",1,""]]', "verdict: its values do not go together"),
    ("verdict", "points", '[["a",1,1,5]]', "verdict: its values do not go together"),
    ("verdict", "points", '[["a",true,1,""]]', "verdict: its values do not go together"),
    ("verdict", "unsure", "[[]]", "verdict: its values do not go together"),
    ("verdict", "unsure", "[" * 50_000, f'verdict: unsure cannot be "{"[" * 60} …"'),
    ("sitting", "goal", "5", 'sitting: goal cannot be "5"'),
    ("asking", "shown", 3, 'asking: shown cannot be "3"'),
    ("asking", "hash", 10**30, "asking: hash must be text"),
    ("template_version", "hash", 10**30, "template_version: hash must be text"),
    ("template_version", "rows", "[", 'template_version: rows cannot be "["'),
    ("learner_name", "code", "\x1b[2J", "learner_name: code cannot be"),
    ("setting", "learner", None, "setting: learner must be an id, got nothing"),
]


@pytest.mark.parametrize(("table", "column", "value", "message"), HARM)
def test_a_harmful_value_is_refused_in_words(
    here: Store, there: Store, table: str, column: str, value: Any, message: str
) -> None:
    who = practised(here, "K7", 5)
    records = history(here, who)
    place = next(place for place, one in enumerate(records) if one.table == table)
    records[place] = Record(table, {**records[place].values, column: value})
    merged = there.merge((Arrival(n, "K7", record) for n, record in enumerate(records)), NOW)
    found = {fault.line: fault.message for fault in merged.faults}
    assert found[place].startswith(message)
    assert found[place].isprintable()
    assert there.verify() == []
    for one in there.learners():
        there.askings(one)
        next(iter(there.open_sittings(one)), None)


def test_an_asking_always_belongs_to_the_learner_of_its_sitting(here: Store, there: Store) -> None:
    one, two = practised(here, "K7", 5), practised(here, "Q9", 6)
    records = [
        Record(record.table, {**record.values, "learner": two.id})
        if record.table == "asking"
        else record
        for record in history(here, one)
    ]
    there.merge((Arrival(n, "K7", record) for n, record in enumerate(records)), NOW)
    mine = next(who for who in there.learners() if who.id == one.id)
    accept_all(there, mine)
    assert there.askings(mine) == here.askings(one)


def test_somebody_without_a_code_does_not_come_in(here: Store, there: Store) -> None:
    records = [one for one in history(here, practised(here, "K7", 5)) if one.table == "sitting"]
    merged = there.merge(
        (Arrival(n, "not a code", record) for n, record in enumerate(records)), NOW
    )
    assert {fault.message for fault in merged.faults} == {"it does not say whose it is"}
    assert not any(rows for table, rows in there.counts().items() if table != "machine")


ODD: list[Any] = [None, 5, "", "[{}]", {}, [[]], [{"a": 1}], [["a", 1, 1, "x"], {}]]


@pytest.mark.parametrize("table", sorted({table for table, *_ in HARM} - {"template_version"}))
def test_a_line_with_an_odd_value_is_read_or_refused(here: Store, table: str) -> None:
    """The checksum of a line is told with it: whoever writes the line can make it fit."""
    record = next(one for one in history(here, practised(here, "K7", 5)) if one.table == table)
    for column, value in product(record.values, ODD):
        for line in _lines(Record(table, {**record.values, column: value})):
            _read_or_refused(line)


def _lines(record: Record) -> list[str]:
    """Its lines, none where it cannot even be told."""
    try:
        return [json.dumps(one) for one in statements("K7", [record])]
    except (TypeError, ValueError, KeyError, AttributeError, OverflowError, AssertionError):
        return []


def _read_or_refused(line: str) -> None:
    try:
        told(line)
    except Foreign:
        return
    except Exception as error:
        raise AssertionError(line) from error
