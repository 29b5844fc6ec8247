"""What every learner has done, kept in one SQLite file that is only ever added to."""

from __future__ import annotations

from drill.store.observations import Observation, PartInfo, observations
from drill.store.rows import (
    AnswerRow,
    AskingRow,
    InForce,
    Learner,
    MemoryRow,
    OpenMark,
    SittingRow,
)
from drill.store.store import Store

__all__ = [
    "AnswerRow",
    "AskingRow",
    "InForce",
    "Learner",
    "MemoryRow",
    "Observation",
    "OpenMark",
    "PartInfo",
    "SittingRow",
    "Store",
    "observations",
]
