"""The second opinion: activation whose traces fade the faster the more active they found it.

The form is that of Pavlik & Anderson (2005), Cognitive Science 29, 559-586:

    activation(t) = taught + sum of (1 + age_k / onset)^-d_k
    d_k           = steep * activation(t_k) + least
    logit(t)      = base + gain * ln(activation(t)) + what is believed of learner and skill

Practice at once after practice meets a high activation and fades fast; after a rest it lasts. The
predictor's counts never forget, this form does: where the two disagree about the exam day, the
forecast says so by a wider range. Each trace is split over the cells of `traces.py`, so the cost
stays flat.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from math import log

from drill.memory.traces import CELLS, faded, power_shares
from drill.memory.tracks import DIGITS
from drill.memory.weights import Mechanism

_STEPS = 200.0
"""Decays are rounded to 1/200, so that a few hundred rows of shares serve for all."""


@lru_cache(maxsize=1024)
def _shares(onset: float, place: int) -> tuple[float, ...]:
    return power_shares(onset, place / _STEPS)


class Activations:
    """The activation of each skill of one learner."""

    def __init__(self, weights: Mechanism) -> None:
        self.weights = weights
        self.skills: dict[str, tuple[float, list[float]]] = {}

    def logit(self, skill: str, at: float) -> float:
        """The logit at `at`, beliefs left out."""
        then, cells = self.skills.get(skill, (at, ()))
        return activation_logit(self.weights, sum(faded(cells, at - then)) if cells else 0.0)

    def practised(self, skill: str, at: float, score: float | None) -> None:
        """Lay down the trace of an answer, or of a worked answer (`score` None)."""
        weights = self.weights
        then, cells = self.skills.get(skill, (at, [0.0] * CELLS))
        cells = faded(cells, at - then)
        amount = weights.shown if score is None else score + (1.0 - score) * weights.wrong
        shares = trace_shares(weights, sum(cells))
        cells = [
            round(cell + amount * share, DIGITS) for cell, share in zip(cells, shares, strict=True)
        ]
        self.skills[skill] = (max(at, then), cells)


def activation_logit(weights: Mechanism, activation: float) -> float:
    """The logit of an activation (beyond what lessons left)."""
    return weights.base + weights.gain * log(weights.taught + activation)


def trace_shares(weights: Mechanism, activation: float) -> Sequence[float]:
    """How a trace laid down at this activation is split over the cells."""
    decay = weights.steep * (weights.taught + activation) + weights.least
    return _shares(weights.onset, max(1, min(int(2 * _STEPS), round(decay * _STEPS))))
