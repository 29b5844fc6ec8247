"""What further practice of one skill would do to its exam-day share: the look ahead of planning.

Nothing is remembered here: a copy of what is known is practised on paper, each asking earning its
expected share. Lags are rounded to a quarter of an hour, so that fading is looked up instead of
worked out: a plan for 500 skills has to stand within a fraction of a second.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from math import exp, log1p
from typing import TYPE_CHECKING

from drill.memory.belief import shrink
from drill.memory.mechanism import activation_logit, trace_shares
from drill.memory.traces import CELLS, left_after

if TYPE_CHECKING:
    from drill.memory.memory import Memory

_GRAIN = 900.0


@lru_cache(maxsize=20000)
def _left(quarters: int) -> tuple[float, ...]:
    return tuple(left_after(quarters * _GRAIN))


def _fade(cells: Sequence[float], lag: float) -> list[float]:
    if lag < _GRAIN / 2:
        return list(cells)
    left = _left(round(lag / _GRAIN))
    return [cell * keep for cell, keep in zip(cells, left)]  # noqa: B905 (hot, always CELLS long)


class Outlook:
    """One skill of one learner, to be tried on. Times are POSIX seconds."""

    def __init__(self, memory: Memory, skill: str) -> None:
        weights = memory.weights
        self.floor = memory.guessing(skill)
        easy = weights.skills.get(skill, 0.0)
        mean, variance = memory.belief.offset(skill, None)
        second_mean, second_variance = memory.second_belief.offset(skill, None)
        self.variance = variance
        self._base, self._shrink = weights.base + easy + mean, shrink(variance)
        self._second_base, self._second_shrink = easy + second_mean, shrink(second_variance)
        self._level, self._wrong, self._shares = (
            weights.skill,
            weights.shape.wrong,
            memory.tracks.shares,
        )
        self._mechanism = weights.mechanism
        track = memory.tracks.skills.get(skill)
        self._track = (
            (track.time, track.cells, track.wins, track.wins + track.fails, track.shown)
            if track
            else (0.0, [0.0] * CELLS, 0.0, 0.0, 0.0)
        )
        self._activation = memory.activations.skills.get(skill, (0.0, [0.0] * CELLS))

    def first(self, times: Sequence[float], exam: float) -> float:
        """The predictor's share at `exam` for a template never asked, after askings at `times`."""
        then, cells, wins, count, shown = self._track
        level, shares, wrong, narrow = self._level, self._shares, self._wrong, self._shrink
        base = self._base + level.shown * log1p(shown)
        for at in times:
            cells, then = _fade(cells, at - then), at
            trace = sum(cells)
            logit = base + level.practice * log1p(count) + level.wins * log1p(wins)
            share = 1.0 / (1.0 + exp(-narrow * (logit + level.fresh * trace)))
            gain = (share + (1.0 - share) * wrong) * max(0.0, 1.0 - trace)
            cells = [cell + gain * part for cell, part in zip(cells, shares)]  # noqa: B905
            wins, count = wins + share, count + 1.0
        logit = base + level.practice * log1p(count) + level.wins * log1p(wins)
        logit += level.fresh * sum(_fade(cells, exam - then))
        return 1.0 / (1.0 + exp(-narrow * logit))

    def second(self, times: Sequence[float], exam: float) -> float:
        """The same in the second opinion."""
        (then, cells), mechanism = self._activation, self._mechanism
        wrong, narrow = mechanism.wrong, self._second_shrink
        for at in times:
            cells, then = _fade(cells, at - then), at
            activation = sum(cells)
            logit = self._second_base + activation_logit(mechanism, activation)
            share = 1.0 / (1.0 + exp(-narrow * logit))
            amount = share + (1.0 - share) * wrong
            shares = trace_shares(mechanism, activation)
            cells = [cell + amount * part for cell, part in zip(cells, shares)]  # noqa: B905
        logit = activation_logit(mechanism, sum(_fade(cells, exam - then)))
        return 1.0 / (1.0 + exp(-narrow * (self._second_base + logit)))

    def share(self, times: Sequence[float], exam: float) -> float:
        """The mean of both opinions with guessing counted in: what planning goes by."""
        known = 0.5 * (self.first(times, exam) + self.second(times, exam))
        return self.floor + (1.0 - self.floor) * known
