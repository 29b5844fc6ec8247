"""Functions of lists of readings: means, ranges, anomalies, concordant values."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction

from drill.frozen import replace
from drill.quantities import arithmetic
from drill.quantities.evaluation.scalar_functions import described, quantities
from drill.quantities.units.conversion import convert, is_plain
from drill.quantities.values import Fault, Quantity, Value

Readings = tuple[Quantity, ...]


def readings(value: Value) -> Readings | Fault:
    """A list of numbers in units of one size, at least one of them."""
    if not isinstance(value, tuple):
        return Fault(f"a list is wanted here, not {described(value)}", hint="Write [a, b, c].")
    found = quantities(value)
    if isinstance(found, Fault):
        return found
    if not found:
        return Fault("the list is empty")
    for other in found[1:]:
        unit = arithmetic.common_unit(found[0].unit, other.unit, "put in one list")
        if isinstance(unit, Fault):
            return unit
    return found


def on_readings(work: Callable[[Readings], Value | Fault]) -> Callable[..., Value | Fault]:
    """Wraps a function of one list so that an expression can call it."""

    def call(values: Sequence[Value]) -> Value | Fault:
        found = readings(values[0])
        return found if isinstance(found, Fault) else work(found)

    return call


def _sum(values: Readings) -> Quantity | Fault:
    total = values[0]
    for value in values[1:]:
        added = arithmetic.add(total, value)
        if isinstance(added, Fault):
            return added
        total = added
    return total


def _mean(values: Readings) -> Quantity | Fault:
    total = _sum(values)
    return total if isinstance(total, Fault) else _over(total, len(values))


def _over(quantity: Quantity, number: int) -> Quantity:
    return Quantity(quantity.value / number, quantity.unit)


def _median(values: Readings) -> Quantity:
    ordered = sorted(values, key=_size)
    middle, odd = divmod(len(ordered), 2)
    if odd:
        return ordered[middle]
    both = ordered[middle - 1].value + ordered[middle].value
    return Quantity(both / 2, values[0].unit)


def _spread(values: Readings) -> Quantity | Fault:
    return arithmetic.add(max(values, key=_size), min(values, key=_size), -1)


def _half_range(values: Readings) -> Quantity | Fault:
    spread = _spread(values)
    return spread if isinstance(spread, Fault) else _over(spread, 2)


def _size(quantity: Quantity) -> Fraction:
    return quantity.value


total = on_readings(_sum)
mean = on_readings(_mean)
median = on_readings(_median)
spread = on_readings(_spread)
half_range = on_readings(_half_range)


def _extreme(values: Sequence[Value], pick: Callable[..., Quantity]) -> Value | Fault:
    several = values[0] if len(values) == 1 else tuple(values)
    found = readings(several)  # type: ignore[arg-type]  # anything in it is looked at there
    return found if isinstance(found, Fault) else pick(found, key=_size)


def least(values: Sequence[Value]) -> Value | Fault:
    """The least of a list, or of several values."""
    return _extreme(values, min)


def greatest(values: Sequence[Value]) -> Value | Fault:
    """The greatest of a list, or of several values."""
    return _extreme(values, max)


def count(values: Sequence[Value]) -> Value | Fault:
    """How many a list holds, of whatever kind."""
    if not isinstance(values[0], tuple):
        return Fault(f"a list is wanted here, not {described(values[0])}")
    return arithmetic.plain(len(values[0]))


def first(values: Sequence[Value]) -> Value | Fault:
    """The first of a list."""
    return _item(values[0], 0)


def last(values: Sequence[Value]) -> Value | Fault:
    """The last of a list."""
    return _item(values[0], -1)


def _item(value: Value, place: int) -> Value | Fault:
    if not isinstance(value, tuple):
        return Fault(f"a list is wanted here, not {described(value)}")
    return value[place] if value else Fault("the list is empty")


def drop(values: Sequence[Value]) -> Value | Fault:
    """The list without its first value equal to the second argument."""
    found, value = readings(values[0]), values[1]
    if isinstance(found, Fault):
        return found
    if not isinstance(value, Quantity):
        return Fault(f"a number is wanted here, not {described(value)}")
    own = value if is_plain(value.unit) and not is_plain(found[0].unit) else None
    wanted = replace(value, unit=found[0].unit) if own else convert(value, found[0].unit)
    if isinstance(wanted, Fault):
        return wanted
    for place, reading in enumerate(found):
        if reading.value == wanted.value:
            return found[:place] + found[place + 1 :]
    return Fault("the value to leave out is not in the list")


def _drop_anomaly(values: Readings) -> Value | Fault:
    if len(values) < 3:
        return Fault("an anomaly can only be told among three values or more")
    centre = _median(values).value
    away = [abs(value.value - centre) for value in values]
    place = away.index(max(away))
    if away.count(away[place]) > 1:
        return Fault("two values lie equally far from the median: neither is the anomaly")
    return values[:place] + values[place + 1 :]


drop_anomaly = on_readings(_drop_anomaly)


def concordant(values: Sequence[Value]) -> Value | Fault:
    """The largest set of values that lie within the given spread, in the order of the list.

    Of several such sets the one with the smallest spread is taken, then the lowest.
    """
    found, within = readings(values[0]), values[1]
    if isinstance(found, Fault):
        return found
    if not isinstance(within, Quantity):
        return Fault(f"a number is wanted here, not {described(within)}")
    bare = is_plain(within.unit) and not is_plain(found[0].unit)
    most = replace(within, unit=found[0].unit) if bare else convert(within, found[0].unit)
    if isinstance(most, Fault):
        return most
    if most.value < 0:
        return Fault("a spread is not below zero")
    low, high = _closest(sorted(value.value for value in found), most.value)
    return tuple(value for value in found if low <= value.value <= high)


def _closest(ordered: list[Fraction], within: Fraction) -> tuple[Fraction, Fraction]:
    """Least and greatest value of the largest run that fits; the closest, then the lowest one."""
    best, end = (0, Fraction(0), 0), 0
    for start, low in enumerate(ordered):
        end = max(end, start + 1)
        while end < len(ordered) and ordered[end] - low <= within:
            end += 1
        best = max(best, (end - start, low - ordered[end - 1], -start))
    start = -best[2]
    return ordered[start], ordered[start + best[0] - 1]
