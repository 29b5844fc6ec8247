"""From marks to the share of marks to expect from a skill, now and at any later time."""

from __future__ import annotations

from collections.abc import Iterable

from drill.memory.memory import STATE_FORM, Memory
from drill.memory.outlook import Outlook
from drill.memory.shipped import SHIPPED, WEIGHTS_ID
from drill.memory.weights import Weights

__all__ = [
    "SHIPPED",
    "STATE_FORM",
    "WEIGHTS_ID",
    "Memory",
    "Outlook",
    "Weights",
    "calibrate",
]


def calibrate(logs: Iterable[Iterable[tuple[object, ...]]], start: Weights = SHIPPED) -> Weights:
    """Weights fitted to logs of many learners; see `drill.memory.calibration`."""
    from drill.memory.calibration import calibrate as fit

    return fit([list(log) for log in logs], start)
