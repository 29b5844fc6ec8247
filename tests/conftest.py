"""No test may touch the real data folder: one fixture for all, and a test that proves it."""

from __future__ import annotations

from pathlib import Path

import pytest


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A data folder of the test's own; screens of 80 columns without colour."""
    folder = tmp_path / "drill-home"
    monkeypatch.setenv("DRILL_HOME", str(folder))
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.setenv("NO_COLOR", "1")
    return folder
