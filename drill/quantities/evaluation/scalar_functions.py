"""Functions of single values: rounding, roots, gradients, percentages."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from drill.frozen import replace
from drill.quantities import arithmetic
from drill.quantities.figures import half_up, to_figures
from drill.quantities.units.conversion import is_plain, named
from drill.quantities.units.unit_reading import unit_of
from drill.quantities.values import PLAIN, Fault, Quantity, Unit, Value

_MOST_PLACES = 20


def quantities(values: Sequence[Value]) -> tuple[Quantity, ...] | Fault:
    """The values as quantities, or the Fault that one of them is something else."""
    for value in values:
        if not isinstance(value, Quantity):
            return Fault(f"a number is wanted here, not {described(value)}")
    return tuple(value for value in values if isinstance(value, Quantity))


def described(value: Value) -> str:
    """What kind of value it is, for a message."""
    match value:
        case Quantity(_, unit):
            return f"a number in {named(unit)}" if unit.symbol else "a plain number"
        case bool():
            return "true or false"
        case str():
            return f"the text {value[:40]!r}"
        case tuple():
            return "a list"
        case _:
            return f"a row of {value.table}"


def rounded(values: Sequence[Value]) -> Value | Fault:
    """x rounded half up to this many decimal places in its own unit, and shown with them."""
    found = _with_whole(values, "round", 0, _MOST_PLACES)
    if isinstance(found, Fault):
        return found
    quantity, places = found
    return Quantity(half_up(quantity.value, places), quantity.unit, places)


def significant(values: Sequence[Value]) -> Value | Fault:
    """x rounded half up to this many figures in its own unit, and shown with them."""
    found = _with_whole(values, "sig", 1, _MOST_PLACES)
    if isinstance(found, Fault):
        return found
    quantity, figures = found
    return Quantity(to_figures(quantity.value, figures), quantity.unit, figures=figures)


def _with_whole(
    values: Sequence[Value], name: str, fewest: int, most: int
) -> tuple[Quantity, int] | Fault:
    found = quantities(values)
    if isinstance(found, Fault):
        return found
    quantity, count = found
    wanted = count.value
    if not is_plain(count.unit) or wanted.denominator != 1 or not fewest <= wanted <= most:
        return Fault(f"{name} wants a whole number from {fewest} to {most} behind the comma")
    return quantity, int(wanted)


def floor(values: Sequence[Value]) -> Value | Fault:
    """The whole number at or below x, in the unit it is in."""
    found = quantities(values)
    if isinstance(found, Fault):
        return found
    return Quantity(Fraction(found[0].value.__floor__()), found[0].unit, 0)


def ceil(values: Sequence[Value]) -> Value | Fault:
    """The whole number at or above x, in the unit it is in."""
    found = quantities(values)
    if isinstance(found, Fault):
        return found
    return Quantity(Fraction(found[0].value.__ceil__()), found[0].unit, 0)


def absolute(values: Sequence[Value]) -> Value | Fault:
    """x without its sign."""
    found = quantities(values)
    return found if isinstance(found, Fault) else replace(found[0], value=abs(found[0].value))


def sqrt(values: Sequence[Value]) -> Value | Fault:
    """The square root; see `arithmetic.square_root`."""
    found = quantities(values)
    return found if isinstance(found, Fault) else arithmetic.square_root(found[0])


def log10(values: Sequence[Value]) -> Value | Fault:
    """The logarithm to base ten; see `arithmetic.logarithm`."""
    found = quantities(values)
    return found if isinstance(found, Fault) else arithmetic.logarithm(found[0])


def gradient(values: Sequence[Value]) -> Value | Fault:
    """The gradient of the line through (x1, y1) and (x2, y2), in the unit of y over that of x."""
    found = quantities(values)
    if isinstance(found, Fault):
        return found
    x1, y1, x2, y2 = found
    rise, run = arithmetic.add(y2, y1, -1), arithmetic.add(x2, x1, -1)
    if isinstance(rise, Fault):
        return rise
    if isinstance(run, Fault):
        return run
    if not run.value:
        return Fault("the two points of a gradient have the same x")
    return arithmetic.divide(rise, run)


def percent_of(values: Sequence[Value]) -> Value | Fault:
    """100 * part / whole, both in units of one size."""
    found = quantities(values)
    return found if isinstance(found, Fault) else _percent(found[0], found[1])


def percent_change(values: Sequence[Value]) -> Value | Fault:
    """100 * (to - from) / from."""
    found = quantities(values)
    if isinstance(found, Fault):
        return found
    change = arithmetic.add(found[1], found[0], -1)
    return change if isinstance(change, Fault) else _percent(change, found[0])


def percent_error(values: Sequence[Value]) -> Value | Fault:
    """100 * abs(measured - true) / true."""
    found = quantities(values)
    if isinstance(found, Fault):
        return found
    error = arithmetic.add(found[0], found[1], -1)
    if isinstance(error, Fault):
        return error
    return _percent(replace(error, value=abs(error.value)), found[1])


def _percent(part: Quantity, whole: Quantity) -> Quantity | Fault:
    unit = arithmetic.common_unit(part.unit, whole.unit, "compare")
    if isinstance(unit, Fault):
        return unit
    share = arithmetic.divide(Quantity(100 * part.value), Quantity(whole.value))
    return share if isinstance(share, Fault) else Quantity(share.value, _per_cent())


def _per_cent() -> Unit:
    return unit_of("%") or PLAIN
