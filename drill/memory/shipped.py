"""The weights a learner starts with, as tests/bench/fit_weights.py wrote them.

Do not edit: run it again. Fitted on 133607 rows of 50 simulated learners of each of six
families (seed 20261), person spread 0.7 and skill spread 1.0 logits, with guessing, carelessness,
imperfect transfer, missed days and six habits of practice over 8 to 110 days; exam-day rows weigh
as much as practice. The activation model is fitted to people of `tests.lab`, 30 of
each family (seed 70000), whose lessons it is told. No log of any person went into them.
"""

from __future__ import annotations

from drill.memory.weights import Level, Mechanism, Shape, Spread, Ways, Weights

WEIGHTS_ID = "027ca56c91ae"
"""Names these numbers, so that a kept state is known to fit them; a hash of their text."""

SHIPPED = Weights(
    base=-2.047,
    skill=Level(practice=0.0, wins=0.3393, shown=0.03522, fresh=2.373),
    template=Level(practice=0.0, wins=0.0, shown=0.09716, fresh=0.4311),
    shape=Shape(onset=5400.0, decay=0.2, wrong=1.0, shown=0.9783),
    spread=Spread(person=2.56, skill=1.28, template=0.15, drift=0.001),
    mechanism=Mechanism(
        onset=10090.0,
        steep=0.45,
        least=0.2115,
        firm=0.2812,
        floor=0.03536,
        wrong=0.8896,
        shown=0.8896,
        base=-2.146,
        gain=5.701,
        wins=0.05,
        guess=0.05,
        careless=0.05,
    ),
    ways=Ways(able=1.581, gain=4.633, wins=0.5, fails=0.5, rest=0.5, skill=0.7906),
)
