"""The family of many time scales: leaky integrators that learn from each other's error."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache
from math import exp, inf, log
from typing import ClassVar

DAY = 86400.0
State = tuple[float, tuple[float, ...]]
"""The moment of the last event and the integrators as they stood just after it."""

_LEAST, _MOST = 0.002, 0.995
"""Shares are kept inside these where they are turned into logits."""


@lru_cache(maxsize=4096)
def _left(scales: tuple[float, ...], lag: float) -> tuple[float, ...]:
    return tuple([exp(-lag / scale) for scale in scales])


@dataclass(frozen=True)
class Multiscale:
    """The Multiscale Context Model of Mozer, Pashler, Cepeda, Lindsey & Vul (2009), NeurIPS 22.

    A study event is taken in with the probability `taken_in`, else it leaves nothing; after a
    right answer it counts nine times what it does after a wrong one. Where a strength has been
    pushed above 1 an event adds nothing (the paper's two sessions never come there). Its hundred
    integrators are taken `together` by fives, which moves no recall by a point.
    """

    first: float = 10.186 * DAY
    ratio: float = 1.0447
    taken_in: float = 0.8811
    thinning: float = 0.9806
    scales: tuple[float, ...] = field(init=False)
    parts: tuple[float, ...] = field(init=False)
    whole: tuple[float, ...] = field(init=False)
    after_right: ClassVar[float] = 9.0
    integrators: ClassVar[int] = 100
    together: ClassVar[int] = 5
    outcome_matters: ClassVar[bool] = True

    def __post_init__(self) -> None:
        every, side_by_side = range(1, self.integrators + 1), self.together
        raw = [self.thinning**number for number in every]
        groups = [slice(k, k + side_by_side) for k in range(0, self.integrators, side_by_side)]
        parts = [sum(raw[group]) / sum(raw) for group in groups]
        middles = [sum(every[group]) / len(every[group]) for group in groups]
        whole = [sum(parts[: number + 1]) for number in range(len(parts))]
        object.__setattr__(self, "scales", tuple(self.first * self.ratio**k for k in middles))
        object.__setattr__(self, "parts", tuple(parts))
        object.__setattr__(self, "whole", tuple(whole))

    def strength(self, state: State | None, at: float) -> float:
        """The share recalled, 0..1."""
        if state is None:
            return 0.0
        left = _left(self.scales, max(0.0, at - state[0]))
        total = 0.0
        for part, x, keep in zip(self.parts, state[1], left):  # noqa: B905 (hot, equal lengths)
            total += part * x * keep
        return min(1.0, total)

    def logit(self, state: State | None, at: float) -> float:
        if state is None:
            return -inf
        share = min(_MOST, max(_LEAST, self.strength(state, at)))
        return log(share / (1.0 - share))

    def branches(self, state: State | None, at: float, right: float) -> list[tuple[float, State]]:
        missed = state if state is not None else (at, (0.0,) * len(self.parts))
        wide = self._after(state, at, self.after_right) if right > 0.0 else missed
        narrow = self._after(state, at, 1.0) if right < 1.0 else missed
        found = [
            (self.taken_in * right, wide),
            (self.taken_in * (1.0 - right), narrow),
            (1.0 - self.taken_in, missed),
        ]
        return [branch for branch in found if branch[0] > 0.0]

    def shown(self, state: State | None, at: float) -> list[tuple[float, State]]:
        return self.branches(state, at, 0.0)

    def _after(self, state: State | None, at: float, size: float) -> State:
        if state is None:
            return at, (size,) * len(self.parts)
        left = _left(self.scales, max(0.0, at - state[0]))
        total, cells = 0.0, []
        for part, whole, x, keep in zip(self.parts, self.whole, state[1], left):  # noqa: B905
            now = x * keep
            total += part * now
            cells.append(now + size * max(0.0, 1.0 - total / whole))
        return max(at, state[0]), tuple(cells)
