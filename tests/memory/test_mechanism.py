"""The second opinion's cells keep to the sum of power laws they stand for."""

from __future__ import annotations

from math import log

from hypothesis import given, settings
from hypothesis import strategies as st

from drill.memory.mechanism import Activations
from drill.memory.shipped import SHIPPED


def summed(times: list[float], at: float) -> float:
    """Activation straight from the published form, every trace kept."""
    weights = SHIPPED.mechanism
    traces: list[tuple[float, float]] = []

    def activation(moment: float) -> float:
        return weights.taught + sum(
            (1.0 + (moment - then) / weights.onset) ** -decay for then, decay in traces
        )

    for then in times:
        traces.append((then, weights.steep * activation(then) + weights.least))
    return activation(at)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.floats(60.0, 10 * 86400.0), min_size=1, max_size=8), st.floats(60.0, 1e7))
def test_as_the_published_sum_of_traces(gaps: list[float], lag: float) -> None:
    times = [1e9]
    for gap in gaps:
        times.append(times[-1] + gap)
    weights = SHIPPED.mechanism
    activations = Activations(weights)
    for at in times:
        activations.practised("yield", at, 1.0)
    at = times[-1] + lag
    found = (activations.logit("yield", at) - weights.base) / weights.gain
    assert abs(found - log(summed(times, at))) < 0.06


def test_practice_at_once_fades_faster_than_after_a_rest() -> None:
    at_once, rested = (Activations(SHIPPED.mechanism) for _ in range(2))
    for gap, activations in ((60.0, at_once), (5 * 86400.0, rested)):
        for turn in range(3):
            activations.practised("yield", 1e9 + turn * gap, 1.0)
    assert rested.logit("yield", 1e9 + 4e6) > at_once.logit("yield", 1e9 + 4e6)
