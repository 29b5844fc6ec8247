"""Simulated learners, policies of practice, bounds, and the fitting of memory's weights.

Nobody who practises runs any of this, so it stands beside the tests and outside the wheel.
"""

from __future__ import annotations

from tests.lab.bounds import Bound, bound, exact
from tests.lab.calibration import calibrate
from tests.lab.comparison import BOUND, Row, as_rows, compare
from tests.lab.learner import LEARNERS, Learner, Simulated
from tests.lab.policies import POLICIES
from tests.lab.references import REFERENCES, reference
from tests.lab.scenarios import SCENARIOS, Scenario, scenario
from tests.lab.simulation import Outcome, run

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
    "calibrate",
    "compare",
    "exact",
    "reference",
    "run",
    "scenario",
]
