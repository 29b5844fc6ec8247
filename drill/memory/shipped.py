"""The weights a learner starts with: by judgement, until fitted ones take their place."""

from __future__ import annotations

from drill.memory.weights import Level, Mechanism, Shape, Spread, Weights

WEIGHTS_ID = "judged-2"

SHIPPED = Weights(
    base=-1.0,
    skill=Level(practice=0.2, wins=0.3, shown=0.15, fresh=1.5),
    template=Level(practice=0.1, wins=0.2, shown=0.1, fresh=1.5),
    shape=Shape(onset=600.0, decay=0.2, wrong=0.9, shown=0.7),
    spread=Spread(person=1.0, skill=0.5, template=0.3, drift=0.001),
    mechanism=Mechanism(
        onset=60.0, steep=0.25, least=0.05, taught=0.2, base=0.8, gain=1.5, wrong=0.9, shown=0.7
    ),
)
