"""The weights a learner starts with, as tests/bench/fit_weights.py wrote them.

Do not edit: run it again. Fitted on 133607 rows of 50 simulated learners of each of six
families (seed 20261), person spread 0.7 and skill spread 1.0 logits, with guessing, slips,
imperfect transfer, missed days and six habits of practice over 8 to 110 days; exam-day rows weigh
as much as practice. No log of any person went into them.
"""

from __future__ import annotations

from drill.memory.weights import Level, Mechanism, Shape, Spread, Weights

WEIGHTS_ID = "f088ba6f3be9"
"""Names these numbers, so that a kept state is known to fit them; a hash of their text."""

SHIPPED = Weights(
    base=-2.047,
    skill=Level(practice=0.0, wins=0.3393, shown=0.03522, fresh=2.373),
    template=Level(practice=0.0, wins=0.0, shown=0.09716, fresh=0.4311),
    shape=Shape(onset=5400.0, decay=0.2, wrong=1.0, shown=0.9783),
    spread=Spread(person=2.56, skill=1.28, template=0.15, drift=0.001),
    mechanism=Mechanism(
        onset=10.0,
        steep=0.25,
        least=0.03333,
        taught=0.1633,
        base=-0.04119,
        gain=1.307,
        wrong=0.9,
        shown=0.875,
    ),
)
