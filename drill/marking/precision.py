"""Whether a typed value is a correct rounding of an exact one. Everything here is exact."""

from __future__ import annotations

from fractions import Fraction

from drill.marking.reading import Number
from drill.quantities import half_even, half_up, to_figures

_POWERS: tuple[int, ...] = (1, 2, 3, 4, 5, 6, -1, -2, -3, -4, -5, -6)
FEWEST = 2  # figures a rounded answer needs, unless the exact value has fewer itself


def is_rounding(number: Number, exact: Fraction, scale: Fraction = Fraction(1)) -> bool:
    """Whether `number` is `exact` rounded at the place where it was typed.

    Args:
        exact: the value in the key's unit.
        scale: key's units in one of the typed unit, so that "0.0250 dm3" answers 25 cm3.
    """
    target = exact / scale
    if number.value == target:
        return True
    return any(
        figures >= FEWEST and number.value in (half_up(target, places), half_even(target, places))
        for places, figures in zip(number.places, number.figures, strict=True)
    )


def is_too_short(number: Number, exact: Fraction, scale: Fraction = Fraction(1)) -> bool:
    """A correct rounding, but to fewer figures than are worth anything."""
    target = exact / scale
    return any(
        figures < FEWEST and number.value in (half_up(target, places), half_even(target, places))
        for places, figures in zip(number.places, number.figures, strict=True)
    )


def is_cut_off(number: Number, exact: Fraction, scale: Fraction = Fraction(1)) -> bool:
    """Cut off where it should have been rounded up."""
    target = exact / scale
    for places, figures in zip(number.places, number.figures, strict=True):
        step = Fraction(10) ** -places
        cut = step * (abs(target) // step) * (1 if target >= 0 else -1)
        if figures >= FEWEST and number.value == cut:
            return True
    return False


def is_near(number: Number, exact: Fraction, scale: Fraction = Fraction(1)) -> bool:
    """The same to three figures: near enough to tell which wrong route was taken."""
    if is_rounding(number, exact, scale):
        return True
    target = exact / scale
    return bool(target) and to_figures(number.value, 3) == to_figures(target, 3) != 0


def power_of_ten(number: Number, exact: Fraction, scale: Fraction = Fraction(1)) -> int | None:
    """How many powers of ten the value is out when its digits are right; None when they are not."""
    for power in _POWERS:
        if is_rounding(number, exact * Fraction(10) ** power, scale):
            return power
    return None


def fits_figures(number: Number, decimals: int | None, figures: int | None) -> bool:
    """Whether it was typed to just the places or figures that were asked for."""
    if decimals is not None:
        return decimals in number.places
    return figures is None or figures in number.figures
