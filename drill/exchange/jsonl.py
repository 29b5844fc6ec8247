"""Learners' own data out to a file of statements, one a line, and in again."""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import TextIO

from drill.exchange.reading import Foreign, told
from drill.exchange.telling import statements
from drill.store import Arrival, Learner, Merged, MergeFault, Record, Store


def export_jsonl(store: Store, learner: Learner, out: TextIO) -> int:
    """Write everything a learner has done as xAPI statements, JSON Lines; returns how many.

    Settings that name a folder stay here: a folder's name can tell whose it is.
    """
    number = 0
    history = (record for record in store.history(learner) if not _names_a_folder(record))
    for statement in statements(learner.code, history):
        out.write(json.dumps(statement, separators=(",", ":")) + "\n")
        number += 1
    return number


def _names_a_folder(record: Record) -> bool:
    value = str(record.values.get("value"))
    return record.table == "setting" and ("/" in value or "\\" in value)


def import_jsonl(store: Store, lines: Iterable[str | bytes], into: Learner | None = None) -> Merged:
    """Put the statements of a file beside what is here, each only once.

    Args:
        lines: a file opened for reading, as text or better as bytes: then a line that is no
            longer UTF-8 spoils only itself.
        into: a learner of this computer to whom it is all credited; None keeps learners apart.

    Returns:
        What was added, what was here before, and each line that is foreign or damaged with its
        number; the others go in all the same.
    """
    arrivals: list[Arrival] = []
    faults: list[MergeFault] = []
    for number, line in enumerate(lines, start=1):
        if not line.strip():
            continue
        try:
            said = told(line)
        except Foreign as error:
            faults.append(MergeFault(number, str(error)))
            continue
        arrivals += [Arrival(number, said.code, record) for record in said.records]
    merged = store.merge(arrivals, into)
    every = tuple(sorted((*faults, *merged.faults), key=lambda fault: fault.line))
    return Merged(merged.added, merged.known, every, merged.renamed)
