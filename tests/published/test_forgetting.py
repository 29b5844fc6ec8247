"""Forgetting against published measurements; every source is named beside its numbers.

The fits are done here, from the published points, and then the traces that `drill.memory` works
with are held against the same points.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import product
from math import exp, log

import pytest

from drill.memory.power_law import left_after, power_shares
from drill.memory.practice_counts import Track

HOUR, DAY = 3600.0, 86400.0

EBBINGHAUS = {1 / 3: 0.582, 1: 0.442, 8.8: 0.358, 24: 0.337, 48: 0.278, 144: 0.254, 744: 0.211}
"""Hours, the first 20 min: savings. H. Ebbinghaus (1885/1913), Memory, chapter VII (Wikisource)."""

CARPENTER = {0.0035: 0.93, 1: 0.88, 2: 0.86, 7: 0.66, 14: 0.47, 42: 0.34}
"""Days: recall of facts. S. K. Carpenter, H. Pashler, J. T. Wixted & E. Vul (2008), Memory &
Cognition 36, 438-448, experiment 1, as listed by S. Farrell & S. Lewandowsky (2018)."""


def squares(points: dict[float, float], curve: Callable[[float], float]) -> float:
    return sum((curve(lag) - seen) ** 2 for lag, seen in points.items())


def scaled(points: dict[float, float], shape: Callable[[float], float]) -> tuple[float, float]:
    """The best a in a * shape(lag), and its sum of squares."""
    over = sum(shape(lag) * seen for lag, seen in points.items())
    a = over / sum(shape(lag) ** 2 for lag in points)
    return a, squares(points, lambda lag: a * shape(lag))


def best(loss: Callable[..., float], *grids: Sequence[float], rounds: int = 60) -> list[float]:
    """The smallest loss over positive numbers: a coarse grid, then ever finer steps around it."""
    found = list(min(product(*grids), key=lambda point: loss(*point)))
    step = 1.5
    for _ in range(rounds):
        moves = [
            [value * factor if place == at else value for place, value in enumerate(found)]
            for at in range(len(found))
            for factor in (step, 1.0 / step)
        ]
        better = min(moves, key=lambda point: loss(*point))
        if loss(*better) < loss(*found):
            found = better
        else:
            step = step**0.7
    return found


GRID = [10.0**power for power in range(-4, 3)]


def test_ebbinghaus_savings_follow_a_power_of_the_hours() -> None:
    (b,) = best(lambda b: scaled(EBBINGHAUS, lambda t: t**-b)[1], GRID)
    a, sse = scaled(EBBINGHAUS, lambda t: t**-b)
    assert a == pytest.approx(0.481, abs=0.001)
    assert b == pytest.approx(0.130, abs=0.001)
    assert sse == pytest.approx(0.00285, abs=0.00001)


def test_an_exponential_is_ten_times_further_off() -> None:
    (rate,) = best(lambda rate: scaled(EBBINGHAUS, lambda t: exp(-rate * t))[1], GRID)
    assert scaled(EBBINGHAUS, lambda t: exp(-rate * t))[1] > 10 * 0.00285


def test_facts_over_six_weeks_follow_a_power_with_an_onset() -> None:
    def shape(onset_per_day: float, power: float) -> Callable[[float], float]:
        return lambda t: (1.0 + onset_per_day * t) ** -power

    b, c = best(lambda b, c: scaled(CARPENTER, shape(b, c))[1], GRID, GRID, rounds=400)
    a, sse = scaled(CARPENTER, shape(b, c))
    assert c == pytest.approx(0.58, abs=0.01)
    assert (a, b, sse) == pytest.approx((0.948, 0.132, 0.00412), rel=0.03)


def trace(onset: float, decay: float) -> Callable[[float], float]:
    """The memory's own trace, by seconds."""
    shares = power_shares(onset, decay)

    def left(lag: float) -> float:
        return sum(share * kept for share, kept in zip(shares, left_after(lag), strict=True))

    return left


def test_our_traces_fit_both_as_well_as_the_published_forms() -> None:
    ours = trace(60.0, 0.1304)
    assert scaled(EBBINGHAUS, lambda hours: ours(hours * HOUR))[1] < 1.1 * 0.00285
    ours = trace(DAY / 0.132, 0.582)
    assert scaled(CARPENTER, lambda days: ours(days * DAY))[1] < 1.1 * 0.00412


DELTA, POWER, ONSET = 0.43316, 0.22203, 0.24185
"""A power-law trace with a delta rule, fitted to the recall table of N. J. Cepeda, E. Vul, D.
Rohrer, J. T. Wixted & H. Pashler (2008), Psychological Science 19, 1095-1102; days. The numbers
stand in the public repository popov-lab/optimal-spacing-memory."""


def best_gap_in_closed_form(rest: float) -> float:
    """b / ((delta f(b))^(-1/(d+1)) - 1) - T for a test b days after the second session."""
    late = (1.0 + rest / ONSET) ** -POWER
    return rest / ((DELTA * late) ** (-1.0 / (POWER + 1.0)) - 1.0) - ONSET


def exact_strength(gap: float, rest: float) -> float:
    """What two sessions leave, from the published form."""

    def left(days: float) -> float:
        return (1.0 + days / ONSET) ** -POWER

    return left(gap + rest) + DELTA * (1.0 - left(gap)) * left(rest)


def our_strength(gap: float, rest: float) -> float:
    """The same from the memory's own trace and its delta rule."""
    track, shares = Track(), power_shares(ONSET * DAY, POWER)
    track.lay(DAY, 1.0, shares)
    track.lay(DAY + gap * DAY, DELTA, shares)
    return track.fresh(DAY + (gap + rest) * DAY)


def best_gap(strength: Callable[[float, float], float], rest: float) -> float:
    gaps = [0.1 * 1.01**step for step in range(900)]
    return max(gaps, key=lambda gap: strength(gap, rest))


@pytest.mark.parametrize("rest", [7.0, 35.0, 70.0, 350.0])
def test_the_best_gap_is_the_one_in_closed_form(rest: float) -> None:
    found = best_gap(exact_strength, rest)
    assert found == pytest.approx(best_gap_in_closed_form(rest), rel=0.01)


@pytest.mark.parametrize("rest", [7.0, 35.0, 70.0, 350.0])
def test_our_own_traces_share_that_best_gap(rest: float) -> None:
    """The optimum is flat: what counts is what is lost by taking our gap instead of the exact."""
    ours, exact = best_gap(our_strength, rest), best_gap_in_closed_form(rest)
    assert exact_strength(ours, rest) > 0.999 * exact_strength(exact, rest)
    assert log(ours / exact) == pytest.approx(0.0, abs=log(1.35))


def test_the_best_gap_grows_with_the_time_to_the_test() -> None:
    """As in the same table, where it was 1, 11, 21 and 21 days."""
    gaps = [best_gap(our_strength, rest) for rest in (7.0, 35.0, 70.0, 350.0)]
    assert gaps == sorted(gaps)
    assert gaps[-1] > 4 * gaps[0]
