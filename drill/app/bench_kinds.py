"""Which bench readings can be worked up, as the bank's results.toml defines."""

from __future__ import annotations

import csv
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from drill.errors import DrillError
from drill.places import reason
from drill.plaintext import one_line

if TYPE_CHECKING:
    from drill.bank import Bank

_LARGEST = 100_000
"""Bytes of a file with readings."""


@dataclass(frozen=True)
class Reading:
    """One thing that is read or weighed; `rows` names the facts it is a row of, or is ""."""

    id: str
    says: str
    unit: str = ""
    least: float = 0.0
    most: float = 0.0
    rows: str = ""
    shows: str = ""


@dataclass(frozen=True)
class Step:
    """A further step that is shown: its name, its expression, its unit, and its decimal places.

    `says` may name readings, as {basin}; without decimals it has three figures.
    """

    says: str
    is_: str
    unit: str
    decimals: int | None = None


@dataclass(frozen=True)
class BenchKind:
    """Readings that belong together, and the question whose numbers they fill.

    `fill`: {name in the question: expression of the readings}; `believable`: (what must hold, what
    is said where it does not).
    """

    id: str
    title: str
    template: str
    readings: tuple[Reading, ...]
    fill: Mapping[str, str]
    also: tuple[Step, ...]
    believable: tuple[tuple[str, str], ...]


def bench_kinds(bank: Bank) -> dict[str, BenchKind]:
    """Every kind, by its name.

    Raises:
        DrillError: the bank has no such file, or one that cannot be read.
    """
    path = bank.folder / "results.toml"
    try:
        raw = tomllib.loads(path.read_text(encoding="utf-8"))
    except (OSError, ValueError) as error:
        raise DrillError(f"{path} cannot be read: {error}") from None
    return {name: _kind(name, one) for name, one in raw.items()}


def _kind(name: str, raw: Mapping[str, Any]) -> BenchKind:
    return BenchKind(
        id=name,
        title=raw["title"],
        template=raw["template"],
        readings=tuple(_reading(one, how) for one, how in raw["reading"].items()),
        fill=raw.get("fill", {}),
        also=tuple(map(_step, raw.get("also", ()))),
        believable=tuple((one["is"], one["says"]) for one in raw["believable"]),
    )


def _step(raw: Mapping[str, Any]) -> Step:
    return Step(raw["says"], raw["is"], raw["unit"], raw.get("decimals"))


def _reading(name: str, raw: Mapping[str, Any]) -> Reading:
    return Reading(
        name,
        raw["says"],
        raw.get("unit", ""),
        raw.get("from", 0.0),
        raw.get("to", 0.0),
        raw.get("rows", ""),
        raw.get("shows", ""),
    )


def from_file(path: Path) -> tuple[str, dict[str, str]]:
    """The kind a file names ("" when it names none), and its readings by their names.

    A TOML file has a line each, as `basin = 57.23`; a CSV file a name and a value on each row.

    Raises:
        DrillError: the file cannot be read, or is neither.
    """
    try:
        if path.stat().st_size > _LARGEST:
            raise DrillError(f"{path} is too large for readings.")
        text = path.read_text(encoding="utf-8-sig")
    except (OSError, UnicodeError) as error:
        why = reason(error) if isinstance(error, OSError) else "it is not text"
        raise DrillError(f"{one_line(str(path))} cannot be read: {why}.") from None
    found = _toml(path, text) if path.suffix.casefold() == ".toml" else _rows(text)
    return found.pop("kind", ""), found


def _toml(path: Path, text: str) -> dict[str, str]:
    from drill.bank.files.toml_lines import BadToml, read_toml

    try:
        raw, _ = read_toml(text)
    except BadToml as bad:
        says = f"line {bad.line}: {one_line(bad.message)}."
        raise DrillError(f"{one_line(str(path))}: {says}") from None
    return {name: str(value) for name, value in raw.items()}


def _rows(text: str) -> dict[str, str]:
    rows = csv.reader(text.splitlines())
    return {row[0].strip(): row[1].strip() for row in rows if len(row) >= 2 and row[0].strip()}
