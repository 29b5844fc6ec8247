"""From marks to the share of marks to expect from a skill, now and at any later time."""

from __future__ import annotations

from drill.memory.expected_gain import ExpectedGain
from drill.memory.last_answers import MISSED, LastAnswers
from drill.memory.memory import STATE_FORM, Memory
from drill.memory.shipped import SHIPPED, WEIGHTS_ID
from drill.memory.weights import Weights

__all__ = [
    "MISSED",
    "SHIPPED",
    "STATE_FORM",
    "WEIGHTS_ID",
    "ExpectedGain",
    "LastAnswers",
    "Memory",
    "Weights",
]
