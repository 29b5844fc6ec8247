"""Exports learners' data as a file of statements, one per line, and imports it."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from datetime import datetime
from typing import BinaryIO, NamedTuple, TextIO

from drill.exchange.reading import LONGEST_LINE, Foreign, told
from drill.exchange.telling import statements
from drill.frozen import replace
from drill.plaintext import short_lines
from drill.store import Arrival, Learner, Merged, MergeFault, Record, Store

_FAULTS_KEPT = 1000
"""A file that is none of ours may have a million lines."""


class Exported(NamedTuple):
    """How many lines or rows were written, and how many damaged rows were left out."""

    written: int
    damaged: int = 0


def export_jsonl(store: Store, learner: Learner, out: TextIO) -> Exported:
    """Write everything a learner has done as xAPI statements, JSON Lines.

    Settings that name a folder stay here: a folder's name can tell whose it is. A damaged row
    stays as well, with what hangs on it: it must not travel as if it were whole.
    """
    number = 0
    history = store.history(learner)
    records = (record for record in history.records if not _names_a_folder(record))
    for statement in statements(learner.code, records):
        out.write(json.dumps(statement, separators=(",", ":")) + "\n")
        number += 1
    return Exported(number, history.damaged)


def _names_a_folder(record: Record) -> bool:
    value = str(record.values.get("value"))
    return record.table == "setting" and ("/" in value or "\\" in value)


def lines_of(file: BinaryIO) -> Iterator[bytes]:
    """The lines of a file; of one that is too long to be ours only the beginning."""
    return short_lines(file, LONGEST_LINE)


def import_jsonl(
    store: Store,
    lines: Iterable[str | bytes],
    now: datetime,
    into: Learner | None = None,
    file: str = "",
) -> Merged:
    """Put the statements of a file beside what is here, each only once.

    Args:
        lines: a file opened for reading, as text or better as bytes: then a line that is no
            longer UTF-8 spoils only itself.
        into: a learner of this computer to whom it is all credited; None keeps learners apart.
        file: its name, kept to tell one import from another.

    Returns:
        What was added, what was here before, and each line that is foreign or damaged with its
        number; the others go in all the same.
    """
    arrivals: list[Arrival] = []
    faults: list[MergeFault] = []
    foreign = 0
    for number, line in enumerate(lines, start=1):
        if not line.strip():
            continue
        try:
            said = told(line)
        except Foreign as error:
            foreign += 1
            if len(faults) < _FAULTS_KEPT:
                faults.append(MergeFault(number, str(error)))
            continue
        arrivals += [Arrival(number, said.code, record) for record in said.records]
    merged = store.merge(arrivals, now, into, file)
    every = tuple(sorted((*faults, *merged.faults), key=lambda fault: fault.line))
    return replace(merged, faults=every, left_out=foreign + merged.left_out)
