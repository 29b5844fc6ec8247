"""Whether a typed value is a correct rounding of an exact one. Everything here is exact."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from drill.marking.numeric.number_reading import TypedNumber
from drill.model import NumberKey
from drill.quantities import half_even, half_up, show_decimals, to_figures

_POWERS: tuple[int, ...] = (1, 2, 3, 4, 5, 6, -1, -2, -3, -4, -5, -6)
_SUM = re.compile(r"[\w.]+(?:\s*[-+]\s*[\w.]+)+")  # names and numbers, added and taken away
FEWEST = 2  # figures a rounded answer needs, unless the exact value has fewer itself


def is_rounding(number: TypedNumber, exact: Fraction, scale: Fraction = Fraction(1)) -> bool:
    """Whether `number` is `exact` rounded at the place where it was typed.

    Args:
        exact: the value in the key's unit.
        scale: key's units in one of the typed unit, so that "0.0250 dm3" answers 25 cm3.
    """
    target = exact / scale
    if number.value == target:
        return True
    return any(
        figures >= FEWEST and _is_rounded(number, target, places) and _keeps(number, target, places)
        for places, figures in zip(number.places, number.figures, strict=True)
    )


def is_too_short(number: TypedNumber, exact: Fraction, scale: Fraction = Fraction(1)) -> bool:
    """A correct rounding, but to fewer figures than are worth anything: 10 for 9.57."""
    target = exact / scale
    return any(_is_rounded(number, target, places) for places in number.places)


def _is_rounded(number: TypedNumber, target: Fraction, places: int) -> bool:
    return number.value in (half_up(target, places), half_even(target, places))


def _keeps(number: TypedNumber, target: Fraction, places: int) -> bool:
    """Whether two figures of the exact value are left: in 10 for 9.57 just one is."""
    return abs(target) >= Fraction(10) ** (FEWEST - 1 - places) or (
        number.value == to_figures(target, FEWEST)
    )


def is_as_asked(
    number: TypedNumber, exact: Fraction, decimals: int | None, figures: int | None
) -> bool:
    """Whether it is the exact value to just the places or figures that were asked for."""
    if decimals is not None and decimals in number.places:
        return _is_rounded(number, exact, decimals)
    return figures in number.figures and number.value == to_figures(exact, figures)


def is_cut_short(number: TypedNumber, exact: Fraction, key: NumberKey) -> bool:
    """Whether a last 5 that was read and asked for was rounded away: 25.2 or 25.3 for 25.25.

    So only where readings are added or taken away: what comes out has just their places, and a
    scale that is read to the half division is not read so.
    """
    places = max(number.places, default=key.decimals or 0)
    if key.decimals is None or places >= key.decimals:
        return False
    if abs(number.value - exact) * 2 * Fraction(10) ** places != 1:
        return False
    made = next((one.is_ for one in key.chain.steps if one.name == key.answer.text), key.answer)
    whole = (exact * Fraction(10) ** key.decimals).denominator == 1
    return whole and _SUM.fullmatch(made.text) is not None


@dataclass(frozen=True)
class Misrounded:
    """A value on the wrong side of the exact one: `cut` when towards zero. All as shown."""

    exact: str
    right: str
    cut: bool


def misrounded(
    number: TypedNumber, exact: Fraction, scale: Fraction = Fraction(1)
) -> Misrounded | None:
    """How a value next to the exact one should have been rounded; None when it is no neighbour."""
    target = exact / scale
    for places, figures in zip(number.places, number.figures, strict=True):
        cut = _cut(target, places)
        beside = cut + (1 if target >= 0 else -1) * Fraction(10) ** -places
        if figures < FEWEST or cut == target or number.value not in (cut, beside):
            continue
        if not _is_rounded(number, target, places):
            right = show_decimals(half_up(target, places), places)
            longer = show_decimals(_cut(target, places + 1), places + 1)
            return Misrounded(longer, right, number.value == cut)
    return None


def _cut(target: Fraction, places: int) -> Fraction:
    """`target` with everything behind the place left off."""
    step = Fraction(10) ** -places
    return step * (abs(target) // step) * (1 if target >= 0 else -1)


def is_near(number: TypedNumber, exact: Fraction, scale: Fraction = Fraction(1)) -> bool:
    """The same to three figures: near enough to tell which wrong route was taken."""
    if is_rounding(number, exact, scale):
        return True
    target = exact / scale
    return bool(target) and to_figures(number.value, 3) == to_figures(target, 3) != 0


def power_of_ten(number: TypedNumber, exact: Fraction, scale: Fraction = Fraction(1)) -> int | None:
    """How many powers of ten the value is out when its digits are right; None when they are not."""
    for power in _POWERS:
        if is_rounding(number, exact * Fraction(10) ** power, scale):
            return power
    return None


def fits_figures(number: TypedNumber, decimals: int | None, figures: int | None) -> bool:
    """Whether it was typed to just the places or figures that were asked for."""
    if decimals is not None:
        return decimals in number.places
    return figures is None or figures in number.figures
