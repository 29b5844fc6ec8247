"""Comparisons: numbers by size, converting units; text and truth values only by == and !=."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from drill.frozen import replace
from drill.quantities import arithmetic
from drill.quantities.evaluation.scalar_functions import described
from drill.quantities.expressions.nodes import Binary, Negate, Node, NumberNode, children
from drill.quantities.values import Fault, Quantity, Value

_TESTS: Mapping[str, Callable[[int], bool]] = {
    "<": lambda order: order < 0,
    "<=": lambda order: order <= 0,
    ">": lambda order: order > 0,
    ">=": lambda order: order >= 0,
    "==": lambda order: order == 0,
    "!=": lambda order: order != 0,
}


def is_bare(node: Node) -> bool:
    """Whether it contains bare numbers only, so that it can take any unit."""
    if isinstance(node, NumberNode):
        return True
    return isinstance(node, Negate | Binary) and all(map(is_bare, children(node)))


def in_one_unit(values: Sequence[Value], bare: Sequence[bool]) -> list[Value]:
    """Bare numbers take the unit of the quantities next to them: mass < 5, max(0, x)."""
    pairs = list(zip(values, bare, strict=True))
    units = [value.unit for value, is_ in pairs if isinstance(value, Quantity) and not is_]
    return [
        replace(value, unit=units[0]) if isinstance(value, Quantity) and is_ and units else value
        for value, is_ in pairs
    ]


def holds(op: str, left: Value, right: Value) -> bool | Fault:
    """Whether `left op right`; a Fault for what cannot be compared."""
    if isinstance(left, Quantity) and isinstance(right, Quantity):
        order = arithmetic.compare(left, right)
        return order if isinstance(order, Fault) else _TESTS[op](order)
    if op not in ("==", "!="):
        wrong = right if isinstance(left, Quantity) else left
        return Fault(f"only numbers are below or above, not {described(wrong)}")
    if type(left) is not type(right) or not isinstance(left, str | bool):
        return Fault(f"cannot compare {described(left)} with {described(right)}")
    return (left == right) == (op == "==")
