"""`drill data` under attack: what is remembered, and what travels between machines."""

from __future__ import annotations

import json
import os
from datetime import datetime, timedelta
from pathlib import Path
from random import Random

import pytest

from tests.common.attacks import (
    START,
)
from tests.common.crafted import crafted
from tests.common.data_home import answer, is_true, learner, opened, sit_down
from tests.common.ends import ends
from tests.common.import_attacks import attack_by_import, records_of


def test_two_windows_at_once_ask_nothing_twice_and_remember_all(home: Path) -> None:
    home.mkdir()
    with opened(home) as one, opened(home) as other:
        who = one.new_learner("K7", START)
        first, now = sit_down(one, who, START), START
        asked = [answer(first, now := now + timedelta(minutes=1)) for _ in range(2)]
        second = sit_down(other, who, now)
        assert (second.elsewhere, second.resumed, second.id != first.id) == (True, False, True)
        for _ in range(3):
            asked.append(answer(second, now := now + timedelta(minutes=1)))
            asked.append(answer(first, now := now + timedelta(minutes=1)))
            assert is_true(one, who)
        assert len(set(asked)) == len(asked)
        second.end(now)
        first.end(now)
        first.end(now)
        ends_kept = one._db.rows("SELECT count(*) FROM sitting_end")
        assert ends_kept == [(2,)]
        assert is_true(other, who)


def test_memory_is_true_after_a_settlement_an_import_and_a_clock_set_back(filled: Path) -> None:
    with opened(filled) as store:
        who = learner(store)
        sitting = sit_down(store, who, START + timedelta(days=1))
        answer(sitting, START + timedelta(days=1))
        row = store.askings(who)[0].answers[0]
        assert row.mark is not None
        store.verdict(row.id, "teacher", "by hand, teacher", row.mark, START)
        assert is_true(store, who)
        answer(sitting, START - timedelta(days=3))
        assert is_true(store, who)
        store.merge([], START)
        answer(sitting, START + timedelta(days=2))
        assert is_true(store, who)


def test_the_last_thing_set_wins_with_a_clock_set_back(filled: Path) -> None:
    for at, minutes in (("2027-03-01T17:00", "25"), ("2026-03-01T17:00", "35")):
        assert ends("plan", "--minutes", minutes, "--learner", "K7", "--at", at).code == 0
    with opened(filled) as store:
        assert store.setting(learner(store), "minutes") == "35"
    for at, code in (("2027-03-01T17:00", "A1"), ("2026-03-01T17:00", "A2")):
        before = "K7" if code == "A1" else "A1"
        assert ends("learner", "rename", before, code, "--at", at).code == 0
    assert "A2" in ends("learner", "list").out


def carried(source: Path, target: Path, code: str, *more: str) -> str:
    """Export here, import there; what the import said."""
    os.environ["DRILL_HOME"] = str(source)
    file = source / f"{code}.jsonl"
    assert ends("data", "export", "--learner", code, "--out", str(file)).code == 0
    os.environ["DRILL_HOME"] = str(target)
    end = ends("data", "import", str(file), *more)
    assert end.code == 0, end
    return end.out


def marks(home: Path) -> dict[bytes, int]:
    with opened(home) as store:
        return {
            one.id: one.mark.marks
            for who in store.learners()
            for row in store.askings(who)
            for one in row.answers
            if one.mark
        }


def settled(home: Path, given: int, at: datetime) -> bytes:
    """A teacher's mark for the first marked answer of K7."""
    with opened(home) as store:
        row = next(r for a in store.askings(learner(store)) for r in a.answers if r.mark)
        assert row.mark is not None
        points = (
            tuple(point.__class__(point.id, given, point.of) for point in row.mark.points[:1])
            + row.mark.points[1:]
        )
        mark = row.mark.__class__(given, row.mark.of, points, "by hand")
        store.verdict(row.id, "teacher", "by hand, teacher", mark, at)
        return row.id


def test_a_teachers_mark_from_elsewhere_counts_once_it_is_accepted(
    filled: Path, tmp_path: Path
) -> None:
    there, again = tmp_path / "there", tmp_path / "again"
    carried(filled, there, "K7")
    id = settled(there, 0, START + timedelta(days=3))
    before = marks(filled)[id]
    said = carried(there, filled, "K7")
    assert "drill appeals accept" in said
    assert marks(filled)[id] == before
    assert json.loads(ends("appeals", "accept", "--json").out)[0]["given"] == 0
    assert ends("appeals", "accept", "--yes").code == 0
    assert marks(filled)[id] == 0
    # on a machine that is joined, what was accepted counts as well; on any other it does not
    os.environ["DRILL_HOME"] = str(again)
    assert ends("learner", "new", "me").code == 0
    carried(filled, again, "K7", "--into", "me")
    assert marks(again)[id] == 0
    os.environ["DRILL_HOME"] = str(again)
    assert ends("data", "take-back").code == 0
    carried(filled, again, "K7")
    assert marks(again)[id] == before


def test_two_machines_agree_on_every_mark_whatever_came_first(filled: Path, tmp_path: Path) -> None:
    one, two = tmp_path / "one", tmp_path / "two"
    for place in (one, two):
        carried(filled, place, "K7")
    at = START + timedelta(days=3)
    settled(one, 0, at)
    settled(two, 1, at)
    carried(one, two, "K7")
    carried(two, one, "K7")
    for place in (one, two):
        os.environ["DRILL_HOME"] = str(place)
        ends("appeals", "accept", "--yes")
    assert marks(one) == marks(two)


def test_a_code_that_is_taken_is_told_and_its_owner_keeps_it(filled: Path, tmp_path: Path) -> None:
    there = tmp_path / "there"
    os.environ["DRILL_HOME"] = str(there)
    assert ends("learner", "new", "K7").code == 0
    assert "Another K7 is here; this one is K7-2 here." in carried(filled, there, "K7")
    back = carried(there, filled, "K7-2")
    assert "K7-2 is now" not in back
    os.environ["DRILL_HOME"] = str(filled)
    assert "K7-2" not in ends("learner", "list").out


def test_an_import_is_taken_back_whole(filled: Path, tmp_path: Path) -> None:
    there = tmp_path / "there"
    os.environ["DRILL_HOME"] = str(there)
    assert ends("learner", "new", "Z1").code == 0
    with opened(there) as store:
        before = store.counts()
    carried(filled, there, "K7")
    assert "K7.jsonl" in ends("data", "imports").out
    assert "K7 is gone with it." in ends("data", "take-back").out
    with opened(there) as store:
        after = store.counts()
        assert store.verify() == []
    kept = {"machine", "word", "deck"}
    assert {k: v for k, v in after.items() if k not in kept} == {
        k: v for k, v in before.items() if k not in kept
    }
    assert ends("data", "take-back").code == 1


@pytest.mark.parametrize("name", ["two_owners", "unnamed", "texts"])
def test_a_crafted_file_changes_nobody_elses_rows(filled: Path, name: str) -> None:
    lines = crafted(name, records_of(filled, "K7"), records_of(filled, "Q9"), Random(1000))
    assert attack_by_import(filled, lines, "Q9") == []


def test_a_million_lines_of_junk_are_few_lines_of_complaint(filled: Path) -> None:
    junk = filled / "junk.jsonl"
    junk.write_bytes(b"x\n" * 100_000 + b"y" * 9_000_000)
    end = ends("data", "import", str(junk))
    assert end.code == 1
    assert len(end.lines) <= 23
