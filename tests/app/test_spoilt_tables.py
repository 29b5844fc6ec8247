"""Tables and readings that came from anywhere, spoilt at random: read, or refused in words."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drill.app.bench_kinds import from_file
from drill.app.classes.class_list import read_list
from drill.app.papers.marks_table import table_in
from drill.errors import DrillError
from tests.common.spoiling import file_bytes

READINGS = 'kind = "crystals"\nbasin = 57.23\ntotal = "60.10 g"\n'
LIST = "code,name\nk01,Ann A\nk02,Bo B\n"
READERS: dict[str, tuple[str, Callable[[Path], Any]]] = {
    "mine.toml": (READINGS, from_file),
    "mine.csv": (READINGS.replace(" = ", ","), from_file),
    "list.csv": (LIST, read_list),
    "marks.csv": (LIST, lambda path: table_in(str(path))),
}


@pytest.mark.parametrize("name", READERS)
@settings(max_examples=15, deadline=None)
@given(data=st.data())
def test_a_spoilt_file_is_read_or_refused_in_words(name: str, data: st.DataObject) -> None:
    sound, read = READERS[name]
    with TemporaryDirectory() as folder:
        path = Path(folder) / name
        path.write_bytes(data.draw(file_bytes(sound)))
        try:
            read(path)
        except DrillError as refused:
            assert str(refused).strip()  # noqa: PT017
