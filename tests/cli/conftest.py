"""Data folders and marks sheets that several files of commands begin with."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.common.attacks import fresh, two_learners
from tests.common.desk import drill


@pytest.fixture(scope="module")
def base(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A data folder with two learners, made once."""
    folder = tmp_path_factory.mktemp("base") / "home"
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("DRILL_HOME", str(folder))
        two_learners(folder)
    return folder


@pytest.fixture
def filled(base: Path, home: Path) -> Path:
    fresh(base, home)
    return home


@pytest.fixture
def made(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A marks sheet of a paper of ten marks, with two pupils to fill in."""
    monkeypatch.chdir(tmp_path)
    result = drill("paper", "make", "first-steps", "--marks", "10", "--format", "text")
    assert result.exit_code == 0, result.output
    return tmp_path / "first-steps-1-marks.csv"
