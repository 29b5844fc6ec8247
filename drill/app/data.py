"""The learner's own data: out, in again, copied, checked, removed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, TextIO

from drill.errors import DrillError
from drill.places import data_dir
from drill.plaintext import one_line

if TYPE_CHECKING:
    from drill.store import Learner, Store

FORMATS = ("xapi", "csv")


def export_data(store: Store, who: Learner, format: str, out: TextIO) -> int:
    """Write all that a learner has answered; returns how many rows. `format` is of `FORMATS`."""
    from drill.exchange import export_csv, export_jsonl

    return (export_csv if format == "csv" else export_jsonl)(store, who, out)


@dataclass(frozen=True)
class DamagedLine:
    """A line of an imported file that could not be taken in, and why."""

    line: int
    says: str


@dataclass(frozen=True)
class Imported:
    """What an import brought: rows added, rows that were here before, lines left out."""

    added: int
    known: int
    faults: tuple[DamagedLine, ...]


def import_data(store: Store, file: str, into: Learner | None) -> Imported:
    """Put exported answers beside what is here, each only once.

    Args:
        into: the learner of this computer to whom all is credited; None keeps learners apart.

    Raises:
        DrillError: there is no such file.
    """
    from drill.exchange import import_jsonl

    path = Path(file)
    if not path.is_file():
        raise DrillError(f'there is no file "{file}".')
    with path.open("rb") as lines:
        merged = import_jsonl(store, lines, into)
    faults = (DamagedLine(fault.line, one_line(fault.message)) for fault in merged.faults)
    return Imported(merged.added, merged.known, tuple(faults))


def backup_data(store: Store, to: str, now: datetime) -> Path:
    """Make a safe copy in a folder, or (with "") in the data folder's; returns the copy.

    Raises:
        DrillError: the folder cannot be written to, or the copy did not come out whole.
    """
    from drill.exchange import backup

    return backup(store, Path(to) if to else data_dir() / "backups", now)


@dataclass(frozen=True)
class Verified:
    """What is wrong with the store's file, in words; and how many rows each table has."""

    faults: tuple[str, ...]
    rows: Mapping[str, int]


def verify_data(store: Store) -> Verified:
    """Hold every row against its checksum, and look over the database itself."""
    return Verified(tuple(store.verify()), store.counts())


def erase_data(store: Store, who: Learner) -> tuple[Path, ...]:
    """Remove everything of a learner for good; returns the copies that still hold it."""
    from drill.sitting import forget_settled

    forget_settled(store, who)
    return store.erase(who)
