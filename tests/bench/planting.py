"""Short ways to say how a fault is planted, for the tables of faults."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

from drill.quantities import Quantity
from drill.quantities.evaluation import comparisons
from drill.quantities.expressions import parser
from tests.bench.planted import Engine, Planter, scaled

OFF = Fraction(1001, 1000)


def by(factor: Any) -> Callable[[Quantity], Quantity]:
    return lambda quantity: scaled(quantity, factor)


def result(sign: str, change: Callable[[Quantity], Any]) -> Planter:
    return lambda engine: engine.result(sign, change)


def operation(sign: str, work: Callable[[Any, Any, Any], Any]) -> Planter:
    return lambda engine: engine.operation(sign, lambda old: lambda a, b: work(old, a, b))


def binding(*signs: str, power: int) -> Planter:
    """These signs hold together as tightly as the given power."""

    def plant(engine: Engine) -> None:
        for sign in signs:
            engine.item(parser._BINDING, sign, power)

    return plant


def constant(owner: Any, name: str, value: Any) -> Planter:
    return lambda engine: engine.attribute(owner, name, value)


def function(name: str, work: Callable[[Any, Any], Any]) -> Planter:
    """A function of formulas: `work` gets the right one and its values."""
    return lambda engine: engine.function(name, lambda old: lambda values: work(old, values))


def wrapped(old: Callable[..., Any], work: Callable[..., Any]) -> Planter:
    """Any function of the program: `work` gets the right one and its arguments."""
    return lambda engine: engine.wrap(old, lambda right: lambda *a, **k: work(right, *a, **k))


def test(sign: str, holds: Callable[[int], bool]) -> Planter:
    """A comparison: `holds` gets -1, 0 or 1."""
    return lambda engine: engine.item(comparisons._TESTS, sign, holds)


def rule(node: type, work: Callable[[Any, Any, Any], Any]) -> Planter:
    return lambda engine: engine.rule(node, lambda old: lambda node, env: work(old, node, env))


def unit(symbol: str, factor: Any) -> Planter:
    return lambda engine: engine.unit(symbol, factor)


def list_as(values: Any, change: Callable[[list[Any]], Any]) -> list[Any]:
    """The arguments with the list among them changed."""
    return [tuple(change(list(values[0]))), *values[1:]]


def sizes(values: Any) -> list[Any]:
    found = values[0] if len(values) == 1 else values
    return sorted(found, key=lambda one: one.value)


def up(value: Fraction, places: int) -> Fraction:
    return -(-value * Fraction(10) ** places // 1) / Fraction(10) ** places


def down(value: Fraction, places: int) -> Fraction:
    return (value * Fraction(10) ** places // 1) / Fraction(10) ** places
