"""From marks to the share of marks to expect from a skill, now and at any later time.

A skill begins with its lesson: the deck's `taught` dates lay down a first trace before the first
answer. A hash of them is part of what a cached memory is checked against, so a changed date
rebuilds it; a skill without a date counts as taught 30 days before its first practice. Weights
are fitted on a wide population of simulated people (`tests/bench/simulate.py`), not on the people
of `tests.lab`: on real answers such weights predict worse (NLL 0.608 against 0.565 on half of a
practice log).

Two models stand side by side. The activation model plans and gives both figures, since it predicts
best what they speak of, questions never asked: on 126 people of the lab it is 7.7, 6.8 and 4.5
points from what is held at 20, 40 and 80 answers, the predictor 13.6, 16.4 and 10.5. The predictor
is better at a template asked before (4,452 answers of a practice log: AUC 0.800 against 0.780). One
model fitted to that log comes level (AUC 0.860, NLL 0.463; the predictor 0.863, 0.457), but its
form planned 0.24 ± 0.17 points worse on eight unused seeds (`tests/bench/README.md`).
"""

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
