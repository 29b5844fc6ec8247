"""Exact arithmetic on quantities: numbers and units together, a Fault instead of an exception."""

from __future__ import annotations

from fractions import Fraction
from math import isqrt

from drill.quantities.units.conversion import (
    convert,
    is_plain,
    named,
    product,
    root,
    same_dimension,
    same_size,
)
from drill.quantities.values import PLAIN, Fault, Quantity, Unit

MOST_DIGITS = 2000
LARGEST_POWER = 64
ROOT_DIGITS = 40
_MOST_BITS = MOST_DIGITS * 10 // 3


def plain(value: Fraction | int) -> Quantity:
    """A number without a unit."""
    return Quantity(Fraction(value))


def bounded(quantity: Quantity) -> Quantity | Fault:
    """The quantity itself, unless its exact value has grown beyond `MOST_DIGITS` digits."""
    value = quantity.value
    if max(value.numerator.bit_length(), value.denominator.bit_length()) > _MOST_BITS:
        return Fault(f"an exact value has at most {MOST_DIGITS} digits", hint="Use round or sig.")
    return quantity


def add(a: Quantity, b: Quantity, sign: int = 1) -> Quantity | Fault:
    """a + b (or a - b with sign -1); both must be in units of one size."""
    unit = common_unit(a.unit, b.unit, "add" if sign > 0 else "subtract")
    if isinstance(unit, Fault):
        return unit
    places = None
    if a.decimals is not None and b.decimals is not None:
        places = max(a.decimals, b.decimals)
    return bounded(Quantity(a.value + sign * b.value, unit, places))


def subtract(a: Quantity, b: Quantity) -> Quantity | Fault:
    """a - b; both must be in units of one size."""
    return add(a, b, -1)


def common_unit(a: Unit, b: Unit, verb: str) -> Unit | Fault:
    """The unit of a sum: that of the first, or of the other if the first is a plain number."""
    if a is b:
        return a
    if not same_dimension(a, b):
        return Fault(f"cannot {verb} {named(a)} and {named(b)}: they measure other things")
    if not same_size(a, b):
        return Fault(f"cannot {verb} {named(a)} and {named(b)}: one of them must be converted")
    return a if a.symbol or not b.symbol else b


def multiply(a: Quantity, b: Quantity) -> Quantity | Fault:
    """a * b with its unit: cm3 * mol/dm3 is an amount with a scale of 1/1000."""
    unit = product(a.unit, b.unit)
    if isinstance(unit, Fault):
        return unit
    return bounded(Quantity(a.value * b.value, unit))


def divide(a: Quantity, b: Quantity) -> Quantity | Fault:
    """a / b, units and all."""
    if not b.value:
        return Fault("cannot divide by zero")
    unit = product(a.unit, b.unit, -1)
    if isinstance(unit, Fault):
        return unit
    return bounded(Quantity(a.value / b.value, unit))


def power(base: Quantity, exponent: Quantity) -> Quantity | Fault:
    """base ^ exponent; the exponent is a whole number up to 64, or a half."""
    if not is_plain(exponent.unit):
        return Fault(f"an exponent is a plain number, not one in {named(exponent.unit)}")
    if exponent.value == Fraction(1, 2):
        return square_root(base)
    if exponent.value.denominator != 1 or abs(exponent.value) > LARGEST_POWER:
        return Fault(
            f"an exponent is a whole number from -{LARGEST_POWER} to {LARGEST_POWER}, or 1/2",
            hint="Use sqrt for a square root.",
        )
    return _whole_power(base, int(exponent.value))


def _whole_power(base: Quantity, times: int) -> Quantity | Fault:
    value = base.value
    if not value and times < 0:
        return Fault("cannot divide by zero")
    bits = max(value.numerator.bit_length(), value.denominator.bit_length())
    if bits > 1 and (bits - 1) * abs(times) > _MOST_BITS:  # looked at before the work is done
        return Fault(f"an exact value has at most {MOST_DIGITS} digits", hint="Use round or sig.")
    unit = product(PLAIN, base.unit, times) if times else PLAIN
    if isinstance(unit, Fault):
        return unit
    return bounded(Quantity(value**times, unit))


def square_root(quantity: Quantity) -> Quantity | Fault:
    """The square root: exact when there is an exact one, else to 40 significant digits.

    A root that never ends cannot be an exact fraction; forty digits are far beyond any rounding
    a question asks for.
    """
    if quantity.value < 0:
        return Fault("a negative number has no square root")
    unit = root(quantity.unit)
    if isinstance(unit, Fault):
        return unit
    above, below = isqrt(quantity.value.numerator), isqrt(quantity.value.denominator)
    exact = Fraction(above, below)
    if exact * exact == quantity.value:
        return Quantity(exact, unit)
    return Quantity(_by_decimal(quantity.value, "sqrt"), unit)


def logarithm(quantity: Quantity) -> Quantity | Fault:
    """log10 of a plain number above zero, to 40 significant digits (exact for powers of ten)."""
    if not is_plain(quantity.unit):
        return Fault(
            f"log10 wants a plain number, not one in {named(quantity.unit)}",
            hint=f"Divide by the unit first: log10(x / (1 in {quantity.unit.symbol})).",
        )
    if quantity.value <= 0:
        return Fault("log10 wants a number above zero")
    return Quantity(_by_decimal(quantity.value, "log10"))


def _by_decimal(value: Fraction, function: str) -> Fraction:
    from decimal import Context, Decimal

    # ten guard digits, so that the division before it cannot reach the fortieth
    context = Context(prec=ROOT_DIGITS + 10)
    number = context.divide(Decimal(value.numerator), Decimal(value.denominator))
    worked = context.sqrt(number) if function == "sqrt" else context.log10(number)
    return Fraction(Context(prec=ROOT_DIGITS).plus(worked))


def compare(a: Quantity, b: Quantity) -> int | Fault:
    """-1, 0 or 1 as a is below, equal to or above b; units of one kind may differ in size."""
    other = convert(b, a.unit)
    if isinstance(other, Fault):
        return Fault(f"cannot compare {named(a.unit)} with {named(b.unit)}", hint=other.hint)
    return (a.value > other.value) - (a.value < other.value)
