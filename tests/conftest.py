"""No test may touch the real data folder: one fixture for all, and a test that proves it."""

from __future__ import annotations

import gc
import os
import shutil
import sys
from pathlib import Path
from typing import Any

import pytest

# Sixty tests start programs of their own; each start takes twice as long without compiled modules.
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
sys.dont_write_bytecode = False
# The bank stays in memory: the collector need not look through it again and again.
gc.set_threshold(100_000, 50, 50)


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config: pytest.Config, log: Any) -> Any:
    """Each process takes whole stretches of the tests: what a module makes once is made once."""
    if config.getvalue("dist") != "load":
        return None
    from xdist.scheduler import WorkStealingScheduling

    return WorkStealingScheduling(config, log)


def pytest_configure() -> None:
    from tests.common.shipped import read_once

    read_once()


@pytest.fixture(scope="session")
def bank_index() -> Path:
    """An index of the shipped bank, made once: reading every question takes over a second."""
    from tests.common.shipped import index, shipped_bank

    shipped_bank()
    return index()


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A data folder of the test's own; screens of 80 columns without colour."""
    folder = tmp_path / "drill-home"
    monkeypatch.setenv("DRILL_HOME", str(folder))
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.setenv("NO_COLOR", "1")
    return folder


@pytest.fixture
def indexed(home: Path, bank_index: Path) -> Path:
    """The data folder with the index in it, for programs in processes of their own."""
    home.mkdir()
    shutil.copy(bank_index, home)
    return home


@pytest.fixture(autouse=True)
def known_bank(bank_index: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A data folder without an index takes the bank opened once, or its index with own questions.

    Every other check stays as it is.
    """
    from drill.bank import Bank, index
    from drill.places import bank_dir
    from tests.common.shipped import shipped_bank

    load, opened, shipped = index.load, Bank.open, bank_dir()

    def or_made_once(cache: Path, *about: Any) -> Any:
        return load(cache if cache.exists() else bank_index, *about)

    def or_opened_once(folder: Path, cache: Path | None = None, own: Any = ()) -> Bank:
        if folder != shipped or own or cache is None or cache.exists():
            return opened(folder, cache, own)
        return shipped_bank()

    monkeypatch.setattr(index, "load", or_made_once)
    monkeypatch.setattr(Bank, "open", staticmethod(or_opened_once))
