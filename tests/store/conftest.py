"""A fresh store for each test that asks for one."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from drill.store import Store
from tests.store.making import opened


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    with opened(tmp_path) as fresh:
        yield fresh
