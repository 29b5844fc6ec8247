"""Units as values: comparison, conversion, products and powers.

A composed symbol is written one way only ("mol/dm3", "J/(kg °C)"), whatever was typed, so that
equal units are equal values.
"""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache

from drill.quantities.units.unit_reading import factors_of, unit_from
from drill.quantities.values import PLAIN, Fault, Quantity, Unit

LARGEST_POWER = 99
_OWN_ZERO = frozenset({"°C", "°F"})


def same_dimension(a: Unit, b: Unit) -> bool:
    """Whether both measure the same kind of thing (cm3 and dm3 do, cm3 and g do not).

    Per cent, angles and counted things have no dimension: compare symbols where it matters.
    """
    return a.dimension == b.dimension


def same_size(a: Unit, b: Unit) -> bool:
    """Whether a number means the same in both: same dimension, same scale, same zero."""
    return a.dimension == b.dimension and a.scale == b.scale and not _other_zero(a, b)


def convert(quantity: Quantity, to: Unit) -> Quantity | Fault:
    """The same quantity in `to`, exactly; its decimals are kept only if the number is unchanged.

    Degrees Celsius, Fahrenheit and kelvin are not converted into each other: a temperature needs
    an offset and a difference does not, and a number alone does not say which it is.
    """
    unit = quantity.unit
    if unit == to:
        return quantity
    if not same_dimension(unit, to):
        message = f"{named(unit)} cannot be turned into {named(to)}: they measure other things"
        bare = f"Multiply by (1 in {to.symbol}) to give a bare number a unit."
        return Fault(message, hint=bare if is_plain(unit) else "")
    if _other_zero(unit, to):
        return Fault(
            f"{named(unit)} is not turned into {named(to)}: their zeros differ",
            hint="Keep to one of them.",
        )
    if unit.scale == to.scale:
        return Quantity(quantity.value, to, quantity.decimals, quantity.figures)
    return Quantity(quantity.value * unit.scale / to.scale, to)


def named(unit: Unit) -> str:
    """The unit for a message; a plain number is called that."""
    return unit.symbol or "a plain number"


def is_plain(unit: Unit) -> bool:
    """Whether a number in this unit is just that number (plain, per cent, counted things)."""
    return unit.scale == 1 and not any(unit.dimension)


@lru_cache(maxsize=2048)
def product(a: Unit, b: Unit, power: int = 1) -> Unit | Fault:
    """The unit of a value in `a` times the `power`-th power of a value in `b`."""
    if is_plain(b):
        return PLAIN if is_plain(a) else a
    factors = {} if is_plain(a) else dict(factors_of(a.symbol))
    for atom, exponent in factors_of(b.symbol):
        factors[atom] = factors.get(atom, 0) + exponent * power
    if any(abs(exponent) > LARGEST_POWER for exponent in factors.values()):
        return Fault(f"the unit has grown beyond the power {LARGEST_POWER}")
    return unit_from((atom, exponent) for atom, exponent in factors.items() if exponent)


@lru_cache(maxsize=2048)
def root(unit: Unit) -> Unit | Fault:
    """The unit whose square this is; a Fault when there is none (a root of cm3)."""
    if is_plain(unit):
        return PLAIN
    factors = factors_of(unit.symbol)
    if any(exponent % 2 for _, exponent in factors):
        return Fault(f"{named(unit)} has no square root among units")
    return unit_from((atom, exponent // 2) for atom, exponent in factors)


def pretty(symbol: str) -> str:
    """A unit's symbol with raised digits, for a screen that has them: "mol/dm3" -> "mol/dm³"."""
    return symbol.translate(str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹"))


def ratio(a: Unit, b: Unit) -> Fraction:
    """How many of `b` one of `a` is."""
    return a.scale / b.scale


def _other_zero(a: Unit, b: Unit) -> bool:
    return a.symbol != b.symbol and not _OWN_ZERO.isdisjoint((a.symbol, b.symbol))
