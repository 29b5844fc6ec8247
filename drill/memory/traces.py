"""Power-law forgetting that costs the same after ten answers as after a hundred thousand.

A sum of power laws has no short memory: every old answer would have to be kept and summed again.
But (1 + t/T)^-d is a mixture of exponentials (the Laplace transform of a gamma density), so a
small row of leaky cells with fixed time constants holds the sum, whatever the number of answers.
With a factor of 5 between neighbours the row follows the power law within half a per cent from
seconds to three years.
"""

from __future__ import annotations

from math import exp

FACTOR = 5.0
TIME_CONSTANTS = tuple(10.0 * FACTOR**place for place in range(11))
"""Seconds, from 10 s to 3.1 years."""


def power_shares(onset: float, decay: float) -> tuple[float, ...]:
    """The share of each cell in (1 + t/onset)^-decay; they add up to 1.

    Args:
        onset: seconds after which forgetting sets in.
        decay: the exponent; 0 would never forget.
    """
    raw = [tau**-decay * exp(-onset / tau) for tau in TIME_CONSTANTS]
    total = sum(raw)
    return tuple(share / total for share in raw)


def faded(lag: float) -> list[float]:
    """What is left of each cell after `lag` seconds (below 0 counts as 0)."""
    if lag <= 0.0:
        return [1.0] * len(TIME_CONSTANTS)
    return [exp(-lag / tau) for tau in TIME_CONSTANTS]
