"""Simulated learners against policies, with references that know more than any policy can."""

from __future__ import annotations

from drill.lab.bounds import Bound, bound, exact
from drill.lab.comparison import BOUND, Row, as_rows, compare
from drill.lab.learner import LEARNERS, Learner, Simulated
from drill.lab.policies import POLICIES
from drill.lab.references import REFERENCES, reference
from drill.lab.scenarios import SCENARIOS, Scenario, scenario
from drill.lab.simulation import Outcome, run

__all__ = [
    "BOUND",
    "LEARNERS",
    "POLICIES",
    "REFERENCES",
    "SCENARIOS",
    "Bound",
    "Learner",
    "Outcome",
    "Row",
    "Scenario",
    "Simulated",
    "as_rows",
    "bound",
    "compare",
    "exact",
    "reference",
    "run",
    "scenario",
]
