"""The three families that add up traces: activation, delta rule, predictive performance.

None of them learns more from a right answer than from a wrong one that is put right: the answer
is always shown, and what counts is that the skill was worked on.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import e, inf, log
from typing import ClassVar

DAY = 86400.0
Traces = tuple[tuple[float, float, float], ...]
"""Moment, decay and size of each trace."""
Marks = tuple[tuple[float, float], ...]
"""Moment and size of each trace."""
Events = tuple[tuple[float, ...], float, float]
"""Moments of all events, their number, the sum of 1 / ln(lag + e) over the gaps."""


@dataclass(frozen=True)
class Activation:
    """Activation whose traces fade the faster the more active they found the skill.

    Pavlik & Anderson (2005), Cognitive Science 29, 559-586. An asking leaves two traces, the try
    and the answer shown; `pace` only scales time, the second trace stands 320 scaled seconds after
    the first, as in the fit.
    """

    least: float = 0.01845
    steep: float = 0.24221
    threshold: float = -0.26819
    noise: float = 0.02499
    pace: float = 7.4018
    watched: float = 0.98
    between: ClassVar[float] = 320.0
    outcome_matters: ClassVar[bool] = False

    def strength(self, traces: Traces, at: float) -> float:
        total, pace = 0.0, self.pace
        for then, decay, size in traces:
            age = pace * (at - then)
            total += size * age**-decay if age > 1.0 else size
        return total

    def logit(self, state: Traces | None, at: float) -> float:
        if not state:
            return -inf
        return (log(self.strength(state, at)) - self.threshold) / self.noise

    def branches(self, state: Traces | None, at: float, right: float) -> list[tuple[float, Traces]]:
        return [(1.0, self._after(state or (), at, 1.0))]

    def shown(self, state: Traces | None, at: float) -> list[tuple[float, Traces]]:
        return [(1.0, self._after(state or (), at, self.watched))]

    def _after(self, state: Traces, at: float, size: float) -> Traces:
        for moment in (at, at + self.between / self.pace):
            decay = self.steep * self.strength(state, moment) + self.least
            state = (*state, (moment, decay, size))
        return state


@dataclass(frozen=True)
class Delta:
    """Power-law traces; each practice adds a share of what is missing (a delta rule).

    The smallest model with a best gap: two sessions `gap` apart and a test `delay` days after the
    second have it at delay / ((share * f(delay))^(-1/(decay+1)) - 1) - onset, f being the fading.
    """

    share: float = 0.49308
    decay: float = 0.18529
    onset: float = 0.00038 * DAY
    threshold: float = 0.14088
    noise: float = 0.02242
    watched: float = 0.9
    outcome_matters: ClassVar[bool] = False

    def strength(self, traces: Marks, at: float) -> float:
        total, onset, power = 0.0, self.onset, -self.decay
        for then, size in traces:
            age = at - then
            total += size * (1.0 + age / onset) ** power if age > 0.0 else size
        return total

    def logit(self, state: Marks | None, at: float) -> float:
        if not state:
            return -inf
        return (self.strength(state, at) - self.threshold) / self.noise

    def branches(self, state: Marks | None, at: float, right: float) -> list[tuple[float, Marks]]:
        return [(1.0, self._after(state, at, 1.0))]

    def shown(self, state: Marks | None, at: float) -> list[tuple[float, Marks]]:
        return [(1.0, self._after(state, at, self.watched))]

    def _after(self, state: Marks | None, at: float, amount: float) -> Marks:
        if not state:
            return ((at, amount),)
        missing = max(0.0, 1.0 - self.strength(state, at))
        return (*state, (at, amount * self.share * missing))

    def best_gap(self, delay: float) -> float:
        """The closed form above; `delay` and the gap in seconds, 0 where massing is best."""
        left = self.share * (1.0 + delay / self.onset) ** -self.decay
        return max(0.0, delay / float(left ** (-1.0 / (self.decay + 1.0)) - 1.0) - self.onset)


@dataclass(frozen=True)
class Predictive:
    """Power of practice times power of a weighted age, the decay lower after longer gaps.

    Walsh, Gluck, Gunzelmann, Jastrzembski & Krusmark (2018), Cognitive Science 42(S3), 644-691.
    """

    decay: float = 0.05419
    steep: float = 0.11916
    threshold: float = 0.37293
    noise: float = 0.02399
    practice: float = 0.1
    weighting: float = 0.6
    watched: float = 0.5
    between: ClassVar[float] = 320.0
    outcome_matters: ClassVar[bool] = False

    def logit(self, state: Events | None, at: float) -> float:
        if not state:
            return -inf
        times, count, stability = state
        weights = total = 0.0
        for then in times:
            age = max(1.0, at - then)
            weight = age**-self.weighting
            weights += weight
            total += weight * age
        decay = self.decay + self.steep * stability / max(1, len(times) - 1)
        strength = float(count**self.practice * (total / weights) ** -decay)
        return (strength - self.threshold) / self.noise

    def branches(self, state: Events | None, at: float, right: float) -> list[tuple[float, Events]]:
        return [(1.0, self._after(state, at, 1.0))]

    def shown(self, state: Events | None, at: float) -> list[tuple[float, Events]]:
        return [(1.0, self._after(state, at, self.watched))]

    def _after(self, state: Events | None, at: float, amount: float) -> Events:
        times, count, stability = state or ((), 0.0, 0.0)
        for moment in (at, at + self.between):
            if times:
                stability += 1.0 / log(max(0.0, moment - times[-1]) + e)
            times, count = (*times, moment), count + amount
        return times, count, stability
