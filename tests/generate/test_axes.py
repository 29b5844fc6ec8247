"""Axes are chosen as a pupil is taught: steps of 1, 2, 5, more than half used, all of it inside."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drill.generate.pictures.axes import ACROSS, LEAST, UP, Numbers, Room, numbers_for
from drill.model.graph import dots_a_division, number_at

VALUES = st.fractions(min_value=-(10**6), max_value=10**6, max_denominator=1000)
WIDTHS = st.fractions(min_value=Fraction(1, 1000), max_value=10**6, max_denominator=1000)
ROOMS = st.sampled_from([ACROSS, UP])


def is_one_two_or_five(value: Fraction) -> bool:
    while value >= 10:
        value /= 10
    while value < 1:
        value *= 10
    return value in (1, 2, 5)


@given(VALUES, WIDTHS, ROOMS)
def test_every_axis(least: Fraction, width: Fraction, room: Room) -> None:
    made = numbers_for(least, least + width, room)
    assert made.low <= least
    assert least + width <= made.high
    assert is_one_two_or_five(made.step)
    assert is_one_two_or_five(made.division)
    assert made.low % made.step == 0
    assert (made.high - made.low) % made.division == 0
    assert 2 * width > made.high - made.low or made.low == 0
    assert made.dots(room) >= LEAST
    assert made.dots(room) * (made.high - made.low) / made.division <= room.dots


@given(VALUES, WIDTHS, ROOMS)
def test_no_finer_axis_would_fit(least: Fraction, width: Fraction, room: Room) -> None:
    """Half the division needs twice the dots, and there is not so much room."""
    made = numbers_for(least, least + width, room)
    assert width / (made.division / Fraction(5, 2)) * LEAST * 2 > room.dots


@pytest.mark.parametrize(
    ("least", "most", "room", "wanted"),
    [
        (0, 48, UP, (0, 50, 10, 2)),
        (0, 60, UP, (0, 60, 10, 2)),
        (0, 78, UP, (0, 80, 20, 4)),
        (20, 37, UP, (20, 37, 5, 5)),
        (21, 37, UP, (20, 37, 5, 5)),
        (3, 100, ACROSS, (0, 100, 10, 2)),
        (0, 6, ACROSS, (0, 6, 1, 5)),
    ],
)
def test_some_axes(least: int, most: int, room: Room, wanted: tuple[int, ...]) -> None:
    assert numbers_for(Fraction(least), Fraction(most), room) == Numbers(*map(Fraction, wanted))


def test_nothing_to_show() -> None:
    with pytest.raises(ValueError, match="two different"):
        numbers_for(Fraction(2), Fraction(2), UP)


@given(st.integers(1, 60), st.sampled_from([2, 4, 5, 10]), st.integers(0, 400))
def test_dots_of_a_division_fit(divisions: int, spaces: int, dots: int) -> None:
    for upright in (True, False):
        size = dots_a_division(divisions, spaces, dots, upright)
        assert 0 <= size * divisions <= dots


def test_numbers_as_they_stand_at_an_axis() -> None:
    half = Fraction(1, 2)
    assert [number_at(n * half, half) for n in (-1, 0, 3)] == ["−0.5", "0.0", "1.5"]
    assert number_at(Fraction(120), Fraction(20)) == "120"
