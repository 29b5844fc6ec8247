"""How what was expected of one learner turned out: two corrections that only forecasts use.

The predictor's weights say how much an asking leaves behind in a learner of the middle, and its
beliefs follow how able this one is, not how well practice works on this one. Here that is held
against the answers: one running correction of the logit for skills asked for the first time, one
for skills practised before, each a normal belief that every answer moves and makes surer. What a
question is chosen by does not read them; a forecast does, its range as wide as they are unsure.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import log
from typing import Any, NamedTuple

from drill.memory.belief import evidence


class Correction(NamedTuple):
    """Mean and variance of what to add to a logit."""

    mean: float
    variance: float


FIRST, AGAIN = Correction(0.0, 0.8), Correction(0.7, 1.6)
"""Before any answer; variances in logits squared. Set on simulated people of the seeds that
tests/bench/ranges.py leaves for fitting: one asking brings most of them more than those whose logs
the shipped weights were fitted on, and half of that is taken as usual."""
_COUNTS = 0.5
"""An answer counts as half of one: answers to one skill hang together."""
_DRIFT = 0.004
"""The share of the variance that comes back with each answer, so that a change is followed."""


class Hindsight:
    """The two corrections of one learner."""

    def __init__(self, first: Correction = FIRST, again: Correction = AGAIN) -> None:
        self.first, self.again = first, again

    def of(self, practised: bool) -> Correction:
        """The correction for a skill practised before, or for one never asked or shown."""
        return self.again if practised else self.first

    def learn(self, practised: bool, share: float, score: float, floor: float) -> None:
        """An answer: `share` was expected, guessing left out, and `score` (0..1) was earned."""
        before, prior = (self.again, AGAIN) if practised else (self.first, FIRST)
        pull, sureness = evidence(logit_of(share) + before.mean, score, floor)
        whole = 1.0 + _COUNTS * sureness * before.variance
        mean = before.mean + before.variance / whole * _COUNTS * pull
        variance = before.variance / whole + _DRIFT * prior.variance
        after = Correction(mean, min(prior.variance, variance))
        if practised:
            self.again = after
        else:
            self.first = after

    def to_state(self) -> dict[str, list[float]]:
        """Plain values for JSON."""
        return {"first": list(self.first), "again": list(self.again)}

    @classmethod
    def from_state(cls, state: Mapping[str, Any]) -> Hindsight:
        """The reverse of `to_state`."""
        return cls(*(Correction(*map(float, state[name])) for name in ("first", "again")))


def logit_of(share: float) -> float:
    """ln(p / (1 - p)), kept away from the ends."""
    within = min(1.0 - 1e-6, max(1e-6, share))
    return log(within / (1.0 - within))
