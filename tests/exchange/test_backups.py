"""Safe copies: dated, whole, and found again when somebody is erased."""

from __future__ import annotations

from pathlib import Path

import pytest

from drill.errors import DrillError
from drill.exchange import backup
from drill.store import Store, verify
from tests.exchange.making import history, practised
from tests.store.making import NOW, later


def test_a_backup_is_named_after_its_time_and_holds_everything(here: Store, tmp_path: Path) -> None:
    who = practised(here, "K7", 1)
    path = backup(here, tmp_path / "safe" / "copies", NOW)
    assert path == tmp_path / "safe" / "copies" / "drill-2027-03-01-170000.sqlite"
    with Store.open(path) as copy:
        assert history(copy, who) == history(here, who)


def test_two_backups_in_one_second_do_not_overwrite(here: Store, tmp_path: Path) -> None:
    backup(here, tmp_path, NOW)
    with pytest.raises(DrillError, match="is there already"):
        backup(here, tmp_path, NOW)


def test_erasing_names_every_backup_wherever_it_was_put(here: Store, tmp_path: Path) -> None:
    before = backup(here, tmp_path / "stick", NOW)
    who = practised(here, "K7", 1)
    first = backup(here, tmp_path / "stick", later(1))
    second = backup(here, here.path.parent / "backups", later(2))
    third = backup(here, tmp_path / "other", later(3))
    found = here.erase(who)
    assert set(found.copies) == {first, second, third}
    assert before not in found.copies


def test_a_folder_that_cannot_be_made_is_said_in_words(here: Store, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    with pytest.raises(DrillError, match="cannot be made"):
        backup(here, tmp_path / "file" / "folder", NOW)


def test_a_copy_that_did_not_come_out_whole_is_not_trusted(
    here: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(verify, "verify_copy", lambda path: ["structure: a page is missing"])
    with pytest.raises(DrillError, match="did not come out whole"):
        backup(here, tmp_path / "stick", NOW)
    assert here.setting(None, "backup folder") is None
    (kept,) = (tmp_path / "stick").iterdir()
    assert kept.name.endswith(".sqlite.damaged")
