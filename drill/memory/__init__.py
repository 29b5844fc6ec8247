"""From marks to the share of marks to expect from a skill, now and at any later time."""

from drill.memory.memory import Memory
from drill.memory.shipped import WEIGHTS_ID
from drill.memory.weights import Weights

__all__ = ["WEIGHTS_ID", "Memory", "Weights"]
