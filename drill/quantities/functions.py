"""The functions of the expression language: what the trade works out, exactly.

Each takes evaluated arguments and gives a value, or raises `Refusal` with words. Units are kept:
a mean of masses is a mass. Roots and logarithms that do not come out are worked to 40 digits.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from decimal import Decimal, localcontext
from fractions import Fraction
from math import isqrt

from drill.quantities.figures import half_up, to_figures
from drill.quantities.units import is_plain, named, product, root, same_dimension, same_size
from drill.quantities.values import PLAIN, Fault, Quantity, Unit, Value

_DIGITS = 40
_MOST_PLACES = 30


class Refusal(Exception):
    """Why a value cannot be worked out; becomes a Fault."""


def quantity(value: Value) -> Quantity:
    """The value as a quantity, or a refusal that shows what it is."""
    if isinstance(value, Quantity):
        return value
    raise Refusal(f"{_shown(value)} is not a number")


def _shown(value: Value) -> str:
    return f'"{value}"' if isinstance(value, str) else str(type(value).__name__).lower()


def numbers(values: Sequence[Value]) -> list[Quantity]:
    """One list, or several numbers, as quantities of one unit."""
    only = values[0] if len(values) == 1 else None
    items = list(only) if isinstance(only, tuple) else list(values)
    found = [quantity(item) for item in items]
    if not found:
        raise Refusal("the list is empty")
    return [in_unit_of(item, found[0]) for item in found]


def in_unit_of(item: Quantity, other: Quantity) -> Quantity:
    """`item` if it is on the scale of `other`; a bare number takes the other's unit."""
    if same_size(item.unit, other.unit):
        return Quantity(item.value, other.unit, item.decimals)
    if is_plain(item.unit):
        return Quantity(item.value, other.unit, item.decimals)
    if not same_dimension(item.unit, other.unit):
        raise Refusal(f"{named(item.unit)} and {named(other.unit)} do not measure the same thing")
    raise Refusal(
        f"{named(item.unit)} and {named(other.unit)} are different sizes of unit: "
        f"write (x in {other.unit.symbol})"
    )


def unit_product(a: Unit, b: Unit, times: int = 1) -> Unit:
    """The unit of a product (times 1), quotient (-1) or power."""
    unit = product(a, b, times)
    if isinstance(unit, Fault):
        raise Refusal(unit.message)
    return unit


def _same(values: Sequence[Value], pick: Callable[[list[Fraction]], Fraction]) -> Quantity:
    items = numbers(values)
    return Quantity(pick([item.value for item in items]), items[0].unit)


def _mean(values: list[Fraction]) -> Fraction:
    return sum(values, Fraction(0)) / len(values)


def _rounded(arguments: Sequence[Value], how: Callable[[Fraction, int], Fraction]) -> Quantity:
    item, places = quantity(arguments[0]), quantity(arguments[1]).value
    if places.denominator != 1 or abs(places) > _MOST_PLACES:
        raise Refusal(f"cannot round to {places} places")
    return Quantity(how(item.value, int(places)), item.unit)


def round_(arguments: Sequence[Value]) -> Quantity:
    """`round(x, 2)`: half up, in the unit x has."""
    result = _rounded(arguments, half_up)
    return Quantity(result.value, result.unit, max(0, int(quantity(arguments[1]).value)))


def sig(arguments: Sequence[Value]) -> Quantity:
    """`sig(x, 3)`: to significant figures, half up."""
    if quantity(arguments[1]).value < 1:
        raise Refusal("significant figures start at 1")
    return _rounded(arguments, to_figures)


def _whole(how: Callable[[Fraction], int]) -> Callable[[Sequence[Value]], Quantity]:
    def work(arguments: Sequence[Value]) -> Quantity:
        item = quantity(arguments[0])
        return Quantity(Fraction(how(item.value)), item.unit)

    return work


def _abs(arguments: Sequence[Value]) -> Quantity:
    item = quantity(arguments[0])
    return Quantity(abs(item.value), item.unit)


def sqrt(arguments: Sequence[Value]) -> Quantity:
    """The square root: exact when it comes out, else to 40 digits. Even powers of units only."""
    item = quantity(arguments[0])
    if item.value < 0:
        raise Refusal("the square root of a negative number")
    unit = root(item.unit)
    if isinstance(unit, Fault):
        raise Refusal(unit.message)
    return Quantity(_square_root(item.value), unit)


def _root(value: Fraction) -> Fraction | None:
    above, below = isqrt(value.numerator), isqrt(value.denominator)
    exact = above * above == value.numerator and below * below == value.denominator
    return Fraction(above, below) if exact else None


def _square_root(value: Fraction) -> Fraction:
    exact = _root(value)
    if exact is not None:
        return exact
    with localcontext() as context:
        context.prec = _DIGITS
        return Fraction((Decimal(value.numerator) / Decimal(value.denominator)).sqrt())


def log10(arguments: Sequence[Value]) -> Quantity:
    """The logarithm to base 10 of a plain positive number, to 40 digits."""
    item = quantity(arguments[0])
    if item.value <= 0 or item.unit.symbol:
        raise Refusal("log10 needs a plain number above 0")
    with localcontext() as context:
        context.prec = _DIGITS
        return Quantity(Fraction((Decimal(item.value.numerator) / item.value.denominator).log10()))


def gradient(arguments: Sequence[Value]) -> Quantity:
    """`gradient(x1, y1, x2, y2)`: change in y over change in x, with both units."""
    x1, y1, x2, y2 = (quantity(argument) for argument in arguments)
    across = in_unit_of(x2, x1).value - x1.value
    if across == 0:
        raise Refusal("both points have the same x")
    up = in_unit_of(y2, y1).value - y1.value
    return Quantity(up / across, unit_product(y1.unit, x1.unit, -1))


def _percent(part: Fraction, whole: Fraction) -> Quantity:
    if whole == 0:
        raise Refusal("a percentage of nothing")
    return Quantity(100 * part / whole)


def percent_of(arguments: Sequence[Value]) -> Quantity:
    """`percent_of(part, whole)`."""
    part, whole = (quantity(argument) for argument in arguments)
    return _percent(in_unit_of(part, whole).value, whole.value)


def percent_change(arguments: Sequence[Value]) -> Quantity:
    """`percent_change(from, to)`: of the first value, with its sign."""
    start, end = (quantity(argument) for argument in arguments)
    return _percent(in_unit_of(end, start).value - start.value, start.value)


def percent_error(arguments: Sequence[Value]) -> Quantity:
    """`percent_error(measured, true)`: size of the difference, of the true value."""
    measured, true = (quantity(argument) for argument in arguments)
    return _percent(abs(in_unit_of(measured, true).value - true.value), abs(true.value))


def concordant(arguments: Sequence[Value]) -> tuple[Quantity, ...]:
    """`concordant(titres, 0.1)`: the largest set within that spread; of equal ones the tightest."""
    items = numbers(arguments[:1])
    within = in_unit_of(quantity(arguments[1]), items[0]).value
    ordered = sorted(items, key=lambda item: item.value)
    best: list[Quantity] = []
    for start in range(len(ordered)):
        group = [item for item in ordered[start:] if item.value - ordered[start].value <= within]
        if (len(group), -_spread(group)) > (len(best), -_spread(best)):
            best = group
    return tuple(item for item in items if item in best)


def _spread(group: list[Quantity]) -> Fraction:
    return group[-1].value - group[0].value if group else Fraction(0)


def without(arguments: Sequence[Value]) -> tuple[Quantity, ...]:
    """`without(list, value)`: the list less the first item of that value."""
    items = numbers(arguments[:1])
    gone = in_unit_of(quantity(arguments[1]), items[0]).value
    for place, item in enumerate(items):
        if item.value == gone:
            return tuple(items[:place] + items[place + 1 :])
    raise Refusal("that value is not in the list")


def outlier(arguments: Sequence[Value]) -> Quantity:
    """`outlier(list)`: the item farthest from the mean of the others."""
    items = numbers(arguments)
    if len(items) < 3:
        raise Refusal("an outlier needs three values or more")
    total = sum((item.value for item in items), Fraction(0))
    rest = len(items) - 1
    return max(items, key=lambda item: abs(item.value - (total - item.value) / rest))


def _pick(place: int) -> Callable[[Sequence[Value]], Quantity]:
    return lambda arguments: numbers(arguments)[place]


Work = Callable[[Sequence[Value]], Value]

# name: how many arguments (least, most; None: any number), and the work
FUNCTIONS: dict[str, tuple[int, int | None, Work]] = {
    "round": (2, 2, round_),
    "sig": (2, 2, sig),
    "floor": (1, 1, _whole(Fraction.__floor__)),
    "ceil": (1, 1, _whole(Fraction.__ceil__)),
    "abs": (1, 1, _abs),
    "min": (1, None, lambda a: _same(a, min)),
    "max": (1, None, lambda a: _same(a, max)),
    "sum": (1, None, lambda a: _same(a, lambda v: sum(v, Fraction(0)))),
    "mean": (1, None, lambda a: _same(a, _mean)),
    "range": (1, None, lambda a: _same(a, lambda v: max(v) - min(v))),
    "half_range": (1, None, lambda a: _same(a, lambda v: (max(v) - min(v)) / 2)),
    "count": (1, None, lambda a: Quantity(Fraction(len(numbers(a))))),
    "first": (1, None, _pick(0)),
    "last": (1, None, _pick(-1)),
    "sqrt": (1, 1, sqrt),
    "log10": (1, 1, log10),
    "gradient": (4, 4, gradient),
    "percent_of": (2, 2, percent_of),
    "percent_change": (2, 2, percent_change),
    "percent_error": (2, 2, percent_error),
    "concordant": (2, 2, concordant),
    "without": (2, 2, without),
    "outlier": (1, None, outlier),
}
