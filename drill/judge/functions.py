"""The functions of a formula, each from its definition in the author's guide."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from math import ceil, floor

from drill.judge.amounts import (
    Amount,
    Value,
    logarithm,
    minus,
    plus,
    quotient,
    root,
    several,
    shared,
    turned,
)
from drill.judge.cannot import Cannot
from drill.judge.rounding import half_up, to_figures
from drill.judge.units import unit_of

Amounts = tuple[Amount, ...]


def _one(values: Sequence[Value], place: int = 0) -> Amount:
    value = values[place] if place < len(values) else None
    if not isinstance(value, Amount):
        raise Cannot("a number is wanted")
    return value


def _list(values: Sequence[Value]) -> Amounts:
    if not isinstance(values[0], tuple):
        raise Cannot("a list is wanted")
    return several(values[0])


def _whole(values: Sequence[Value], least: int) -> int:
    count = _one(values, 1)
    if not count.unit.plain or count.number.denominator != 1 or not least <= count.number <= 20:
        raise Cannot("a whole number is wanted")
    return int(count.number)


def _round(values: Sequence[Value]) -> Value:
    """Rounded half up to this many decimal places."""
    amount, places = _one(values), _whole(values, 0)
    return Amount(half_up(amount.number, places), amount.unit, places)


def _sig(values: Sequence[Value]) -> Value:
    """To so many significant figures, half up."""
    amount, figures = _one(values), _whole(values, 1)
    return Amount(to_figures(amount.number, figures), amount.unit, figures=figures)


def _by_size(amounts: Amounts) -> list[Amount]:
    return sorted(amounts, key=lambda one: one.number)


def _extreme(values: Sequence[Value], place: int) -> Value:
    found = _list(values) if len(values) == 1 else several(values)
    wanted = _by_size(found)[place].number
    return next(one for one in found if one.number == wanted)


def _sum(values: Sequence[Value]) -> Amount:
    first, *others = _list(values)
    for other in others:
        first = plus(first, other)
    return first


def _mean(values: Sequence[Value]) -> Value:
    """The sum over the count."""
    total = _sum(values)
    return Amount(total.number / len(_list(values)), total.unit)


def _median(values: Sequence[Value]) -> Amount:
    """The middle value in order of size; the mean of the two middle values if there are two."""
    found = _list(values)
    ordered = _by_size(found)
    above, below = ordered[len(ordered) // 2], ordered[(len(ordered) - 1) // 2]
    if len(ordered) % 2:
        return above
    return Amount((above.number + below.number) / 2, found[0].unit)


def _range(values: Sequence[Value]) -> Amount:
    """Greatest less least."""
    ordered = _by_size(_list(values))
    return minus(ordered[-1], ordered[0])


def _half_range(values: Sequence[Value]) -> Value:
    whole = _range(values)
    return Amount(whole.number / 2, whole.unit)


def _count(values: Sequence[Value]) -> Value:
    if not isinstance(values[0], tuple):
        raise Cannot("a list is wanted")
    return Amount(Fraction(len(values[0])))


def _at(values: Sequence[Value], place: int) -> Value:
    items = values[0]
    if not isinstance(items, tuple) or not items:
        raise Cannot("a list is wanted")
    return items[place]


def _in_unit_of(value: Amount, items: Amounts) -> Fraction:
    """A number in the unit of a list; a plain number is taken to be in that unit."""
    if value.unit.plain and not items[0].unit.plain:
        return value.number
    return turned(value, items[0].unit).number


def _drop(values: Sequence[Value]) -> Value:
    """The list without the first value of that size."""
    items = _list(values)
    unwanted = _in_unit_of(_one(values, 1), items)
    places = [place for place, one in enumerate(items) if one.number == unwanted]
    if not places:
        raise Cannot("the value to leave out is not in the list")
    return tuple(one for place, one in enumerate(items) if place != places[0])


def _drop_anomaly(values: Sequence[Value]) -> Value:
    """The list without the value furthest from the median."""
    items = _list(values)
    middle = _median(values).number
    far = max(abs(one.number - middle) for one in items)
    kept = tuple(one for one in items if abs(one.number - middle) != far)
    if len(items) < 3 or len(items) - len(kept) != 1:
        raise Cannot("no one value is the anomaly")
    return kept


def _concordant(values: Sequence[Value]) -> Value:
    """The largest set of values that all lie within this distance of each other.

    Of two such sets, the one whose values are closer together, then the lower one.
    """
    items = _list(values)
    within = _in_unit_of(_one(values, 1), items)
    if within < 0:
        raise Cannot("a spread is not below zero")
    numbers = sorted(one.number for one in items)
    sets = [[one for one in numbers if low <= one <= low + within] for low in set(numbers)]
    best = min(sets, key=lambda one: (-len(one), one[-1] - one[0], one[0]))
    return tuple(one for one in items if best[0] <= one.number <= best[-1])


def _gradient(values: Sequence[Value]) -> Value:
    """Rise over run."""
    x1, y1, x2, y2 = (_one(values, place) for place in range(4))
    return quotient(minus(y2, y1), minus(x2, x1))


def _percent(part: Amount, whole: Amount) -> Amount:
    shared(part.unit, whole.unit)
    if not whole.number:
        raise Cannot("nothing is divided by zero")
    return Amount(100 * part.number / whole.number, unit_of("%"))


def _percent_change(values: Sequence[Value]) -> Value:
    return _percent(minus(_one(values, 1), _one(values)), _one(values))


def _percent_error(values: Sequence[Value]) -> Value:
    off = minus(_one(values), _one(values, 1))
    return _percent(replace(off, number=abs(off.number)), _one(values, 1))


def _to_whole(values: Sequence[Value], rule: Callable[[Fraction], int]) -> Value:
    amount = _one(values)
    return Amount(Fraction(rule(amount.number)), amount.unit, 0)


def _abs(values: Sequence[Value]) -> Value:
    amount = _one(values)
    return replace(amount, number=abs(amount.number))


FUNCTIONS: Mapping[str, Callable[[Sequence[Value]], Value]] = {
    "round": _round,
    "sig": _sig,
    "floor": lambda values: _to_whole(values, floor),
    "ceil": lambda values: _to_whole(values, ceil),
    "abs": _abs,
    "sqrt": lambda values: root(_one(values)),
    "log10": lambda values: logarithm(_one(values)),
    "min": lambda values: _extreme(values, 0),
    "max": lambda values: _extreme(values, -1),
    "sum": _sum,
    "mean": _mean,
    "median": _median,
    "range": _range,
    "half_range": _half_range,
    "count": _count,
    "first": lambda values: _at(values, 0),
    "last": lambda values: _at(values, -1),
    "drop": _drop,
    "without": _drop,
    "drop_anomaly": _drop_anomaly,
    "concordant": _concordant,
    "gradient": _gradient,
    "percent_of": lambda values: _percent(_one(values), _one(values, 1)),
    "percent_change": _percent_change,
    "percent_error": _percent_error,
}
