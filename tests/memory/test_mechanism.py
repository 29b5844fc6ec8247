"""The second opinion's cells keep to the sum of power laws they stand for."""

from __future__ import annotations

from math import exp

from hypothesis import given, settings
from hypothesis import strategies as st

from drill.memory.activation import UNTOLD, USUAL, Activations
from drill.memory.shipped import SHIPPED

WEIGHTS = SHIPPED.mechanism


def summed(times: list[float], at: float) -> float:
    """Activation straight from the form as written, every trace kept: a lesson, right answers."""
    traces: list[tuple[float, float, float]] = []

    def activation(moment: float) -> float:
        return WEIGHTS.floor + sum(
            size * (1.0 + (moment - then) / WEIGHTS.onset) ** -decay for then, decay, size in traces
        )

    for right, then in enumerate(times):
        firm = 1.0 + WEIGHTS.firm * right
        decay = (WEIGHTS.steep * activation(then) + WEIGHTS.least) / firm
        traces.append((then, decay, WEIGHTS.shown if right == 0 else 1.0))
    return activation(at)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.floats(6 * 3600.0, 10 * 86400.0), min_size=1, max_size=8), st.floats(60.0, 1e7))
def test_as_the_published_sum_of_traces(gaps: list[float], lag: float) -> None:
    times = [1e9]
    for gap in gaps:
        times.append(times[-1] + gap)
    activations = Activations(WEIGHTS, {"yield": times[0]})
    for at in times[1:]:
        activations.practised("yield", at, 1.0)
    at = times[-1] + lag
    found = USUAL * exp(activations.features("yield", at)[0])
    assert abs(found / summed(times, at) - 1.0) < 0.1


def test_practice_at_once_fades_faster_than_after_a_rest() -> None:
    at_once, rested = (Activations(WEIGHTS) for _ in range(2))
    for gap, activations in ((60.0, at_once), (5 * 86400.0, rested)):
        for turn in range(3):
            activations.practised("yield", 1e9 + turn * gap, 1.0)
    one, two = (a.features("yield", 1e9 + 4e6)[0] for a in (rested, at_once))
    assert one > two


def test_a_skill_begins_with_what_its_lesson_left() -> None:
    day = 86400.0
    told = Activations(WEIGHTS, {"late": 1e9, "early": 1e9 - 60 * day})
    activation = [told.features(skill, 1e9 + day)[0] for skill in ("late", "early", "untold")]
    assert activation[0] > activation[2] > activation[1]
    told.practised("late", 1e9 + day, 1.0)
    assert told.features("late", 1e9 + day)[0] > activation[0]


def test_a_lesson_not_known_counts_as_usual_and_fades_once_practised() -> None:
    known, not_known = Activations(WEIGHTS, {"yield": 1e9 - UNTOLD}), Activations(WEIGHTS)
    for activations in (known, not_known):
        activations.practised("yield", 1e9, 1.0)
    one, two = (a.features("yield", 1e9 + 4e6)[0] for a in (known, not_known))
    assert abs(one - two) < 0.02
