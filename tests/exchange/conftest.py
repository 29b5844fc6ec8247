"""Two fresh stores: one computer, and another."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from drill.store import Store


@pytest.fixture
def here(tmp_path: Path) -> Iterator[Store]:
    with Store.open(tmp_path / "here" / "drill.sqlite") as store:
        yield store


@pytest.fixture
def there(tmp_path: Path) -> Iterator[Store]:
    with Store.open(tmp_path / "there" / "drill.sqlite") as store:
        yield store
