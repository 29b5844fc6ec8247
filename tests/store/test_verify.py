"""Verify sees any single bit that changes what is stored; SQLite's own check does not."""

from __future__ import annotations

import random
import sqlite3
from collections.abc import Iterator
from pathlib import Path

import pytest

from drill.errors import DrillError
from drill.store import MemoryRow, Store, stamp
from drill.store.tables import TABLES
from tests.store.making import NOW, asked, later, opened, rich_mark, typed

FLIPS = 400


@pytest.fixture(scope="module")
def sound(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy of a store with rows in every table."""
    folder = tmp_path_factory.mktemp("sound")
    with opened(folder) as store:
        asking = asked(store)
        who = store.learners()[0]
        for number in range(8):
            answer = typed(store, asking, f"answer {number}: 66.0 %", part="abcd"[number % 4])
            store.verdict(answer, "engine", "3+ab12", rich_mark(), later(number))
            store.appeal(answer, f"reason {number}", later(number))
        store.set_setting(who, "exam", "2027-05-18", NOW)
        store.give_reading(asking, "burette", "24.35 cm3", NOW)
        store.accept(store.verdict(answer, "teacher", "by hand", rich_mark(), NOW, "well"), NOW)
        store._db.insert("arrival", id=b"a" * 16, file="x", who="[]", keys="{}", **stamp(NOW))
        store.faulty(asking, "no right option", NOW)
        store.keep_passed("ab", NOW)
        begun = next(iter(store.open_sittings(who)), None)
        assert begun is not None
        store.end_sitting(begun.id, NOW, "done")
        store.save_memory(who, MemoryRow("w1", store.seen(), "{}"))
        assert all(store.counts().values())
        store.backup(folder / "copy.sqlite")
    return folder / "copy.sqlite"


@pytest.fixture
def copy(tmp_path: Path, sound: Path) -> Path:
    path = tmp_path / "flipped.sqlite"
    path.write_bytes(sound.read_bytes())
    return path


def content(path: Path) -> list[object]:
    """Every row of every table; whatever cannot be read is an error's name."""
    try:
        database = sqlite3.connect(path)
        found = [database.execute(f'SELECT * FROM "{table}"').fetchall() for table in TABLES]
    except (sqlite3.Error, UnicodeDecodeError) as error:
        return [type(error).__name__]
    database.close()
    return list(found)


def found_wrong(path: Path) -> list[str]:
    """What opening or verifying says."""
    try:
        store = Store.open(path)
    except DrillError as error:
        return [str(error)]
    with store:
        return store.verify()


def flip(path: Path, place: int, bit: int) -> None:
    data = bytearray(path.read_bytes())
    data[place] ^= 1 << bit
    path.write_bytes(data)


def places(sound: Path) -> Iterator[tuple[int, int]]:
    """Bits of the bytes in use and of those next to them, drawn with a fixed seed."""
    data = sound.read_bytes()
    used = [place for place, byte in enumerate(data) if byte]
    chance = random.Random(20270301)
    for _ in range(FLIPS):
        yield (
            min(len(data) - 1, chance.choice(used) + chance.choice((-1, 0, 1))),
            chance.randrange(8),
        )


def test_a_sound_store_has_nothing_wrong(sound: Path) -> None:
    assert found_wrong(sound) == []


def test_any_flipped_bit_is_reported_unless_it_changed_nothing(sound: Path, tmp_path: Path) -> None:
    original, path = content(sound), tmp_path / "flipped.sqlite"
    changed = 0
    for place, bit in places(sound):
        path.write_bytes(sound.read_bytes())
        flip(path, place, bit)
        if content(path) != original:
            changed += 1
            assert found_wrong(path) != [], f"bit {bit} of byte {place} went unseen"
    assert changed > FLIPS / 2


@pytest.mark.parametrize(
    ("within", "table"),
    [
        (b"answer 3: 66.0 %", "answer"),
        (b"Turn it over", "verdict"),
        (b"2027-05-18", "setting"),
        (b"reason 5", "appeal"),
        (b"format = 1", "template_version"),
        (b"no right option", "faulty"),
    ],
)
def test_a_bit_in_a_text_names_its_table_though_sqlite_sees_nothing(
    copy: Path, within: bytes, table: str
) -> None:
    flip(copy, copy.read_bytes().index(within) + 2, 0)
    database = sqlite3.connect(copy)
    assert database.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    database.close()
    (line,) = found_wrong(copy)
    assert line.startswith(f"{table} row ")
    assert line.endswith(": not what was written")


def test_a_row_taken_out_from_under_others_is_reported(copy: Path) -> None:
    database = sqlite3.connect(copy)
    database.execute("DELETE FROM asking")
    database.commit()
    database.close()
    assert "answer row 1: refers to a row of asking that is not there" in found_wrong(copy)


def test_a_row_changed_by_another_program_is_reported(copy: Path) -> None:
    database = sqlite3.connect(copy)
    database.execute("UPDATE verdict SET marks = 3 WHERE key = 2")
    database.commit()
    database.close()
    assert found_wrong(copy) == ["verdict row 2: not what was written"]


def test_a_table_changed_by_another_program_is_reported(copy: Path) -> None:
    database = sqlite3.connect(copy)
    database.execute("ALTER TABLE answer ADD COLUMN more TEXT")
    database.close()
    assert found_wrong(copy) == ["answer: not as this drill makes it (more TEXT may be empty)"]


def test_a_lost_record_of_a_migration_is_reported(copy: Path) -> None:
    database = sqlite3.connect(copy)
    database.execute("DELETE FROM _sqlite_migrations")
    database.commit()
    database.close()
    assert found_wrong(copy) == [
        "migrations: there is no record of m001_learners_sittings_answers",
        "migrations: there is no record of m002_askings_are_found_by_time_and_template",
        "migrations: there is no record of m003_an_order_without_a_clock_in_half_the_room",
    ]


def test_a_backup_is_whole_and_never_half_there(store: Store, tmp_path: Path) -> None:
    asking = asked(store)
    typed(store, asking)
    path = tmp_path / "copy.sqlite"
    store.backup(path)
    with Store.open(path) as copy:
        assert copy.askings(copy.learners()[0]) == store.askings(store.learners()[0])
        assert copy.verify() == []
    assert [found.name for found in tmp_path.glob("copy*") if "-seen" not in found.name] == [
        "copy.sqlite"
    ]
    with pytest.raises(DrillError, match="is there already"):
        store.backup(path)
    with pytest.raises(DrillError, match="it cannot be"):
        store.backup(tmp_path / "nowhere" / "copy.sqlite")
