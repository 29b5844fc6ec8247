"""Short ways to read, work out and compare, so that a test is a line or two."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from hypothesis import settings

from drill.quantities import (
    Expression,
    Fault,
    Quantity,
    Unit,
    Value,
    evaluate,
    parse,
    show,
    unit_of,
)

bounded = settings(max_examples=80, deadline=None)  # for every property of this folder


def unit(text: str) -> Unit:
    """A unit that must be known."""
    found = unit_of(text)
    assert found is not None, text
    return found


def q(text: str) -> Quantity:
    """ "25.0 cm3" -> the quantity."""
    number, _, rest = text.partition(" ")
    return Quantity(Fraction(number), unit(rest))


def read(text: str) -> Expression:
    """An expression that must be readable."""
    found = parse(text)
    assert isinstance(found, Expression), found
    return found


def work(text: str, **env: Value | str) -> Value | Fault:
    """What `text` comes to; names given as text are quantities, "25.0 cm3"."""
    values: Mapping[str, Value] = {
        name: q(value) if isinstance(value, str) else value for name, value in env.items()
    }
    return evaluate(read(text), values)


def shown(text: str, **env: Value | str) -> str:
    """The same as it is shown: "12.40 g", "true", or the fault's message."""
    value = work(text, **env)
    if isinstance(value, Quantity):
        return show(value)
    return value.message if isinstance(value, Fault) else str(value).lower()


def fault(text: str, **env: Value | str) -> Fault:
    """The fault that `text` gives, in reading or in working out."""
    found = parse(text)
    if isinstance(found, Expression):
        value = work(text, **env)
        assert isinstance(value, Fault), value
        return value
    return found
