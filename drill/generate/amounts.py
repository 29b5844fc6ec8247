"""How a value is written inside a worked answer: exact where it ends, cut off with … where not."""

from __future__ import annotations

from fractions import Fraction

from drill.quantities import Quantity, figures_of, half_up, show_decimals, show_figures

_FIGURES = 6  # of an unrounded value that does not end
_ENDS_WITHIN = 6  # decimal places


def number_text(value: Fraction, decimals: int | None = None) -> str:
    """A number without rounding it: 6.2375, 66.0521…, or 53.00 where it is known to 2 places."""
    if decimals is not None and half_up(value, decimals) == value:
        return _minus(show_decimals(value, decimals))
    most = max(_ENDS_WITHIN, _FIGURES - _places_before(value))
    for places in range(most + 1):
        if (value * 10**places).denominator == 1:
            return _minus(show_decimals(value, places))
    return _minus(f"{_cut(value)}…")


def amount_text(quantity: Quantity) -> str:
    """A quantity without rounding it, with its unit: "6.2375 g"."""
    number = number_text(quantity.value, quantity.decimals)
    return with_unit(number, quantity.unit.symbol)


def with_unit(number: str, unit: str) -> str:
    """ "4.12 g", or the number alone."""
    return f"{number} {unit}" if unit else number


def converted_text(before: str, after: Quantity) -> str:
    """A converted value with the figures it was given with: 25.0 cm3 becomes 0.0250 dm3."""
    figures = figures_of(before.split(" ")[0].lstrip("−-"))
    if figures is not None and "…" not in before:
        shown = show_figures(after.value, figures)
        if "10^" not in shown and Fraction(shown) == after.value:
            return with_unit(_minus(shown), after.unit.symbol)
    return amount_text(Quantity(after.value, after.unit))


def _places_before(value: Fraction) -> int:
    """Digits before the point: 3 for 250, -2 for 0.0025."""
    size, places = abs(value), 0
    if not size:
        return 1
    while size >= 1:
        size, places = size / 10, places + 1
    while size < Fraction(1, 10):
        size, places = size * 10, places - 1
    return places


def _cut(value: Fraction) -> str:
    """The first figures of a value, cut off, not rounded."""
    places = max(_FIGURES - _places_before(value), 0)
    step = Fraction(1, 10**places)
    cut = abs(value) // step * step
    return show_decimals(-cut if value < 0 else cut, places)


def _minus(text: str) -> str:
    """A minus sign that cannot be taken for a dash between numbers."""
    return f"−{text[1:]}" if text.startswith("-") else text
