"""Chooses the numbers of an axis independently, by the rules that pupils are taught.

Numbers go up in ones, twos or fives times a power of ten. The smallest division that can be made
out on a screen of 80 by 24 is taken. More than half of the axis is used. The axis begins at zero if
that does not make the divisions coarser. Of several such axes one with a number at its end is
preferred, then one with more numbers, then one with larger divisions.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import product

from drill.judge.cannot import Cannot
from drill.judge.rounding import first_digit, with_places

_LEAST_DOTS = 3  # of a small division
_LETTER = 2  # dots of a character, across
_SPACES = (2, 4, 5, 10, 20)  # small divisions from number to number
_DECADES = 8


@dataclass(frozen=True)
class Room:
    """Dots along an axis on an 80 by 24 screen, and the minimum from number to number."""

    dots: int
    apart: int
    upright: bool


ACROSS, UP = Room(132, 12, upright=False), Room(52, 8, upright=True)


@dataclass(frozen=True)
class Numbers:
    """Both ends, from number to number, and the small divisions between two numbers."""

    low: Fraction
    high: Fraction
    step: Fraction
    spaces: int

    @property
    def division(self) -> Fraction:
        return self.step / self.spaces

    def dots(self, room: Room) -> int:
        """The most dots each division can have; vertically, numbers should fall on text lines."""
        most = room.dots // int((self.high - self.low) / self.division)
        on_lines = [n for n in range(1, most + 1) if n * self.spaces % 4 == 0]
        if not room.upright or not on_lines or on_lines[-1] * 4 < most * 3:
            return most
        return on_lines[-1]

    def fits(self, room: Room) -> bool:
        size = self.dots(room)
        wide = max(len(self._text(end)) for end in (self.low, self.high))
        apart = room.apart if room.upright else max(room.apart, _LETTER * (wide + 2))
        two_numbers = self.high - self.low >= 2 * self.step
        return size >= _LEAST_DOTS and size * self.spaces >= apart and two_numbers

    def _text(self, value: Fraction) -> str:
        places = next((n for n in range(7) if self.step * 10**n % 1 == 0), 7)
        return with_places(value, places)


def numbers_for(values: Iterable[Fraction], room: Room) -> Numbers:
    """The axis that shows these values.

    Raises:
        Cannot: there is none.
    """
    shown = list(values)
    least, most = min(shown), max(shown)
    if least == most:
        raise Cannot("an axis needs two different values")
    made = _finest(least, most, room)
    if least > 0:
        from_zero = _finest(Fraction(0), most, room)
        if from_zero.division == made.division and from_zero.high < 2 * (most - least):
            return from_zero
    return made


def _finest(least: Fraction, most: Fraction, room: Room) -> Numbers:
    for division in _divisions(most - least):
        if _LEAST_DOTS * (most - least) > division * room.dots:
            continue
        fitting = [
            one for one in _axes(division, least, most)
            if one.fits(room) and one.high - one.low < 2 * (most - least)
        ]  # fmt: skip
        if fitting:
            return max(fitting, key=lambda one: _liking(one, room))
    raise Cannot("no axis fits")


def _divisions(length: Fraction) -> Iterator[Fraction]:
    """1, 2, 5, 10 … from well below any that fits."""
    power = Fraction(1)
    while power * 100 > length:
        power /= 10
    while power * 10000 < length:
        power *= 10
    yield from (power * 10**n * one for n, one in product(range(_DECADES), (1, 2, 5)))


def _axes(division: Fraction, least: Fraction, most: Fraction) -> Iterator[Numbers]:
    """Axes that begin at a number and end at one, or between two."""
    for spaces in _SPACES:
        step = division * spaces
        if step / Fraction(10) ** first_digit(step) in (1, 2, 5):
            low = least // step * step
            for end in (step, division):
                yield Numbers(low, -(-most // end) * end, step, spaces)


def _liking(one: Numbers, room: Room) -> tuple[bool, Fraction, int]:
    return (one.high - one.low) % one.step == 0, -one.step, one.dots(room)
