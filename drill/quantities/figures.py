"""Rounding, figures and places, exactly; and numbers written out for people.

Half up means away from zero on an exact tie, as schools teach it (ISO 80000-1:2009 annex B,
rule B); half to even is the other published rule (rule A). Both are right on a tie.
"""

from __future__ import annotations

from fractions import Fraction

from drill.quantities.values import Quantity

_TERMINATES_WITHIN = 6
_FIGURES_OTHERWISE = 4
_SMALLEST, _LARGEST = Fraction(1, 10**4), Fraction(10**7)


def half_up(value: Fraction, decimals: int) -> Fraction:
    """`value` rounded to `decimals` places, an exact tie away from zero."""
    whole = _steps(value, decimals)
    return Fraction(whole, 10**decimals) if decimals >= 0 else Fraction(whole * 10**-decimals)


def _steps(value: Fraction, decimals: int) -> int:
    """How many steps of 10^-decimals the rounded value is.

    In whole numbers: questions are made by the thousand, and Fraction arithmetic is slow.
    """
    top, bottom = value.numerator, value.denominator
    if decimals >= 0:
        top *= 10**decimals
    else:
        bottom *= 10**-decimals
    if top >= 0:
        return (2 * top + bottom) // (2 * bottom)
    return -((bottom - 2 * top) // (2 * bottom))


def half_even(value: Fraction, decimals: int) -> Fraction:
    """`value` rounded to `decimals` places, an exact tie to the even digit."""
    return round(value * Fraction(10) ** decimals) * Fraction(10) ** -decimals


def to_figures(value: Fraction, figures: int) -> Fraction:
    """`value` to `figures` significant figures, half up; 0 stays 0."""
    return half_up(value, figures - 1 - exponent_of(value)) if value else value


def exponent_of(value: Fraction) -> int:
    """The power of ten of the first digit: 0.025 -> -2, 660 -> 2. 0 for 0."""
    size = abs(value)
    if not size:
        return 0
    bits = size.numerator.bit_length() - size.denominator.bit_length()
    guess = bits * 30103 // 100000
    while not _at_least(size, guess):
        guess -= 1
    while _at_least(size, guess + 1):
        guess += 1
    return guess


def _at_least(size: Fraction, power: int) -> bool:
    """Whether `size` is 10^power or more."""
    if power >= 0:
        return size.numerator >= size.denominator * int(10**power)
    return size.numerator * int(10**-power) >= size.denominator


def show_decimals(value: Fraction, decimals: int) -> str:
    """`value` with exactly this many places ("12.40"), half up; a rounded zero has no sign."""
    places = max(decimals, 0)
    whole = _steps(value, decimals) * 10 ** (places - decimals)
    digits = str(abs(whole)).rjust(places + 1, "0")
    sign = "-" if whole < 0 else ""
    return sign + (f"{digits[:-places]}.{digits[-places:]}" if places else digits)


def show_figures(value: Fraction, figures: int) -> str:
    """`value` to this many significant figures: "66.0", "0.0250", "1.2 × 10^-5".

    Standard form is used below 1e-4 and from 1e7 on.
    """
    rounded = to_figures(value, figures)
    exponent = exponent_of(rounded)
    if rounded and not _SMALLEST <= abs(rounded) < _LARGEST:
        mantissa = show_decimals(rounded * Fraction(10) ** -exponent, figures - 1)
        return f"{mantissa} × 10^{exponent}"
    return show_decimals(rounded, figures - 1 - exponent)


def show(quantity: Quantity, unit: bool = True) -> str:
    """The quantity for a reader, "12.40 g": in its places or figures, else as short as is exact.

    Without places of its own it is written exactly if that takes at most 6 decimals, else to 4
    significant figures. `unit=False` leaves the unit out.
    """
    number = _number(quantity)
    return f"{number} {quantity.unit.symbol}" if unit and quantity.unit.symbol else number


def _number(quantity: Quantity) -> str:
    value = quantity.value
    if quantity.decimals is not None:
        return show_decimals(value, quantity.decimals)
    if quantity.figures is not None:
        return show_figures(value, quantity.figures)
    for places in range(_TERMINATES_WITHIN + 1):
        if 10**places % value.denominator == 0:
            return show_decimals(value, places)
    return show_figures(value, _FIGURES_OTHERWISE)


def figures_of(text: str) -> int | None:
    """Significant figures of a typed number; None if it is no number, zero, or ambiguous.

    The trailing zeros of a whole number are ambiguous ("1500"): see `figures_between`.
    """
    ends = figures_between(text)
    return ends[0] if ends and ends[0] == ends[1] else None


def figures_between(text: str) -> tuple[int, int] | None:
    """Fewest and most significant figures a typed number may have: "1500" -> (2, 4)."""
    parts = _parts(text)
    if parts is None:
        return None
    whole, fraction, _ = parts
    digits = (whole + (fraction or "")).lstrip("0")
    if not digits:
        return None
    fewest = len(digits) if fraction is not None else len(digits.rstrip("0"))
    return fewest, len(digits)


def decimals_of(text: str) -> int:
    """Decimal places of a typed number, standard form counted in full: "1.20e-3" -> 5."""
    parts = _parts(text)
    if parts is None:
        return 0
    _, fraction, exponent = parts
    return max(0, len(fraction or "") - exponent)


def _parts(text: str) -> tuple[str, str | None, int] | None:
    """(whole, digits after the point or None without a point, exponent) of a plain number."""
    mantissa, _, power = text.strip().lower().lstrip("+-").partition("e")
    whole, point, fraction = mantissa.partition(".")
    power_digits = power.lstrip("+-")
    if not _digits(whole + fraction) or (power and not _digits(power_digits)):
        return None
    if len(power_digits) > 4 or ("e" in text.lower() and not power):
        return None
    return whole, fraction if point else None, int(power or 0)


def _digits(text: str) -> bool:
    return text.isascii() and text.isdigit()
