"""Marks sheets of papers: filled in, entered, and what was stored of them."""

from __future__ import annotations

import csv
from collections.abc import Callable
from pathlib import Path

from drill.app.context import open_store
from tests.common.desk import drill

Rows = list[list[str]]


def rows_of(path: Path) -> Rows:
    return list(csv.reader(path.read_text("utf-8-sig").splitlines()))


def filled(path: Path, *pupils: str, change: Callable[[Rows], None] = lambda rows: None) -> Path:
    """The sheet with full marks for each pupil, then changed; a new file."""
    head, most, blank = rows_of(path)
    rows = [head, most, *([pupil, blank[1], *most[2:-1], ""] for pupil in pupils)]
    change(rows)
    out = path.with_name("filled.csv")
    with out.open("w", newline="") as file:
        csv.writer(file).writerows(rows)
    return out


def enter(path: Path, *options: str) -> tuple[int, str]:
    result = drill("paper", "enter", str(path), *options)
    return result.exit_code, result.output + str(result.exception or "")


def stored() -> int:
    with open_store() as store:
        return sum(len(store.askings(who)) for who in store.learners())


def put(row: int, column: int, value: str) -> Callable[[Rows], None]:
    def change(rows: Rows) -> None:
        rows[row][column] = value

    return change
