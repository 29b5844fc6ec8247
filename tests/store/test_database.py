"""How the file is opened: durable, quick, never taken for what it is not, faults in words."""

from __future__ import annotations

import sqlite3
import statistics
import subprocess
import sys
import time
from pathlib import Path

import pytest

from drill.errors import DrillError
from drill.store import Store
from drill.store.database import CURRENT, Database, open_database
from tests.store.making import NOW, asked, opened, typed


def pragma(database: Database, name: str) -> object:
    return database.rows(f"PRAGMA {name}")[0][0]


def test_every_commit_reaches_the_disk_before_it_returns(tmp_path: Path) -> None:
    for _ in range(2):  # made, then opened
        database = open_database(tmp_path / "drill.sqlite")
        assert pragma(database, "journal_mode") == "wal"
        assert pragma(database, "synchronous") == 2
        assert pragma(database, "foreign_keys") == 1
        assert pragma(database, "busy_timeout") == 10_000
        database.close()


def test_a_backup_put_back_in_place_is_as_durable(tmp_path: Path) -> None:
    with opened(tmp_path) as store:
        store.new_learner("K7", NOW)
        store.backup(tmp_path / "copy.sqlite")
    database = open_database(tmp_path / "copy.sqlite")
    assert pragma(database, "journal_mode") == "wal"
    database.close()


def test_opening_a_current_database_is_quick_and_imports_little(tmp_path: Path) -> None:
    with opened(tmp_path) as store:
        typed(store, asked(store))
    times = []
    for _ in range(9):
        start = time.perf_counter()
        opened(tmp_path).close()
        times.append(time.perf_counter() - start)
    assert statistics.median(times) < 0.008


def test_a_sitting_on_a_current_database_imports_nothing_heavy(tmp_path: Path) -> None:
    with opened(tmp_path) as store:
        store.new_learner("K7", NOW)
    source = (
        "import sys; from pathlib import Path; from drill.store import Store\n"
        "with Store.open(Path(sys.argv[1])) as store: store.setting(store.learners()[0], 'deck')\n"
        "print(sorted({'sqlite_utils', 'uuid_utils', 'sympy', 'numpy', 'rich', 'drill.model',"
        " 'drill.store.migrations'} & sys.modules.keys()))"
    )
    command = [sys.executable, "-c", source, str(tmp_path / "drill.sqlite")]
    done = subprocess.run(command, capture_output=True, text=True, check=True, timeout=60)
    assert done.stdout.strip() == "[]"


def test_a_newer_database_is_refused_in_words_and_left_alone(tmp_path: Path) -> None:
    opened(tmp_path).close()
    path = tmp_path / "drill.sqlite"
    other = sqlite3.connect(path)
    other.execute(f"PRAGMA user_version = {CURRENT + 1}")
    other.close()
    before = path.read_bytes()
    with pytest.raises(DrillError) as error:
        Store.open(path)
    assert str(error.value) == (
        f"{path}: written by a newer drill (its tables are version {CURRENT + 1}, "
        f"this drill knows up to {CURRENT}). Update drill; nothing was changed."
    )
    assert path.read_bytes() == before


def test_somebody_elses_database_is_refused_and_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "photos.sqlite"
    other = sqlite3.connect(path)
    other.execute("CREATE TABLE photo (name TEXT)")
    other.close()
    before = path.read_bytes()
    with pytest.raises(DrillError, match="a database, but not one of drill"):
        Store.open(path)
    assert path.read_bytes() == before


def test_a_file_that_is_no_database_is_refused_in_words(tmp_path: Path) -> None:
    path = tmp_path / "letter.txt"
    path.write_text("Dear reader, " * 100)
    with pytest.raises(DrillError, match="it is not a database of drill, or its beginning is dam"):
        Store.open(path)


def test_a_folder_in_its_place_is_refused_in_words(tmp_path: Path) -> None:
    with pytest.raises(DrillError, match="it cannot be"):
        Store.open(tmp_path)


def test_a_full_disk_is_said_in_words_and_loses_nothing(store: Store) -> None:
    asking = asked(store)
    store._db.rows(f"PRAGMA max_page_count = {store._db.rows('PRAGMA page_count')[0][0]}")
    with pytest.raises(DrillError, match="the disk is full; nothing was lost that was there bef"):
        typed(store, asking, "x" * 300_000)
    assert store.verify() == []


def test_waiting_for_a_program_that_never_lets_go_ends_in_words(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("drill.store.database._PATIENCE", 0.1)
    with (
        opened(tmp_path) as store,
        opened(tmp_path) as other,
        other._db.transaction(),
        pytest.raises(DrillError, match="another program is busy with it"),
    ):
        store.new_learner("K7", NOW)


def test_our_own_mistakes_are_not_dressed_up(store: Store) -> None:
    with pytest.raises(sqlite3.OperationalError, match="no such table"):
        store._db.rows("SELECT * FROM nowhere")


def test_a_transaction_is_all_or_nothing(store: Store) -> None:
    def broken() -> None:
        with store._db.transaction():
            store.keep_passed("ab", NOW)
            raise RuntimeError("half-way")

    with pytest.raises(RuntimeError, match="half-way"):
        broken()
    assert not store.passed("ab")
    store.new_learner("K7", NOW)
