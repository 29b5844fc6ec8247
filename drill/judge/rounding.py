"""Rounding and figures from their definitions, and numbers written out.

Half up: an exact tie goes away from zero (ISO 80000-1:2009 annex B, rule B); half even: to the
even digit (rule A). Significant figures count from the first digit that is not zero.
"""

from __future__ import annotations

from fractions import Fraction

_ENDS_WITHIN = 6  # decimal places that are written out when nobody says how many
_FIGURES = 4  # and figures where it does not end
_STANDARD_BELOW, _STANDARD_FROM = Fraction(1, 10**4), 10**7


def half_up(value: Fraction, places: int) -> Fraction:
    """The nearest multiple of 10^-places; in a tie, the one further from zero."""
    return _nearest(value, places, even=False)


def half_even(value: Fraction, places: int) -> Fraction:
    """The nearest multiple of 10^-places; in a tie, the even one."""
    return _nearest(value, places, even=True)


def _nearest(value: Fraction, places: int, even: bool) -> Fraction:
    step = Fraction(10) ** -places
    whole, left = divmod(abs(value), step)
    further = 2 * left > step or (2 * left == step and (not even or whole % 2 == 1))
    size = (whole + further) * step
    return -size if value < 0 else size


def cut_off(value: Fraction, places: int) -> Fraction:
    """The digits to this many decimal places, truncated."""
    step = Fraction(10) ** -places
    size = abs(value) // step * step
    return -size if value < 0 else size


def first_digit(value: Fraction) -> int:
    """The power of ten of the first digit that is not zero: 660 has 2, 0.025 has -2."""
    size = abs(value)
    power = len(str(size.numerator)) - len(str(size.denominator))
    while size and size < Fraction(10) ** power:
        power -= 1
    return power if size else 0


def to_figures(value: Fraction, figures: int) -> Fraction:
    """The value to this many significant figures; zero stays zero."""
    return half_up(value, figures - 1 - first_digit(value))


def with_places(value: Fraction, places: int) -> str:
    """The rounded value with exactly this many decimal places: "12.40"."""
    rounded = half_up(value, places)
    if places <= 0:
        return str(int(rounded))
    whole, rest = divmod(int(abs(rounded) * 10**places), 10**places)
    return f"{'-' if rounded < 0 else ''}{whole}.{rest:0{places}d}"


def with_figures(value: Fraction, figures: int) -> str:
    """The rounded value with this many figures: "0.0250", in standard form when far from 1."""
    rounded = to_figures(value, figures)
    power = first_digit(rounded)
    if rounded and not _STANDARD_BELOW <= abs(rounded) < _STANDARD_FROM:
        return f"{with_places(rounded / Fraction(10) ** power, figures - 1)} × 10^{power}"
    return with_places(rounded, figures - 1 - power)


def written(value: Fraction, places: int | None = None, figures: int | None = None) -> str:
    """A value as it is shown: in its places or figures, else as short as is exact."""
    if places is not None:
        return with_places(value, places)
    if figures is not None:
        return with_figures(value, figures)
    for few in range(_ENDS_WITHIN + 1):
        if half_up(value, few) == value:
            return with_places(value, few)
    return with_figures(value, _FIGURES)


def places_of(text: str) -> int:
    """Decimal places of a written number."""
    return len(text.partition(".")[2])
