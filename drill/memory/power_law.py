"""Power-law forgetting that costs the same after ten answers as after a hundred thousand.

A sum of power laws cannot be updated in place: every old answer would have to be kept and added up.
But (1 + t/T)^-d is a mixture of exponentials (the Laplace transform of a gamma density), so a
small row of leaky cells with fixed time constants holds the sum, whatever the number of answers.
The last cell never fades and stands for all slower ones. With a factor of 5 between neighbours
the row follows the power law within 4 per cent from seconds to a year.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import exp, inf

_FACTOR = 5.0
TIME_CONSTANTS = (*(2.0 * _FACTOR**place for place in range(12)), inf)
"""Seconds, from 2 s to 3 years, and for ever."""
CELLS = len(TIME_CONSTANTS)


def power_shares(onset: float, decay: float) -> tuple[float, ...]:
    """The share of each cell in (1 + t/onset)^-decay; they add up to 1.

    Args:
        onset: seconds after which forgetting sets in, 10 or more.
        decay: the exponent, above 0.
    """
    raw = [tau**-decay * exp(-onset / tau) for tau in TIME_CONSTANTS[:-1]]
    step = _FACTOR**-decay
    raw.append(TIME_CONSTANTS[-2] ** -decay * step / (1.0 - step))
    total = sum(raw)
    return tuple(share / total for share in raw)


def left_after(lag: float) -> list[float]:
    """What is left of each cell after `lag` seconds (below 0 counts as 0)."""
    if lag <= 0.0:
        return [1.0] * CELLS
    return [exp(-lag / tau) for tau in TIME_CONSTANTS]


def faded(cells: Sequence[float], lag: float) -> list[float]:
    """The cells as they stand `lag` seconds later."""
    if lag <= 0.0:
        return list(cells)
    return [
        cell * exp(-lag / tau) if cell else 0.0
        for cell, tau in zip(cells, TIME_CONSTANTS, strict=True)
    ]
