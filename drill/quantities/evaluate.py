"""Working an expression out: a walk over its tree with exact numbers, units and text.

Nothing here raises on what an author wrote: `evaluate` gives a value or a Fault with a column.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from drill.quantities import arithmetic
from drill.quantities.functions import FUNCTIONS
from drill.quantities.nodes import (
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
    Number,
    Text,
    children,
)
from drill.quantities.scalars import described
from drill.quantities.suggest import nearest
from drill.quantities.units import convert, is_plain, named, same_dimension
from drill.quantities.values import Fault, Quantity, Row, Unit, Value
from drill.quantities.writing import text_of

Env = Mapping[str, Value]

_TESTS: Mapping[str, Callable[[int], bool]] = {
    "<": lambda order: order < 0,
    "<=": lambda order: order <= 0,
    ">": lambda order: order > 0,
    ">=": lambda order: order >= 0,
    "==": lambda order: order == 0,
    "!=": lambda order: order != 0,
}


class _Refused(Exception):
    """Carries a Fault out of the walk; it never leaves this module."""

    def __init__(self, fault: Fault) -> None:
        super().__init__(fault.message)
        self.fault = fault


def evaluate(expression: Expression, env: Env) -> Value | Fault:
    """The value of `expression` with the values of `env`, or why it has none.

    A dotted name is looked up whole, then as a cell of a row. A number written out and compared
    with a quantity stands for so many of the quantity's own unit.
    """
    try:
        return _value(expression.node, env)
    except _Refused as refused:
        return refused.fault


def _value(node: Node, env: Env) -> Value:
    match node:
        case Number(value):
            return Quantity(value)
        case Text(text):
            return text
        case Name():
            return _looked_up(node, env)
        case Negate(operand):
            quantity = _quantity(operand, env)
            return replace(quantity, value=-quantity.value)
        case Binary():
            return _binary(node, env)
        case Compare():
            return _comparison(node, env)
        case Logic(op, left, right):
            known = _truth(left, env)
            return known if known == (op == "or") else _truth(right, env)
        case Not(operand):
            return not _truth(operand, env)
        case Convert():
            return _converted(node, env)
        case Member(operand, among):
            member = _value(operand, env)
            return any(_same(member, operand, item, env, node.column) for item in among.items)
        case ListOf(items):
            return _list(tuple(_value(item, env) for item in items), node.column)
        case Call():
            return _called(node, env)


def _checked(result: Value | Fault, column: int, hint: str = "") -> Value:
    """The value, or the Fault raised with the place and the hint it lacks."""
    if not isinstance(result, Fault):
        return result
    raise _Refused(Fault(result.message, result.column or column, result.hint or hint))


def _refuse(message: str, column: int, hint: str = "") -> _Refused:
    return _Refused(Fault(message, column, hint))


# ------------------------------------------------------------------ names


def _looked_up(node: Name, env: Env) -> Value:
    if node.name in env:
        return env[node.name]
    root, _, cell = node.name.partition(".")
    row = env.get(root)
    if row is None:
        raise _refuse(f"no value is called {root!r}", node.column, nearest(root, env))
    if not isinstance(row, Row):
        raise _refuse(f"{root!r} is no row of a table, it has no {cell!r}", node.column)
    if cell not in row.cells:
        hint = nearest(cell, row.cells)
        raise _refuse(f"the table {row.table!r} has no column {cell!r}", node.column, hint)
    return row.cells[cell]


# ------------------------------------------------------------------ numbers


def _quantity(node: Node, env: Env) -> Quantity:
    value = _value(node, env)
    if isinstance(value, Quantity):
        return value
    raise _refuse(f"a number is wanted here, not {described(value)}", node.column)


def _binary(node: Binary, env: Env) -> Quantity:
    a, b = _quantity(node.left, env), _quantity(node.right, env)
    match node.op:
        case "+" | "-":
            result = arithmetic.add(a, b, 1 if node.op == "+" else -1)
        case "*":
            result = arithmetic.multiply(a, b)
        case "/":
            result = arithmetic.divide(a, b)
        case _:
            result = arithmetic.power(a, b)
    if isinstance(result, Fault):
        raise _Refused(_placed(result, node, a, b))
    return result


def _placed(fault: Fault, node: Binary, a: Quantity, b: Quantity) -> Fault:
    hint = fault.hint
    if not hint and node.op in "+-" and same_dimension(a.unit, b.unit):
        hint = f"Write ({text_of(node.right)} in {named(a.unit)})."
    return Fault(fault.message, node.column, hint)


def _converted(node: Convert, env: Env) -> Value:
    value = _value(node.operand, env)
    if isinstance(value, tuple):
        return _list(tuple(_in(item, node) for item in value), node.column)
    return _in(value, node)


def _in(value: Value, node: Convert) -> Quantity:
    if not isinstance(value, Quantity):
        raise _refuse(f"only a number has a unit, not {described(value)}", node.column)
    if is_plain(value.unit) and _is_written_out(node.operand):
        return replace(value, unit=node.unit)
    result = convert(value, node.unit)
    if isinstance(result, Fault):
        raise _refuse(result.message, node.column, result.hint)
    return result


def _is_written_out(node: Node) -> bool:
    """Whether it is made of bare numbers only, so that its unit is ours to choose."""
    if isinstance(node, Number):
        return True
    return isinstance(node, Negate | Binary) and all(map(_is_written_out, children(node)))


# ------------------------------------------------------------------ truth


def _truth(node: Node, env: Env) -> bool:
    value = _value(node, env)
    if isinstance(value, bool):
        return value
    raise _refuse(
        f"something true or false is wanted here, not {described(value)}",
        node.column,
        "Write a comparison.",
    )


def _comparison(node: Compare, env: Env) -> bool:
    left_node, left = node.operands[0], _value(node.operands[0], env)
    for op, right_node in zip(node.ops, node.operands[1:], strict=True):
        right = _value(right_node, env)
        if not _holds(op, (left_node, left), (right_node, right), node.column):
            return False
        left_node, left = right_node, right
    return True


def _holds(op: str, a: tuple[Node, Value], b: tuple[Node, Value], column: int) -> bool:
    left, right = _in_one_unit(a, b)
    if isinstance(left, Quantity) and isinstance(right, Quantity):
        order = arithmetic.compare(left, right)
        if isinstance(order, Fault):
            raise _refuse(order.message, column, order.hint)
        return _TESTS[op](order)
    if op not in ("==", "!="):
        wrong = right if isinstance(left, Quantity) else left
        raise _refuse(f"only numbers are below or above, not {described(wrong)}", column)
    if type(left) is not type(right) or not isinstance(left, str | bool):
        raise _refuse(f"cannot compare {described(left)} with {described(right)}", column)
    return (left == right) == (op == "==")


def _in_one_unit(a: tuple[Node, Value], b: tuple[Node, Value]) -> tuple[Value, Value]:
    """A bare number beside a quantity takes the quantity's unit."""
    (left_node, left), (right_node, right) = a, b
    if isinstance(left, Quantity) and isinstance(right, Quantity):
        if _is_written_out(right_node):
            right = replace(right, unit=left.unit)
        elif _is_written_out(left_node):
            left = replace(left, unit=right.unit)
    return left, right


def _same(value: Value, node: Node, item: Node, env: Env, column: int) -> bool:
    return _holds("==", (node, value), (item, _value(item, env)), column)


# ------------------------------------------------------------------ lists and functions


def _list(values: tuple[Value, ...], column: int) -> Value:
    numbers = tuple(value for value in values if isinstance(value, Quantity))
    if len(numbers) == len(values):
        return numbers
    words = tuple(value for value in values if isinstance(value, str))
    if len(words) == len(values):
        return words
    raise _refuse("a list holds numbers only, or text only", column)


def _called(node: Call, env: Env) -> Value:
    if node.function == "if":
        condition, then, otherwise = node.arguments
        return _value(then if _truth(condition, env) else otherwise, env)
    if node.function == "M":
        return _molar_mass(node, env)
    function = FUNCTIONS[node.function]
    assert function.work is not None
    values = [_value(argument, env) for argument in node.arguments]
    if node.function in ("min", "max"):
        values = _adopted(node.arguments, values)
    return _checked(function.work(values), node.column, f"The form is {function.form}.")


def _adopted(nodes: Sequence[Node], values: Sequence[Value]) -> list[Value]:
    """Bare numbers among quantities take their unit, as in a comparison: max(0, x)."""
    unit = next((_unit(v) for n, v in zip(nodes, values, strict=True) if not _bare(n, v)), None)
    if unit is None:
        return list(values)
    return [
        replace(value, unit=unit) if isinstance(value, Quantity) and _bare(node, value) else value
        for node, value in zip(nodes, values, strict=True)
    ]


def _bare(node: Node, value: Value) -> bool:
    return isinstance(value, Quantity) and _is_written_out(node)


def _unit(value: Value) -> Unit | None:
    return value.unit if isinstance(value, Quantity) else None


def _molar_mass(node: Call, env: Env) -> Quantity:
    from drill.quantities.formulae import molar_mass, parse_formula

    written, table = _value(node.arguments[0], env), env.get("M")
    if not isinstance(written, str):
        raise _refuse(f"M wants a formula in quotes, not {described(written)}", node.column)
    if not isinstance(table, Row):
        raise _refuse("there is no table of masses called M here", node.column)
    formula = parse_formula(written)
    if isinstance(formula, Fault):
        raise _refuse(f"{written!r}: {formula.message}", node.column, formula.hint)
    masses = {name: cell for name, cell in table.cells.items() if isinstance(cell, Quantity)}
    units = {masses[symbol].unit for symbol in formula.atoms if symbol in masses}
    if len(units) > 1:
        shown = ", ".join(sorted(map(named, units)))
        raise _refuse(f"the masses of {written} are in different units: {shown}", node.column)
    result = molar_mass(formula, {name: cell.value for name, cell in masses.items()})
    if isinstance(result, Fault):
        raise _refuse(result.message, node.column, result.hint)
    return Quantity(Fraction(result), units.pop())
