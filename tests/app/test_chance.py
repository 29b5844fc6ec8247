"""What is told plainly comes by chance in at most one report in twenty."""

from __future__ import annotations

from itertools import combinations
from random import Random

import pytest

from drill.app.chance import by_chance, drawn_so_low, looked_at


def test_counts_that_could_never_stand_out_make_no_other_stricter() -> None:
    assert looked_at([], 0.1) == 1
    assert looked_at([9], 0.1) == 1
    assert looked_at([9, *[1] * 500], 0.1) == 1
    assert looked_at([9] * 500, 0.1) == 500
    assert looked_at([3] * 500, 0.09) == 69  # among 69 or more none of them can stand out


def test_of_reports_with_nothing_but_chance_one_in_twenty_tells_something() -> None:
    rng, told, sizes = Random(7), 0, [*[1] * 60, *[2] * 40, *[4] * 25, *[8] * 15, *[20] * 10]
    for _ in range(1000):
        number = looked_at(sizes, 0.1)
        made = [(sum(rng.random() < 0.1 for _ in range(size)), size) for size in sizes]
        told += any(not by_chance(times, size, 0.1, number) for times, size in made)
    assert 10 <= told <= 65


@pytest.mark.parametrize(("places", "of"), [((0, 1), 14), ((0, 1, 5, 8, 12), 20), ((7,), 8)])
def test_places_drawn_so_low_are_counted_as_every_draw_would(
    places: tuple[int, ...], of: int
) -> None:
    sums = [sum(draw) for draw in combinations(range(of), len(places))]
    assert drawn_so_low(places, of) == sum(one <= sum(places) for one in sums) / len(sums)
