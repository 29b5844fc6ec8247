"""Simulated learners against policies, with references that know more than any policy can."""

from __future__ import annotations

from drill.lab.learner import LEARNERS, Learner, Simulated
from drill.lab.policies import POLICIES
from drill.lab.scenario import SCENARIOS, Scenario
from drill.lab.simulation import Outcome, run

__all__ = [
    "LEARNERS",
    "POLICIES",
    "SCENARIOS",
    "Learner",
    "Outcome",
    "Scenario",
    "Simulated",
    "run",
]
