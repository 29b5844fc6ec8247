"""The activation model: the higher the activation when a trace is laid down, the faster it fades.

The form is that of Pavlik & Anderson (2005), Cognitive Science 29, 559-586, with traces that right
answers make firmer:

    activation(t) = floor + sum of size_k * (1 + age_k / onset)^-d_k
    d_k           = (steep * activation(t_k) + least) / (1 + firm * right answers)
    logit(t)      = base + gain * ln(activation(t) / USUAL) + wins * ln(1 + right answers)
                    + what is believed of learner and skill (`learner_effects.py`)

Practice soon after practice meets a high activation and fades fast; after a rest it lasts longer.
Planning uses this model, since it predicts how much of today's practice is left on exam day.
A skill begins with the trace of its lesson. Each trace is split over a fixed number of cells, so
the cost does not grow.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache
from math import log, log1p

from drill.memory.power_law import CELLS, faded, power_shares
from drill.memory.practice_counts import DIGITS
from drill.memory.weights import Mechanism

USUAL = 0.3
"""The activation that `base` is for."""
DAY = 86400.0
"""Seconds."""

UNTOLD = 30 * DAY
"""A skill whose lesson is not known counts as taught so long before it is first practised."""
_STEPS = 200.0
"""Decays are rounded to 1/200, so that a few hundred rows of shares serve for all."""
_RESTED = 1.5
"""ln(1 + days) of a rest that counts as usual."""

ActivationState = tuple[float, Sequence[float], float, float]
"""Moment of the last event (POSIX seconds), the cells just after it, right and wrong answers."""
Features = tuple[float, float, float, float]
"""ln(activation / USUAL), ln(1 + right), ln(1 + wrong), ln(1 + days of rest) about the usual."""


@lru_cache(maxsize=1024)
def _shares(onset: float, place: int) -> tuple[float, ...]:
    return power_shares(onset, place / _STEPS)


class Activations:
    """The activation of each skill of one learner.

    Args:
        lessons: {skill: POSIX seconds of its lesson}, as far as known.
    """

    def __init__(self, weights: Mechanism, lessons: Mapping[str, float] | None = None) -> None:
        self.weights = weights
        self.lessons = dict(lessons or {})
        self.skills: dict[str, ActivationState] = {}
        shares = trace_shares(weights, weights.floor, 0.0)
        self._lesson = [round(weights.shown * share, DIGITS) for share in shares]
        self._long_ago = [round(cell, DIGITS) for cell in faded(self._lesson, UNTOLD)]

    def state(self, skill: str, at: float) -> ActivationState:
        """The state of a skill; of one never practised, what its lesson left."""
        known = self.skills.get(skill)
        if known is not None:
            return known
        if skill in self.lessons:
            return self.lessons[skill], self._lesson, 0.0, 0.0
        return at, self._long_ago, 0.0, 0.0

    def features(self, skill: str, at: float) -> Features:
        """What the logit at `at` is made of."""
        state = self.state(skill, at)
        return features(self.weights, state, sum(faded(state[1], at - state[0])), at)

    def practised(self, skill: str, at: float, score: float | None) -> None:
        """Lay down the trace of an answer, or of a worked answer (`score` None)."""
        weights = self.weights
        then, cells, right, wrong = self.state(skill, at)
        cells = faded(cells, at - then)
        activation = sum(cells)
        if score is None:
            amount = weights.shown
        else:
            amount = score + (1.0 - score) * weights.wrong
            right, wrong = right + score, wrong + 1.0 - score
        shares = trace_shares(weights, weights.floor + activation, right)
        cells = [
            round(cell + amount * share, DIGITS) for cell, share in zip(cells, shares, strict=True)
        ]
        self.skills[skill] = (max(at, then), cells, right, wrong)

    def to_state(self) -> dict[str, list[float]]:
        """Plain values for JSON."""
        return {
            name: [then, right, wrong, *cells]
            for name, (then, cells, right, wrong) in self.skills.items()
        }

    def restore(self, rows: Mapping[str, Sequence[float]]) -> None:
        """The reverse of `to_state`."""
        for name, (then, right, wrong, *cells) in rows.items():
            assert len(cells) == CELLS, "a state of another form"
            self.skills[name] = (float(then), [float(cell) for cell in cells], right, wrong)


def features(weights: Mechanism, state: ActivationState, activation: float, at: float) -> Features:
    """Features of a state whose traces (floor left out) add up to `activation` at `at`."""
    then, _, right, wrong = state
    rest = 0.0
    if right + wrong > 0.0:
        rest = log1p(max(0.0, at - then) / DAY) - _RESTED
    return (
        log((weights.floor + activation) / USUAL),
        log1p(right),
        log1p(wrong),
        rest,
    )


def logit(weights: Mechanism, seen: Features) -> float:
    """The logit of a learner in the middle."""
    return weights.base + weights.gain * seen[0] + weights.wins * seen[1]


def ends(weights: Mechanism, floor: float) -> tuple[float, float]:
    """The share earned without knowing (guessing earns `floor`); the share lost despite knowing."""
    low = max(floor, weights.guess)
    return low, min(weights.careless, 0.9 - 0.9 * low)


def trace_shares(weights: Mechanism, activation: float, right: float) -> Sequence[float]:
    """How a trace laid down at this activation (floor counted in) is split over the cells."""
    decay = (weights.steep * activation + weights.least) / (1.0 + weights.firm * right)
    return _shares(weights.onset, max(1, min(int(2 * _STEPS), round(decay * _STEPS))))
