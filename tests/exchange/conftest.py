"""Two fresh stores: one computer, and another."""

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


def computer(folder: Path, empty: Path) -> Store:
    folder.mkdir()
    shutil.copy(empty, folder / "drill.sqlite")
    return in_haste(opened(folder))


@pytest.fixture
def here(tmp_path: Path, empty: Path) -> Iterator[Store]:
    with computer(tmp_path / "here", empty) as store:
        yield store


@pytest.fixture
def there(tmp_path: Path, empty: Path) -> Iterator[Store]:
    with computer(tmp_path / "there", empty) as store:
        yield store
