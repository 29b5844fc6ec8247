"""What every learner has done, kept in one SQLite file that is only ever added to.

What a sitting needs is imported at once; what only carries data elsewhere comes when asked for.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from drill.store.checksum import Cell, row_sum
from drill.store.marks import as_json, brief
from drill.store.observations import Observation, PartInfo, observations
from drill.store.rows import (
    AnswerRow,
    AskingRow,
    InForce,
    Learner,
    MemoryRow,
    NewAsking,
    OpenMark,
    SittingRow,
)
from drill.store.store import Store
from drill.store.values import moment, stamp

if TYPE_CHECKING:
    from drill.store.compact import plain_rows
    from drill.store.erase import BACKUP_FOLDER, Erased
    from drill.store.merge import Arrival, Merged, MergeFault
    from drill.store.records import CARRIED, Record
    from drill.store.restore import Restored, restore_copy

__all__ = [
    "BACKUP_FOLDER",
    "CARRIED",
    "AnswerRow",
    "Arrival",
    "AskingRow",
    "Cell",
    "Erased",
    "InForce",
    "Learner",
    "MemoryRow",
    "MergeFault",
    "Merged",
    "NewAsking",
    "Observation",
    "OpenMark",
    "PartInfo",
    "Record",
    "Restored",
    "SittingRow",
    "Store",
    "as_json",
    "brief",
    "moment",
    "observations",
    "plain_rows",
    "restore_copy",
    "row_sum",
    "stamp",
]

_LATER = {
    "BACKUP_FOLDER": "erase",
    "Arrival": "merge",
    "MergeFault": "merge",
    "Merged": "merge",
    "CARRIED": "records",
    "Record": "records",
    "plain_rows": "compact",
    "Restored": "restore",
    "restore_copy": "restore",
    "Erased": "erase",
}


def __getattr__(name: str) -> object:
    """The names a sitting does without, imported on first use."""
    if name not in _LATER:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from importlib import import_module

    return getattr(import_module(f"{__name__}.{_LATER[name]}"), name)
