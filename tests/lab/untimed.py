"""Two families in which the gap between practices is of no use: the controls.

A planner that wins here does so by choosing skills and days, not by spacing. Their numbers are
chosen, not fitted: a first lesson is half gone after ten days, as it nearly is in the table that
the other families were fitted to.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import inf, log, log1p
from typing import ClassVar

DAY = 86400.0
_LEAST, _MOST = 0.002, 0.995


@dataclass(frozen=True)
class HalfLife:
    """Exponential forgetting; a right answer lengthens the half-life, whatever the gap was.

    After Settles & Meeder (2016), ACL, P16-1174. State: moment and half-life.
    """

    first: float = 10.0 * DAY
    grow: float = 2.0
    shrink: float = 0.8
    longest: float = 400.0 * DAY
    outcome_matters: ClassVar[bool] = True

    def logit(self, state: tuple[float, float] | None, at: float) -> float:
        if state is None:
            return -inf
        share = min(_MOST, max(_LEAST, 2.0 ** (-max(0.0, at - state[0]) / state[1])))
        return log(share / (1.0 - share))

    def branches(
        self, state: tuple[float, float] | None, at: float, right: float
    ) -> list[tuple[float, tuple[float, float]]]:
        if state is None:
            return [(1.0, (at, self.first))]
        good = (max(at, state[0]), min(self.longest, state[1] * self.grow))
        bad = (max(at, state[0]), max(0.1 * self.first, state[1] * self.shrink))
        return [branch for branch in ((right, good), (1.0 - right, bad)) if branch[0] > 0.0]

    def shown(
        self, state: tuple[float, float] | None, at: float
    ) -> list[tuple[float, tuple[float, float]]]:
        return [(1.0, (at, self.first if state is None else state[1]))]


@dataclass(frozen=True)
class Procedure:
    """A way of working: better with each practice, slowly rusting, spacing of no use.

    As found by Ebersbach & Barzagar Nazari (2020), Frontiers in Psychology 11:811, with
    permutation problems. State: moment of the last practice and number of practices.
    """

    base: float = -0.6
    gain: float = 1.2
    rust: float = 0.35
    onset: float = 0.2 * DAY
    watched: float = 0.7
    outcome_matters: ClassVar[bool] = False

    def logit(self, state: tuple[float, float] | None, at: float) -> float:
        if state is None:
            return -inf
        lag = max(0.0, at - state[0])
        return self.base + self.gain * log1p(state[1]) - self.rust * log1p(lag / self.onset)

    def branches(
        self, state: tuple[float, float] | None, at: float, right: float
    ) -> list[tuple[float, tuple[float, float]]]:
        return [(1.0, self._after(state, at, 1.0))]

    def shown(
        self, state: tuple[float, float] | None, at: float
    ) -> list[tuple[float, tuple[float, float]]]:
        return [(1.0, self._after(state, at, self.watched))]

    def _after(
        self, state: tuple[float, float] | None, at: float, amount: float
    ) -> tuple[float, float]:
        then, count = state or (at, 0.0)
        return max(at, then), count + amount
