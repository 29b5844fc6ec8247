"""The axes of a graph, as a pupil is taught to choose them.

Numbers go up in steps of 1, 2 or 5 (or ten times these), the drawn values fill more than half of
the grid, zero is on the axis when that costs little (common practice, no source). A small
division is never finer than the smallest screen can show: three dots of it.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from drill.model.graph import dots_a_division, number_at

LEAST = 3  # dots a small division, so that half of one can be told
LETTER = 2  # dots of a character, across


class Room(NamedTuple):
    """`dots` along the axis on a screen of 80 by 24, and the fewest from number to number."""

    dots: int
    apart: int
    upright: bool


ACROSS = Room(132, 12, upright=False)
UP = Room(52, 8, upright=True)


class Numbers(NamedTuple):
    """An axis without its name: ends, step from number to number, small divisions in a step."""

    low: Fraction
    high: Fraction
    step: Fraction
    spaces: int

    @property
    def division(self) -> Fraction:
        return self.step / self.spaces

    def dots(self, room: Room) -> int:
        """How many dots a small division has in this space."""
        steps = (self.high - self.low) / self.step
        return dots_a_division(int(steps * self.spaces), self.spaces, room.dots, room.upright)


def numbers_for(least: Fraction, most: Fraction, room: Room) -> Numbers:
    """The finest axis that shows `least` to `most` and fits the space.

    It begins at zero if that does not make the divisions coarser.

    Raises:
        ValueError: there is nothing to show: both ends are the same.
    """
    if most <= least:
        raise ValueError("an axis needs two different values")
    made = _finest(least, most, room)
    if least > 0:
        from_zero = _finest(Fraction(0), most, room)
        used = 2 * (most - least) > from_zero.high
        return from_zero if used and from_zero.division == made.division else made
    return made


def _finest(least: Fraction, most: Fraction, room: Room) -> Numbers:
    for division in _steps(least, most):
        if (most - least) * LEAST > division * room.dots:
            continue  # too fine for the room, however the axis ends
        axes = _with_division(division, least, most)
        fitting = [one for one in axes if _fits(one, room) and _fills(one, least, most)]
        if fitting:
            return max(fitting, key=lambda one: _liking(one, room))
    raise ValueError("no axis fits so little room")


def _steps(least: Fraction, most: Fraction) -> Iterator[Fraction]:
    """1, 2, 5, 10 … starting well below any division that fits."""
    power = Fraction(1)
    while power * 100 > most - least:
        power /= 10
    while power * 10000 < most - least:
        power *= 10
    for _ in range(8):
        yield from (power, power * 2, power * 5)
        power *= 10


def _with_division(division: Fraction, least: Fraction, most: Fraction) -> Iterator[Numbers]:
    """Axes of this small division, numbered at every step of 1, 2 or 5 that it divides.

    They begin at a number; they may end between two.
    """
    for spaces in (2, 4, 5, 10, 20):
        step = division * spaces
        if _is_a_step(step):
            low = least // step * step
            for end in (step, division):
                yield Numbers(low, -(-most // end) * end, step, spaces)


def _is_a_step(step: Fraction) -> bool:
    """Whether it is 1, 2 or 5 times a power of ten."""
    while step < 1:
        step *= 10
    while step >= 10:
        step /= 10
    return step in (1, 2, 5)


def _liking(one: Numbers, room: Room) -> tuple[bool, Fraction, int]:
    """The order of preference: a number at the end, then many numbers, then large divisions."""
    numbered = (one.high - one.low) % one.step == 0
    return numbered, -one.step, one.dots(room)


def _fills(one: Numbers, least: Fraction, most: Fraction) -> bool:
    """More than half of the axis is used."""
    return 2 * (most - least) > one.high - one.low


def _fits(one: Numbers, room: Room) -> bool:
    size = one.dots(room)
    apart = size * one.spaces
    wide = max(len(number_at(end, one.step)) for end in (one.low, one.high))
    least = room.apart if room.upright else max(room.apart, LETTER * (wide + 2))
    return size >= LEAST and apart >= least and one.high - one.low >= 2 * one.step
