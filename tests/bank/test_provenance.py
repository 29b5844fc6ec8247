"""Every fact of the bank says how it was come by, in one file, and names no source from memory."""

from __future__ import annotations

import csv
from collections.abc import Iterator

import pytest

from drill.places import bank_dir

BANK = bank_dir()
HOWS = {"read", "common practice", "from memory"}


def told() -> Iterator[dict[str, str]]:
    with (BANK / "provenance.csv").open(encoding="utf-8", newline="") as file:
        yield from csv.DictReader(file)


def rows_of(table: str) -> list[dict[str, str]]:
    with (BANK / "facts" / f"{table}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


TABLES = sorted(path.stem for path in (BANK / "facts").glob("*.csv"))


@pytest.mark.parametrize("table", TABLES)
def test_every_row_is_accounted_for(table: str) -> None:
    named = {row for one in told() if one["table"] == table for row in one["rows"].split()}
    ids = {row["id"] for row in rows_of(table)}
    assert named - {"*"} <= ids
    assert "*" in named or ids <= named


@pytest.mark.parametrize("table", TABLES)
def test_no_source_is_cited_from_memory(table: str) -> None:
    for row in rows_of(table):
        assert row["source"].strip()
        assert "memory" not in row["source"].casefold(), row["id"]
        assert "recalled" not in row["source"].casefold(), row["id"]


def test_how_is_one_of_three_words() -> None:
    for one in told():
        assert one["how"] in HOWS, one
        assert one["table"] in TABLES, one
