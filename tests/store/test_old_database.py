"""A database and an export that version 2 of the tables left behind: opened, and nothing lost."""

from __future__ import annotations

import gzip
import json
from pathlib import Path
from typing import Any

import pytest

from drill.bank import is_version
from drill.exchange import import_jsonl
from drill.store import AnswerRow, Store
from tests.store.making import NOW

FOLDER = Path(__file__).with_name("version2")
EXPECTED = json.loads((FOLDER / "expected.json").read_text("utf-8"))


@pytest.fixture
def old(tmp_path: Path) -> Path:
    path = tmp_path / "drill.db"
    path.write_bytes(gzip.decompress((FOLDER / "drill.db.gz").read_bytes()))
    return path


def told(store: Store) -> list[Any]:
    """What the first learner has done, in the shape of `expected.json`."""
    rows = store.askings(store.learners()[0])
    return [
        [
            row.id.hex(), row.template, row.version, row.seed, row.skill, row.shown,
            row.when.isoformat(), row.faulty, [_answer(answer) for answer in row.answers],
        ]
        for row in rows
    ]  # fmt: skip


def _answer(row: AnswerRow) -> list[Any]:
    told: list[Any] = [row.id.hex(), row.part, row.text, row.kind, row.sure, row.seconds]
    told += [row.when.isoformat(), row.appeal]
    if row.verdict is None:
        return [*told, None]
    mark = row.verdict.mark
    points = [[one.id, one.marks, one.of, one.because, one.unsure] for one in mark.points]
    given = [row.verdict.by, row.verdict.marker, mark.marks, mark.of, mark.says, points]
    given += [mark.slip, mark.readable, str(mark.value), list(row.verdict.decided)]
    return [*told, given]


def test_it_is_brought_up_to_date_beside_a_copy_and_loses_nothing(old: Path) -> None:
    before = old.read_bytes()
    with Store.open(old) as store:
        assert told(store) == EXPECTED["askings"]
        assert [one.code for one in store.learners()] == EXPECTED["learners"]
        who = store.learners()[0]
        assert store.setting(who, "minutes") == EXPECTED["minutes"]
        assert store.setting(who, "exam") == EXPECTED["exam"]
        counts = store.counts()
        kept = {name: n for name, n in EXPECTED["counts"].items() if name != "memory_state"}
        assert {name: counts[name] for name in kept} == kept
        assert store.verify() == []
        texts = store._db.rows('SELECT "hash", "text", "rows", "slips" FROM "template_version"')
        assert all(is_version(h, t, json.loads(r), json.loads(s)) for h, t, r, s in texts)
    (copy,) = old.parent.glob("drill.db.before-*")
    assert copy.stat().st_size == len(before)
    assert copy.stat().st_mode & 0o077 == 0


def test_a_damaged_row_is_still_damaged_afterwards(old: Path) -> None:
    text = EXPECTED["askings"][0][-1][0][2].encode()
    raw = old.read_bytes()
    assert raw.count(text) >= 1
    place = raw.index(text)
    old.write_bytes(raw[:place] + bytes([raw[place] ^ 1]) + raw[place + 1 :])
    with Store.open(old) as store:
        assert any("not what was written" in line for line in store.verify())


def test_its_export_comes_in_and_what_is_here_already_is_known(old: Path, tmp_path: Path) -> None:
    lines = gzip.decompress((FOLDER / "blue-12.jsonl.gz").read_bytes()).splitlines()
    with Store.open(tmp_path / "other.db") as other:
        merged = import_jsonl(other, lines, NOW)
        assert merged.faults == ()
        assert merged.offered == 1
        for asking in other.askings(other.learners()[0]):
            for answer in asking.answers:
                if answer.offered:
                    other.accept(answer.offered.id, NOW)
        assert told(other) == EXPECTED["askings"]
    with Store.open(old) as store:
        again = import_jsonl(store, lines, NOW)
        assert (again.added, again.faults) == (0, ())
        assert told(store) == EXPECTED["askings"]
