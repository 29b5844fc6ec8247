"""Foreign and damaged lines: reported by number, and nobody else is kept out."""

from __future__ import annotations

import json
from pathlib import Path
from random import Random
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from drill.exchange.vocabulary import RECORD
from drill.store import Store
from tests.exchange.conftest import computer
from tests.exchange.making import accept_all, carried, exported, history, practised


def faults(lines: list[str | bytes], store: Store) -> list[tuple[int, str]]:
    return [(fault.line, fault.message) for fault in carried(lines, store).faults]


def number_of(lines: list[str], word: str) -> int:
    """The first line with a verb, counted from 0."""
    return next(place for place, line in enumerate(lines) if f'"en":"{word}"' in line)


def changed(line: str, *path: str, to: Any) -> str:
    """A line with one value replaced, its checksum left as it was."""
    statement = json.loads(line)
    inner = statement
    for name in path[:-1]:
        inner = inner[name]
    inner[path[-1]] = to
    return json.dumps(statement)


@pytest.mark.parametrize(
    ("line", "message"),
    [
        ("{not json", "damaged: not a line of JSON"),
        (b'{"id": "\xff"}', "damaged: not a line of JSON"),
        ("[" * 100_000, "damaged: not a line of JSON"),
        ("9" * 10_000, "damaged: not a line of JSON"),
        ("null", "not a statement of drill"),
        ("[1, 2]", "not a statement of drill"),
        ('{"id": 1, "context": {"extensions": []}}', "not a statement of drill"),
        ('{"template": "x", "seed": 7}', "not a statement of drill"),
        ("x" * 4_000_001, "too long to be a statement of drill"),
    ],
)
def test_a_foreign_line_is_named_and_the_rest_goes_in(
    here: Store, there: Store, line: str | bytes, message: str
) -> None:
    who = practised(here, "K7", 1)
    lines = exported(here, who)
    assert faults([*lines[:2], line, *lines[2:]], there) == [(3, message)]
    assert history(there, who) == history(here, who)


@pytest.mark.parametrize(
    ("path", "to"),
    [
        (("result", "response"), "another text"),
        (("result", "response"), None),
        (("result", "duration"), "PT13S"),
        (("result", "duration"), "long"),
        (("timestamp",), "2027-03-01T17:00:00"),
        (("timestamp",), "yesterday"),
        (("timestamp",), 5),
        (("id",), "not a uuid"),
        (("id",), "00000000-0000-0000-0000-000000000000"),
        (("context", "statement", "id"), 7),
        (("context", "extensions", RECORD, "kind"), "pass"),
        (("context", "extensions", RECORD, "sum"), "0011223344556677"),
        (("context", "extensions", RECORD, "part"), ["a"]),
    ],
)
def test_an_answer_changed_anywhere_that_counts_is_damaged(
    here: Store, there: Store, path: tuple[str, ...], to: object
) -> None:
    who = practised(here, "K7", 5)
    lines = exported(here, who)
    place = number_of(lines, "answered")
    lines[place] = changed(lines[place], *path, to=to)
    found = dict(faults(list(lines), there))
    assert found[place + 1].startswith("damaged: ")


def test_what_hangs_on_a_damaged_line_says_so(here: Store, there: Store) -> None:
    lines = exported(here, practised(here, "K7", 5))
    place = number_of(lines, "attempted")
    lines[place] = lines[place][:-20]
    found = faults(list(lines), there)
    assert found[0] == (place + 1, "damaged: not a line of JSON")
    assert (place + 2, "it belongs to another asking line that is damaged or missing") in found


def test_without_its_first_line_a_learner_is_still_known(here: Store, there: Store) -> None:
    who = practised(here, "K7", 5)
    lines = exported(here, who)
    assert number_of(lines, "registered") == 0
    assert faults(list(lines[1:]), there) == []
    assert [(one.id, one.code) for one in there.learners()] == [(who.id, "K7")]
    accept_all(there, who)
    assert there.askings(who) == here.askings(who)


def test_a_line_of_a_later_drill_is_not_taken_for_damage(here: Store, there: Store) -> None:
    lines = exported(here, practised(here, "K7", 5))
    place = number_of(lines, "scored")
    lines[place] = changed(lines[place], "context", "extensions", RECORD, "table", to="mood")
    assert faults(list(lines), there)[0] == (
        place + 1,
        "a kind of statement this drill does not know",
    )


@settings(
    max_examples=40,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.function_scoped_fixture],
)
@given(chance=st.randoms(use_true_random=False))
def test_whatever_happens_to_a_byte_it_is_reported_or_changes_nothing(
    here: Store, empty: Path, tmp_path_factory: pytest.TempPathFactory, chance: Random
) -> None:
    who = here.learners()[0] if here.learners() else practised(here, "K7", 5, sittings=1)
    lines = [line.encode() for line in exported(here, who)]
    place = chance.randrange(len(lines))
    line = bytearray(lines[place])
    line[chance.randrange(len(line))] = chance.randrange(256)
    damaged: list[str | bytes] = [*lines[:place], bytes(line), *lines[place + 1 :]]
    with computer(tmp_path_factory.mktemp("far") / "there", empty) as there:
        merged = carried(damaged, there)
        if not merged.faults:
            whole = history(there, there.learners()[0])
            assert whole == history(here, who)
        else:
            assert place + 1 in {fault.line for fault in merged.faults}


@settings(max_examples=60, deadline=None)
@given(line=st.text() | st.binary() | st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(),
    lambda inner: st.lists(inner) | st.dictionaries(
        st.sampled_from(["id", "context", "extensions", RECORD, "table", "timestamp", "actor"])
        | st.text(), inner),
).map(json.dumps))  # fmt: skip
def test_no_line_can_break_the_reading(line: str | bytes) -> None:
    from drill.exchange.reading import Foreign, told

    with pytest.raises(Foreign):
        told(line)
