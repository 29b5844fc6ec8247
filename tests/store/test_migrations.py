"""How the tables come to be: made once, kept, brought up to date after a copy, never half-way."""

from __future__ import annotations

from pathlib import Path

import pytest
from sqlite_utils import Migrations
from sqlite_utils.db import Database as Tables

from drill.store import Store, database
from drill.store.database import CURRENT, Database, open_database
from drill.store.migrations import (
    MIGRATIONS,
    m001_learners_sittings_answers,
    m002_askings_are_found_by_time_and_template,
    m003_an_order_without_a_clock_in_half_the_room,
    migrate,
)
from drill.store.tables import TABLES, outline, shape
from tests.store.making import asked, opened, typed

GOLDEN = Path(__file__).with_name("tables.txt")


def schema(path: Path) -> str:
    """The tables as text, a paragraph each."""
    found = Database(path)
    parts = [f"{table}\n    " + "\n    ".join(lines) for table, lines in outline(found).items()]
    found.close()
    return "\n".join(parts) + "\n"


def test_the_tables_are_the_ones_agreed_on(tmp_path: Path) -> None:
    opened(tmp_path).close()
    assert schema(tmp_path / "drill.sqlite") == GOLDEN.read_text()


def test_every_table_of_ours_is_strict_checked_and_listed_after_what_it_refers_to(
    tmp_path: Path,
) -> None:
    db = open_database(tmp_path / "drill.sqlite")
    strict = {
        name for name, strict in db.rows("SELECT name, strict FROM pragma_table_list") if strict
    }
    assert strict == set(TABLES)
    for place, table in enumerate(TABLES):
        assert set(shape(db, table).refers.values()) <= set(TABLES[:place])
        assert db.rows(f"SELECT 1 FROM pragma_table_info('{table}') WHERE name = 'sum'")
    db.close()


def test_the_version_counts_the_migrations() -> None:
    fresh = Tables(memory=True)
    assert len(MIGRATIONS.pending(fresh)) == CURRENT


def test_opening_twice_changes_nothing(tmp_path: Path) -> None:
    opened(tmp_path).close()
    before = (tmp_path / "drill.sqlite").read_bytes()
    opened(tmp_path).close()
    assert (tmp_path / "drill.sqlite").read_bytes() == before
    assert [path.name for path in tmp_path.glob("drill.sqlite.*")] == []


def next_version(fails: bool = False) -> Migrations:
    """What a later drill would bring: the same first steps and one more."""
    later = Migrations("drill")
    later()(m001_learners_sittings_answers)
    later()(m002_askings_are_found_by_time_and_template)
    later()(m003_an_order_without_a_clock_in_half_the_room)

    @later()
    def m004_a_place_for_remarks(db: Tables) -> None:
        db.table("answer").add_column("remark", str)
        if fails:
            raise RuntimeError("a mistake in the migration")

    return later


@pytest.fixture
def older(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Database:
    """A database with rows, opened by a drill that has one migration more."""
    with opened(tmp_path) as store:
        typed(store, asked(store), "66.0")
    path = tmp_path / "drill.sqlite"
    monkeypatch.setattr(database, "CURRENT", CURRENT + 1)
    return Database(path)


def copies(older: Database) -> list[Path]:
    return sorted(older.path.parent.glob("drill.sqlite.before-*"))


def test_an_older_database_is_copied_first_and_keeps_its_rows(older: Database) -> None:
    migrate(older, next_version())
    assert older.rows("SELECT text, remark FROM answer") == [("66.0", None)]
    assert older.rows("PRAGMA user_version") == [(CURRENT + 1,)]
    (copy,) = copies(older)
    kept = Database(copy)
    assert kept.rows("SELECT text FROM answer") == [("66.0",)]
    assert kept.rows("PRAGMA user_version") == [(CURRENT,)]


def test_checksums_outlive_an_added_column(
    older: Database, monkeypatch: pytest.MonkeyPatch
) -> None:
    migrate(older, next_version())
    wrong = Store(older).verify()
    assert [line for line in wrong if "not what was written" in line] == []


def test_a_failing_migration_leaves_everything_as_it_was(older: Database) -> None:
    before = schema(older.path)
    with pytest.raises(RuntimeError, match="a mistake in the migration"):
        migrate(older, next_version(fails=True))
    assert schema(older.path) == before
    assert older.rows("PRAGMA user_version") == [(CURRENT,)]
    migrate(older, next_version())
    assert [copy.name for copy in copies(older)] == [
        "drill.sqlite.before-4",
        "drill.sqlite.before-4-2",
    ]


def test_an_older_drill_refuses_what_the_newer_one_made(
    older: Database, monkeypatch: pytest.MonkeyPatch
) -> None:
    migrate(older, next_version())
    monkeypatch.setattr(database, "CURRENT", CURRENT)
    with pytest.raises(database.DrillError, match="written by a newer drill"):
        Store.open(older.path)
