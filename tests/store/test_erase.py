"""Erasing a learner leaves nothing of them on the disk, and all of the others."""

from __future__ import annotations

from pathlib import Path

import pytest

from drill.store import Erased, Learner, MemoryRow, Store
from tests.store.making import NOW, asked, later, mark, opened, typed

SECRET = "a sentence nobody else would type"


def practised(store: Store, code: str, text: str) -> Learner:
    asking = asked(store, code)
    who = next(one for one in store.learners() if one.code == code)
    answer = typed(store, asking, text)
    store.verdict(answer, "engine", "3", mark(0), later(20))
    store.appeal(answer, f"{text}, once more", later(21))
    store.faulty(asking, f"{text}, and a note", later(22))
    store.set_setting(who, "exam", f"{text} (setting)", NOW)
    store.set_setting(None, "last learner", code, NOW)
    store.save_memory(who, MemoryRow("w", store.seen(), f'"{text}"'))
    return who


def on_disk(folder: Path, wanted: bytes) -> list[str]:
    """Names of the files in a folder that hold these bytes."""
    return sorted(path.name for path in folder.iterdir() if wanted in path.read_bytes())


def test_erasing_leaves_no_trace_in_file_or_log(tmp_path: Path) -> None:
    folder = tmp_path / "data"
    with opened(folder) as store:
        gone, stays = practised(store, "GONE-123", SECRET), practised(store, "Q9", "zinc oxide")
        begun = next(iter(store.open_sittings(gone)), None)
        assert begun is not None
        store.end_sitting(begun.id, NOW, "done")
        assert on_disk(folder, SECRET.encode()) != []
        before = store.askings(stays)
        assert store.erase(gone) == Erased((), ())
        for trace in (SECRET.encode(), b"GONE-123", gone.id):
            assert on_disk(folder, trace) == []
        assert store.askings(stays) == before
        assert store.learners() == (stays,)
        assert store.setting(None, "last learner") == "Q9"
        assert store.verify() == []
    assert on_disk(folder, SECRET.encode()) == []


def test_erasing_the_last_learner_leaves_no_rows_of_learners(store: Store) -> None:
    who = practised(store, "K7", "x")
    store.erase(who)
    left = {table for table, rows in store.counts().items() if rows}
    assert left == {"machine", "word", "deck", "template_version"}


def test_backups_that_hold_the_learner_are_listed(tmp_path: Path) -> None:
    folder = tmp_path / "data"
    with opened(folder) as store:
        stays = practised(store, "Q9", "zinc oxide")
        (folder / "backups").mkdir()
        store.backup(folder / "backups" / "drill-earlier.sqlite")
        gone = practised(store, "K7", SECRET)
        kept = folder / "backups" / "drill-later.sqlite"
        store.backup(kept)
        beside = folder / "drill.sqlite.before-2"
        store.backup(beside)
        assert store.erase(gone) == Erased((), tuple(sorted((kept, beside))))
        assert store.learners() == (stays,)


def test_a_reader_that_does_not_let_go_is_named_and_scrubbing_again_finishes(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("drill.store.database._PATIENCE", 0.1)
    folder = tmp_path / "data"
    with opened(folder) as store, opened(folder) as other:
        gone = practised(store, "K7", SECRET)
        reading = other._db.connection.execute("SELECT * FROM answer")
        other._db.connection.execute("BEGIN")
        other._db.rows("SELECT * FROM answer")
        (left,) = store.erase(gone).left
        assert left.endswith("-wal still holds what was deleted, as another program reads it.")
        assert store.learners() == ()
        reading.close()
        other._db.connection.execute("COMMIT")
        assert store.scrub() == ()
        assert on_disk(folder, SECRET.encode()) == []
