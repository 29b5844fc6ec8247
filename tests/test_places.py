"""The data folder is the one DRILL_HOME names, and only its owner may look into it."""

from __future__ import annotations

import stat
from pathlib import Path

from drill.places import bank_dir, data_dir, demo_decks_dir


def test_tests_never_use_the_real_data_folder(home: Path) -> None:
    assert data_dir() == home
    assert Path.home() not in home.parents or "pytest" in str(home)


def test_data_folder_is_for_its_owner_only() -> None:
    assert stat.S_IMODE(data_dir().stat().st_mode) == 0o700


def test_bank_and_demo_decks_are_found() -> None:
    assert (bank_dir() / "skills.toml").is_file()
    assert (demo_decks_dir() / "first-steps.toml").is_file()
