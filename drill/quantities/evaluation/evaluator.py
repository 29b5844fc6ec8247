"""Evaluates an expression: a walk over its tree with exact numbers, units and text.

Nothing here raises on what an author wrote: `evaluate` gives a value or a Fault with a column.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from drill.frozen import replace
from drill.quantities import arithmetic
from drill.quantities.evaluation.comparisons import holds, in_one_unit, is_bare
from drill.quantities.evaluation.functions import FUNCTIONS
from drill.quantities.evaluation.lookup import looked_up
from drill.quantities.evaluation.scalar_functions import described
from drill.quantities.expressions.nodes import (
    Binary,
    Call,
    Compare,
    Convert,
    Expression,
    ListOf,
    Logic,
    Member,
    Name,
    Negate,
    Node,
    Not,
    NumberNode,
    TextNode,
)
from drill.quantities.expressions.writing import text_of
from drill.quantities.units.conversion import convert, is_plain, named, same_dimension
from drill.quantities.values import Fault, Quantity, Value

Environment = Mapping[str, Value]


class _Refused(Exception):
    """Carries a Fault out of the walk; it never leaves this module."""

    def __init__(self, fault: Fault) -> None:
        super().__init__(fault.message)
        self.fault = fault


def evaluate(expression: Expression, env: Environment) -> Value | Fault:
    """The value of `expression` with the values of `env`, or why it has none.

    A dotted name is looked up whole, then as a cell of a row. A bare number compared with a
    quantity takes the quantity's unit.
    """
    try:
        return _value(expression.node, env)
    except _Refused as refused:
        return refused.fault


def _value(node: Node, env: Environment) -> Value:
    return _RULES[type(node)](node, env)


def _number(node: NumberNode, env: Environment) -> Value:
    return Quantity(node.value)


def _text(node: TextNode, env: Environment) -> Value:
    return node.value


def _named(node: Name, env: Environment) -> Value:
    value = env.get(node.name)
    return value if value is not None else _checked(looked_up(node.name, env), node.column)


def _negated(node: Negate, env: Environment) -> Value:
    quantity = _quantity(node.operand, env)
    return replace(quantity, value=-quantity.value)


def _checked(result: Value | Fault, column: int, hint: str = "") -> Value:
    """The value, or the Fault raised with the place and the hint it lacks."""
    if not isinstance(result, Fault):
        return result
    raise _Refused(Fault(result.message, result.column or column, result.hint or hint))


def _refuse(message: str, column: int, hint: str = "") -> _Refused:
    return _Refused(Fault(message, column, hint))


# ------------------------------------------------------------------ numbers


def _quantity(node: Node, env: Environment) -> Quantity:
    value = _value(node, env)
    if isinstance(value, Quantity):
        return value
    raise _refuse(f"a number is wanted here, not {described(value)}", node.column)


def _binary(node: Binary, env: Environment) -> Quantity:
    a, b = _quantity(node.left, env), _quantity(node.right, env)
    result = _OPERATIONS[node.op](a, b)
    if isinstance(result, Fault):
        raise _Refused(_placed(result, node, a, b))
    return result


def _placed(fault: Fault, node: Binary, a: Quantity, b: Quantity) -> Fault:
    hint = fault.hint
    if not hint and node.op in "+-" and same_dimension(a.unit, b.unit):
        hint = f"Write ({text_of(node.right)} in {named(a.unit)})."
    return Fault(fault.message, node.column, hint)


def _converted(node: Convert, env: Environment) -> Value:
    value = _value(node.operand, env)
    if isinstance(value, tuple):
        return _list(tuple(_in(item, node) for item in value), node.column)
    return _in(value, node)


def _in(value: Value, node: Convert) -> Quantity:
    if not isinstance(value, Quantity):
        raise _refuse(f"only a number has a unit, not {described(value)}", node.column)
    if is_plain(value.unit) and is_bare(node.operand):
        return replace(value, unit=node.unit)
    result = convert(value, node.unit)
    if isinstance(result, Fault):
        raise _refuse(result.message, node.column, result.hint)
    return result


# ------------------------------------------------------------------ truth


def _logic(node: Logic, env: Environment) -> bool:
    known = _truth(node.left, env)
    return known if known == (node.op == "or") else _truth(node.right, env)


def _denied(node: Not, env: Environment) -> bool:
    return not _truth(node.operand, env)


def _among(node: Member, env: Environment) -> bool:
    member = _value(node.operand, env)
    return any(
        _holds("==", (node.operand, member), (item, _value(item, env)), node.column)
        for item in node.among.items
    )


def _truth(node: Node, env: Environment) -> bool:
    value = _value(node, env)
    if isinstance(value, bool):
        return value
    raise _refuse(
        f"something true or false is wanted here, not {described(value)}",
        node.column,
        "Write a comparison.",
    )


def _comparison(node: Compare, env: Environment) -> bool:
    left_node, left = node.operands[0], _value(node.operands[0], env)
    for op, right_node in zip(node.ops, node.operands[1:], strict=True):
        right = _value(right_node, env)
        if not _holds(op, (left_node, left), (right_node, right), node.column):
            return False
        left_node, left = right_node, right
    return True


def _holds(op: str, a: tuple[Node, Value], b: tuple[Node, Value], column: int) -> bool:
    left, right = in_one_unit([a[1], b[1]], [is_bare(a[0]), is_bare(b[0])])
    result = holds(op, left, right)
    if isinstance(result, Fault):
        raise _refuse(result.message, column, result.hint)
    return result


# ------------------------------------------------------------------ lists and functions


def _listed(node: ListOf, env: Environment) -> Value:
    return _list(tuple(_value(item, env) for item in node.items), node.column)


def _list(values: tuple[Value, ...], column: int) -> Value:
    numbers = tuple(value for value in values if isinstance(value, Quantity))
    if len(numbers) == len(values):
        return numbers
    words = tuple(value for value in values if isinstance(value, str))
    if len(words) == len(values):
        return words
    raise _refuse("a list holds numbers only, or text only", column)


def _called(node: Call, env: Environment) -> Value:
    if node.function == "if":
        condition, then, otherwise = node.arguments
        return _value(then if _truth(condition, env) else otherwise, env)
    function = node.own or FUNCTIONS[node.function]
    assert function.work is not None
    values = [_value(argument, env) for argument in node.arguments]
    if function.looks_in:
        given = (env.get(function.looks_in), *values)
        return _checked(function.work(given), node.column)
    if node.function in ("min", "max"):
        values = in_one_unit(values, [is_bare(argument) for argument in node.arguments])
    return _checked(function.work(values), node.column, f"The form is {function.form}.")


_OPERATIONS: Mapping[str, Callable[[Quantity, Quantity], Quantity | Fault]] = {
    "+": arithmetic.add,
    "-": arithmetic.subtract,
    "*": arithmetic.multiply,
    "/": arithmetic.divide,
    "^": arithmetic.power,
}

# which rule goes with which node is settled here; a table is quicker than asking node by node
_RULES: Mapping[type, Callable[[Any, Environment], Value]] = {
    NumberNode: _number,
    TextNode: _text,
    Name: _named,
    Negate: _negated,
    Binary: _binary,
    Compare: _comparison,
    Logic: _logic,
    Not: _denied,
    Convert: _converted,
    Member: _among,
    ListOf: _listed,
    Call: _called,
}
