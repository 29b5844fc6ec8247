"""The weights a learner starts with: by judgement, until fitted ones take their place."""

from __future__ import annotations

from drill.memory.weights import Level, Weights

WEIGHTS_ID = "judged-1"

SHIPPED = Weights(
    base=-0.9,
    skill=Level(wins=0.7, fails=-0.15, shown=0.15, fresh=2.0),
    template=Level(wins=0.3, fails=-0.05, shown=0.1, fresh=1.0),
    onset=600.0,
    decay=0.2,
    after_fail=0.7,
    after_shown=0.5,
    step=0.4,
    settle=0.05,
)
