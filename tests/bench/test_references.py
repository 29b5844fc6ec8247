"""References that know the learner lead the rest. Slow: pytest tests/bench/test_references.py"""

from __future__ import annotations

from statistics import fmean

import pytest

from drill.errors import DrillError
from tests.lab import LEARNERS, REFERENCES, Simulated, reference, run, scenario

PLACE = scenario("some", 30, 14, 8.0, (-28, 0))
SEEDS = range(41, 45)


def share(name: str, family: str) -> float:
    people = [Simulated(family, seed) for seed in SEEDS]
    return fmean(
        run(
            reference(name, one, PLACE) if name in REFERENCES else name, one, PLACE, seed
        ).exam_share
        for one, seed in zip(people, SEEDS, strict=True)
    )


@pytest.mark.parametrize("family", LEARNERS)
def test_the_look_ahead_that_knows_the_learner_is_the_best(family: str) -> None:
    known = share("knowing, look-ahead", family)
    for other in ("family, look-ahead", "equal spacing", "lowest first", "random", "nothing"):
        assert known > share(other, family), other


@pytest.mark.parametrize("family", LEARNERS)
def test_greedy_and_look_ahead_are_both_far_above_equal_spacing(family: str) -> None:
    nothing, equal = share("nothing", family), share("equal spacing", family)
    for name in ("knowing, greedy", "knowing, look-ahead"):
        assert share(name, family) - nothing > 1.05 * (equal - nothing)


def test_a_learner_from_outside_cannot_be_looked_into() -> None:
    class Closed:
        practise = expose = chance = None

    with pytest.raises(DrillError, match="references need a simulated learner"):
        reference("knowing, greedy", Closed(), PLACE)  # type: ignore[arg-type]
    with pytest.raises(DrillError, match='no reference "x"'):
        reference("x", Simulated("delta", 1), PLACE)


def test_what_it_infers_of_the_person_comes_near_the_truth() -> None:
    """Knowing the family, a hundred answers tell able people from others."""
    from tests.lab.models import KnowingFamily

    found = []
    for seed in range(8):
        person = Simulated("predictive", seed)
        policy = reference("family, greedy", person, PLACE)
        made = policy(PLACE.skills, PLACE.exam, PLACE.minutes_per_day)
        run(lambda *_, made=made: made, person, PLACE, seed)  # type: ignore[misc]
        model = made.model  # type: ignore[attr-defined]
        assert isinstance(model, KnowingFamily)
        found.append((person.person, model.able[0]))
    people = sorted(found)
    half = len(people) // 2
    low, high = ([guess for _, guess in part] for part in (people[:half], people[half:]))
    assert fmean(high) - fmean(low) > 0.3
