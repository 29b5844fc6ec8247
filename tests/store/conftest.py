"""A fresh store for each test that asks for one, copied from one that was made once."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from drill.store import Store
from tests.store.making import in_haste, opened


@pytest.fixture(scope="session")
def empty(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("empty")
    opened(folder).close()
    return folder / "drill.sqlite"


@pytest.fixture
def store(tmp_path: Path, empty: Path) -> Iterator[Store]:
    shutil.copy(empty, tmp_path / "drill.sqlite")
    with opened(tmp_path) as fresh:
        yield in_haste(fresh)
