"""How a value is written inside a worked answer: exact where it ends, cut off with … where not."""

from __future__ import annotations

from fractions import Fraction

from drill.quantities import Quantity, figures_of, show_decimals, show_figures, to_figures

_FIGURES = 6  # of an unrounded value that does not end
_ENDS_WITHIN = 6  # decimal places


def number_text(quantity: Quantity) -> str:
    """A number without rounding it: 6.2375, 66.0521…, or 53.00 where it is known to 2 places."""
    value, decimals, figures = quantity.value, quantity.decimals, quantity.figures
    if decimals is not None and 10**decimals % value.denominator == 0:
        return _minus(show_decimals(value, decimals))
    if figures is not None and to_figures(value, figures) == value:
        return _minus(show_figures(value, figures))
    places = _ends_after(value)
    if places is not None and places <= max(_ENDS_WITHIN, _FIGURES - places_before(value)):
        return _minus(show_decimals(value, places))
    return _minus(f"{_cut(value)}…")


def amount_text(quantity: Quantity) -> str:
    """A quantity without rounding it, with its unit: "6.2375 g"."""
    return with_unit(number_text(quantity), quantity.unit.symbol)


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


def _ends_after(value: Fraction) -> int | None:
    """Decimal places after which a value ends; None when it never does."""
    rest, twos, fives = value.denominator, 0, 0
    while rest % 2 == 0:
        rest, twos = rest // 2, twos + 1
    while rest % 5 == 0:
        rest, fives = rest // 5, fives + 1
    return max(twos, fives) if rest == 1 else None


def places_before(value: Fraction) -> int:
    """Digits before the point: 3 for 250, 0 for 0.25, -2 for 0.0025."""
    above, below = abs(value.numerator), value.denominator
    if not above:
        return 1
    places = len(str(above)) - len(str(below))
    low, high = (above, below * 10**places) if places >= 0 else (above * 10**-places, below)
    return places + 1 if low >= high else places


def _cut(value: Fraction) -> str:
    """The first figures of a value, cut off, not rounded."""
    places = max(_FIGURES - places_before(value), 0)
    cut = Fraction(abs(value.numerator) * 10**places // value.denominator, 10**places)
    return show_decimals(-cut if value < 0 else cut, places)


def _minus(text: str) -> str:
    """A minus sign that cannot be taken for a dash between numbers."""
    return f"−{text[1:]}" if text.startswith("-") else text
