"""Predicts how further practice of one skill would change its exam-day share, for planning.

Practice is simulated on a copy of the memory, each asking earning its expected share. Lags are
rounded to a quarter of an hour, so that fading can be looked up instead of calculated: a plan for
500 skills must be ready within a fraction of a second.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from math import exp, log1p
from typing import TYPE_CHECKING

from drill.memory.activation import ActivationState, ends, features, logit, trace_shares
from drill.memory.belief import shrink
from drill.memory.learner_effects import known
from drill.memory.power_law import CELLS, left_after

if TYPE_CHECKING:
    from drill.memory.memory import Memory

_GRAIN = 900.0
TraceRow = tuple[float, float, float, float, float]


@lru_cache(maxsize=20000)
def _left(quarters: int) -> tuple[float, ...]:
    return tuple(left_after(quarters * _GRAIN))


def _fade(cells: Sequence[float], lag: float) -> list[float]:
    if lag < _GRAIN / 2:
        return list(cells)
    left = _left(round(lag / _GRAIN))
    return [cell * keep for cell, keep in zip(cells, left)]  # noqa: B905 (hot, always CELLS long)


class ExpectedGain:
    """One skill of one learner, to be tried on. Times are POSIX seconds, each after the last."""

    def __init__(self, memory: Memory, skill: str) -> None:
        weights, self._memory, self._skill = memory.weights, memory, skill
        self._mechanism = weights.mechanism
        self.floor, careless = ends(self._mechanism, memory.guessing(skill))
        self._reach = 1.0 - self.floor - careless
        self._easy = weights.skills.get(skill, 0.0)
        ease, self.skill_variance = memory.learner.skill(skill)
        self._ease = self._easy + ease
        self._means, self._along = memory.learner.mean, _terms(memory.learner.cov)
        self._begun = memory.activations.state(skill, 0.0)
        begun = memory.activations
        self._untold = skill not in begun.skills and skill not in begun.lessons
        self._states: dict[tuple[float, ...], ActivationState] = {}

    # ---------------------------------------------------------------- what planning goes by

    def share(self, times: Sequence[float], exam: float) -> float:
        """The share to expect at `exam` after askings at `times`, guessing counted in.

        For a template never asked, by the activation model.
        """
        return self.floor + self._reach * self._known(self._seen(self._after(tuple(times)), exam))

    def slopes(self, times: Sequence[float], exam: float) -> TraceRow:
        """The derivative of that share by each of the five numbers of LearnerEffects."""
        seen = self._seen(self._after(tuple(times)), exam)
        share = self._known(seen)
        steep = self._reach * share * (1.0 - share)
        return (steep, steep * seen[0], steep * seen[1], steep * seen[2], steep * seen[3])

    def _after(self, times: tuple[float, ...]) -> ActivationState:
        if not times:
            return self._begun
        state = self._states.get(times)
        if state is None:
            state = self._states[times] = self._asked(self._after(times[:-1]), times[-1])
        return state

    def _asked(self, state: ActivationState, at: float) -> ActivationState:
        """The state after an asking that earns its expected share."""
        mechanism = self._mechanism
        then, cells, right, wrong = state
        cells = cells if self._is_begin(state) else _fade(cells, at - then)
        activation = sum(cells)
        score = self._known(features(mechanism, state, activation, at))
        amount = score + (1.0 - score) * mechanism.wrong
        shares = trace_shares(mechanism, mechanism.floor + activation, right + score)
        cells = [cell + amount * part for cell, part in zip(cells, shares)]  # noqa: B905
        # a mistake that is put right is never planned for as harm, whatever past ones were
        return at, cells, right + score, wrong + (1.0 - score if self._means[3] > 0.0 else 0.0)

    def _is_begin(self, state: ActivationState) -> bool:
        """A skill whose lesson is not known does not fade before it is practised."""
        return self._untold and state is self._begun

    def _seen(self, state: ActivationState, at: float) -> tuple[float, float, float, float]:
        cells = state[1] if self._is_begin(state) else _fade(state[1], at - state[0])
        return features(self._mechanism, state, sum(cells), at)

    def _known(self, seen: tuple[float, float, float, float]) -> float:
        """The share known, guessing and careless mistakes left out."""
        one, two, three, four = seen
        m0, m1, m2, m3, m4 = self._means
        whole = logit(self._mechanism, seen) + self._ease
        whole += m0 + m1 * one + m2 * two + m3 * three + m4 * four
        s00, s01, s02, s03, s04, s11, s12, s13, s14, s22, s23, s24, s33, s34, s44 = self._along
        variance = (
            s00
            + one * (s01 + s11 * one + s12 * two + s13 * three + s14 * four)
            + two * (s02 + s22 * two + s23 * three + s24 * four)
            + three * (s03 + s33 * three + s34 * four)
            + four * (s04 + s44 * four)
            + self.skill_variance
        )
        return known(whole, max(0.0, variance))

    # ---------------------------------------------------------------- the other opinion

    def first(self, times: Sequence[float], exam: float) -> float:
        """The predictor's share at `exam` for a template never asked, after askings at `times`."""
        memory, weights, skill = self._memory, self._memory.weights, self._skill
        mean, variance = memory.belief.offset(skill, None)
        narrow, level, wrong = shrink(variance), weights.skill, weights.shape.wrong
        track, shares = memory.tracks.skills.get(skill), memory.tracks.shares
        then, cells, wins, count, shown = 0.0, [0.0] * CELLS, 0.0, 0.0, 0.0
        if track:
            then, cells, shown = track.time, track.cells, track.shown
            wins, count = track.wins, track.wins + track.fails
        base = weights.base + self._easy + mean + level.shown * log1p(shown)
        for at in times:
            cells, then = _fade(cells, at - then), at
            trace = sum(cells)
            whole = base + level.practice * log1p(count) + level.wins * log1p(wins)
            share = 1.0 / (1.0 + exp(-narrow * (whole + level.fresh * trace)))
            gain = (share + (1.0 - share) * wrong) * max(0.0, 1.0 - trace)
            cells = [cell + gain * part for cell, part in zip(cells, shares)]  # noqa: B905
            wins, count = wins + share, count + 1.0
        whole = base + level.practice * log1p(count) + level.wins * log1p(wins)
        whole += level.fresh * sum(_fade(cells, exam - then))
        return 1.0 / (1.0 + exp(-narrow * whole))


def _terms(cov: Sequence[Sequence[float]]) -> tuple[float, ...]:
    """The upper half of a symmetric matrix, row by row, off-diagonals doubled."""
    size = len(cov)
    return tuple(
        cov[row][column] * (1.0 if row == column else 2.0)
        for row in range(size)
        for column in range(row, size)
    )
