"""The functions of our formulae over sympy expressions; sympy is imported when one needs it."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from math import ceil, floor
from typing import Any

from drill.quantities import half_up, to_figures

Expr = Any  # of sympy, which has no types
ToNumber = Callable[[Expr], Fraction | None]  # the value of an expression in this instance


def rational(value: Fraction) -> Expr:
    """An exact number of sympy's."""
    from sympy import Rational

    return Rational(value.numerator, value.denominator)


def _mean(items: Sequence[Expr], number: ToNumber) -> Expr:
    return sum(items, start=rational(Fraction(0))) / len(items)


def _spread(items: Sequence[Expr], number: ToNumber) -> Expr:
    ordered = sorted(items, key=lambda item: number(item) or Fraction(0))
    return ordered[-1] - ordered[0]


def _absolute(items: Sequence[Expr], number: ToNumber) -> Expr:
    value = number(items[0])
    return -items[0] if value is not None and value < 0 else items[0]


def _root(items: Sequence[Expr], number: ToNumber) -> Expr:
    from sympy import sqrt

    return sqrt(items[0])


def _logarithm(items: Sequence[Expr], number: ToNumber) -> Expr:
    from sympy import log

    return log(items[0]) / log(rational(Fraction(10)))


def _error(items: Sequence[Expr], number: ToNumber) -> Expr:
    return 100 * _absolute([items[0] - items[1]], number) / items[1]


OPERATIONS: Mapping[str, Callable[[Expr, Expr], Expr]] = {
    "+": lambda a, b: a + b,
    "-": lambda a, b: a - b,
    "*": lambda a, b: a * b,
    "/": lambda a, b: a / b,
    "^": lambda a, b: a**b,
}

ROUNDINGS: Mapping[str, Callable[..., Fraction]] = {
    "round": half_up,
    "sig": to_figures,
    "floor": lambda value: Fraction(floor(value)),
    "ceil": lambda value: Fraction(ceil(value)),
}

LISTS: Mapping[str, Callable[[Sequence[Expr], ToNumber], Expr]] = {
    "sum": lambda items, _: sum(items, start=rational(Fraction(0))),
    "mean": _mean,
    "count": lambda items, _: rational(Fraction(len(items))),
    "range": _spread,
    "half_range": lambda items, number: _spread(items, number) / 2,
}

SINGLE: Mapping[str, Callable[[Sequence[Expr], ToNumber], Expr]] = {
    "abs": _absolute,
    "sqrt": _root,
    "log10": _logarithm,
    "gradient": lambda a, _: (a[3] - a[1]) / (a[2] - a[0]),
    "percent_of": lambda a, _: 100 * a[0] / a[1],
    "percent_change": lambda a, _: 100 * (a[1] - a[0]) / a[0],
    "percent_error": _error,
}
