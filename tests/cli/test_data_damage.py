"""Copies, restored stores, damage and erasure: every end is a sentence."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path
from random import Random

import pytest

from drill.store import Store
from tests.common.attacks import (
    START,
    attack_by_flip,
    attack_by_store,
    damaged_stores,
    fresh,
)
from tests.common.data_home import answer, learner, opened, sit_down
from tests.common.ends import ends


def test_a_copy_is_restored_beside_a_leftover_log(filled: Path) -> None:
    assert ends("data", "backup", "--at", "2027-03-01T17:00").code == 0
    (copy,) = (filled / "backups").iterdir()
    with opened(filled) as store:
        sitting = sit_down(store, learner(store), START + timedelta(days=1))
        answer(sitting, START + timedelta(days=1))
        assert ends("data", "restore", str(copy)).code == 1  # it is open in another window
        left = {path.name: path.read_bytes() for path in filled.glob("drill.db*")}
    for name, content in left.items():  # as after a crash: the log stays behind
        (filled / name).write_bytes(content)
    end = ends("data", "restore", str(copy), "--at", "2027-03-02T17:00")
    assert end.code == 0, end
    assert "K7: " in end.out
    assert ends("data", "verify").code == 0
    (kept,) = (filled / "backups").glob("drill-before-restore-*.sqlite")
    with Store.open(kept) as old, opened(filled) as new:
        assert len(old.askings(learner(old))) > len(new.askings(learner(new)))


@pytest.mark.parametrize("spoil", ["cut", "newer", "noise"])
def test_a_copy_that_cannot_be_used_changes_nothing(filled: Path, spoil: str) -> None:
    copy = filled / "copy.sqlite"
    sound = (filled / "drill.db").read_bytes()
    flaws = {
        "cut": sound[:9000],
        "newer": sound[:60] + b"\0\0\0\x63" + sound[64:],
        "noise": b"Dear reader, " * 900,
    }
    copy.write_bytes(flaws[spoil])
    end = ends("data", "restore", str(copy))
    assert end.code == 1
    assert len(end.lines) == 1
    assert (filled / "drill.db").read_bytes() == sound
    assert not list(filled.glob("drill.db-restoring*"))


@pytest.mark.parametrize("size", [0, 1])
def test_an_emptied_store_is_told_and_not_begun_afresh(filled: Path, size: int) -> None:
    (filled / "drill.db").write_bytes(b"x" * size)
    for command in (("data", "verify"), ("sit", "--learner", "K7")):
        end = ends(*command, typed=["stop"])
        assert end.code == 1
        assert "is empty, though" in end.err


def test_a_lost_log_is_noticed(filled: Path) -> None:
    with opened(filled) as store:
        answer(sit_down(store, learner(store), START + timedelta(days=1)), START)
        before = (filled / "drill.db").read_bytes()
        for log in filled.glob("drill.db-*"):
            log.unlink()
        copy = filled.parent / "cut.db"
        copy.write_bytes(before)
    (filled / "drill.db").write_bytes(copy.read_bytes())
    end = ends("data", "verify")
    assert end.code == 1
    assert "rows were missing that had been stored" in end.out
    assert ends("data", "accept-loss", "--by", "K7").code == 2
    assert ends("data", "accept-loss", "--by", "tutor", "--at", "2027-03-03").code == 0
    end = ends("data", "verify")
    assert (end.code, end.out.count("the tutor accepted that on 2027-03-03")) == (0, 1)
    assert ends("data", "accept-loss", "--by", "tutor").code == 1


def test_damage_is_never_exported_as_whole(filled: Path) -> None:
    raw, wanted = (filled / "drill.db").read_bytes(), b"12.5 g"
    assert wanted in raw
    (filled / "drill.db").write_bytes(raw.replace(wanted, b"12.6 g", 1))
    end = ends("data", "export", "--learner", "K7")
    other = ends("data", "export", "--learner", "Q9")
    assert {end.code, other.code} == {0, 1}
    assert "damaged row" in end.err + other.err
    assert "12.6 g" not in end.out + other.out


@pytest.mark.parametrize("seed", range(1))
def test_a_flipped_bit_is_noticed_and_ends_in_no_fault(filled: Path, seed: int) -> None:
    chance = Random(seed)
    size = (filled / "drill.db").stat().st_size
    assert attack_by_flip(filled, chance.randrange(size), chance.randrange(8)) == []


def test_damaged_and_foreign_stores_are_sentences(base: Path, home: Path) -> None:
    sound = (base / "drill.db").read_bytes()
    for what, put in Random(4).sample(damaged_stores(sound, Random(3)), 2):
        fresh(base, home)
        filled = home
        assert (what, attack_by_store(filled, put)) == (what, [])


def test_an_erasure_with_a_reader_says_what_is_left(filled: Path) -> None:
    with opened(filled) as other:
        other._db.connection.execute("BEGIN")
        other._db.rows("SELECT * FROM answer")
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr("drill.store.database._PATIENCE", 0.1)
            end = ends("data", "erase", "K7", "--yes")
        assert end.code == 1
        assert "Everything of K7 is gone" in end.out
        assert "still holds what was deleted" in end.out
    assert "Nothing is left" in ends("data", "erase", "--leftovers").out


def test_an_erasure_names_the_copies(filled: Path) -> None:
    assert ends("data", "backup", str(filled.parent / "stick")).code == 0
    end = ends("data", "erase", "K7", "--yes")
    assert end.code == 0
    assert "A copy still holds it: " in end.out
