"""Works an expression out, exactly, with units; whatever cannot be is a Fault with its column."""

from __future__ import annotations

import operator
from collections.abc import Callable, Mapping
from fractions import Fraction

from drill.quantities import nodes
from drill.quantities.functions import FUNCTIONS, Refusal, in_unit_of, quantity, unit_product
from drill.quantities.parser import Expression
from drill.quantities.unit_reading import unit_of
from drill.quantities.units import convert, is_plain, named
from drill.quantities.values import PLAIN, Fault, Quantity, Row, Value

LARGEST_EXPONENT = 64
# digits of numerator or denominator; no school number comes near
MOST_DIGITS = 2000

_BOUND: int = 10**MOST_DIGITS
_ORDER: dict[str, Callable[[Fraction, Fraction], bool]] = {
    "<": operator.lt,
    "<=": operator.le,
    ">": operator.gt,
    ">=": operator.ge,
    "==": operator.eq,
    "!=": operator.ne,
}


class _Stopped(Exception):
    def __init__(self, message: str, column: int, hint: str = "") -> None:
        super().__init__(message)
        self.fault = Fault(message, column, hint)


def evaluate(expression: Expression, env: Mapping[str, Value]) -> Value | Fault:
    """The value of an expression with the names of `env`.

    Dotted names look into rows: `route.M_salt` is cell M_salt of the Row env["route"]. `M(formula)`
    uses the relative masses in env["M"], a Row of symbols.
    """
    try:
        return _value(expression.node, env)
    except _Stopped as stopped:
        return stopped.fault


def _value(node: nodes.Node, env: Mapping[str, Value]) -> Value:
    try:
        result = _WORK[type(node)](node, env)
    except Refusal as refusal:
        raise _Stopped(str(refusal), node.column) from None
    if isinstance(result, Quantity):
        size = result.value
        if abs(size.numerator) > _BOUND or size.denominator > _BOUND:
            raise _Stopped("the numbers grow too long here", node.column)
    return result


def _number(node: nodes.Number, env: Mapping[str, Value]) -> Value:
    return Quantity(node.value)


def _text(node: nodes.Text, env: Mapping[str, Value]) -> Value:
    return node.value


def _name(node: nodes.Name, env: Mapping[str, Value]) -> Value:
    if node.name in env:
        return env[node.name]
    if node.name in ("true", "false"):
        return node.name == "true"
    head, _, cell = node.name.partition(".")
    row = env.get(head)
    if cell and isinstance(row, Row):
        if cell in row.cells:
            return row.cells[cell]
        if cell == "id":
            return row.id
        near = _nearest(cell, row.cells)
        raise _Stopped(f'table "{row.table}" has no column "{cell}"', node.column, near)
    raise _Stopped(f'there is no "{node.name}"', node.column, _nearest(node.name, env))


def _nearest(name: str, known: Mapping[str, object]) -> str:
    import difflib

    near = difflib.get_close_matches(name, list(known), 1)
    return f'Did you mean "{near[0]}"?' if near else ""


def _unary(node: nodes.Unary, env: Mapping[str, Value]) -> Value:
    value = _value(node.operand, env)
    if node.op == "not":
        return not _truth(value, node.column)
    item = quantity(value)
    return Quantity(-item.value, item.unit)


def _truth(value: Value, column: int) -> bool:
    if isinstance(value, bool):
        return value
    raise _Stopped("expected a condition, as x > 2", column)


def _binary(node: nodes.Binary, env: Mapping[str, Value]) -> Value:
    if node.op in ("and", "or"):
        left = _truth(_value(node.left, env), node.column)
        if left == (node.op == "or"):
            return left
        return _truth(_value(node.right, env), node.column)
    left, right = quantity(_value(node.left, env)), quantity(_value(node.right, env))
    return _ARITHMETIC[node.op](left, right)


def _plus(left: Quantity, right: Quantity) -> Quantity:
    return _added(left, right, 1)


def _minus(left: Quantity, right: Quantity) -> Quantity:
    return _added(left, right, -1)


def _added(left: Quantity, right: Quantity, sign: int) -> Quantity:
    if not is_plain(left.unit) and is_plain(right.unit) and right.value != 0:
        raise Refusal(f"{named(left.unit)} and a plain number cannot be added")
    if is_plain(left.unit) and not is_plain(right.unit) and left.value != 0:
        raise Refusal(f"a plain number and {named(right.unit)} cannot be added")
    unit = left.unit if not is_plain(left.unit) else right.unit
    other = in_unit_of(right, Quantity(left.value, unit))
    return Quantity(left.value + sign * other.value, unit)


def _times(left: Quantity, right: Quantity) -> Quantity:
    return Quantity(left.value * right.value, unit_product(left.unit, right.unit))


def _over(left: Quantity, right: Quantity) -> Quantity:
    if right.value == 0:
        raise Refusal("division by zero")
    return Quantity(left.value / right.value, unit_product(left.unit, right.unit, -1))


def _raised(left: Quantity, right: Quantity) -> Quantity:
    exponent = right.value
    if not is_plain(right.unit) or exponent.denominator != 1:
        raise Refusal("a power must be a whole number; sqrt(x) takes roots")
    if abs(exponent) > LARGEST_EXPONENT:
        raise Refusal(f"a power of {exponent} is more than {LARGEST_EXPONENT}")
    if exponent < 0 and left.value == 0:
        raise Refusal("division by zero")
    digits = max(left.value.numerator.bit_length(), left.value.denominator.bit_length())
    if digits * abs(int(exponent)) > MOST_DIGITS * 4:
        raise Refusal("the numbers grow too long here")
    return Quantity(left.value ** int(exponent), unit_product(PLAIN, left.unit, int(exponent)))


_ARITHMETIC: dict[str, Callable[[Quantity, Quantity], Quantity]] = {
    "+": _plus,
    "-": _minus,
    "*": _times,
    "/": _over,
    "^": _raised,
}


def _compare(node: nodes.Compare, env: Mapping[str, Value]) -> Value:
    values = [_value(operand, env) for operand in node.operands]
    pairs = zip(node.ops, values, values[1:], strict=False)
    return all(_holds(op, left, right, node.column) for op, left, right in pairs)


def _holds(op: str, left: Value, right: Value, column: int) -> bool:
    if isinstance(left, Quantity) and isinstance(right, Quantity):
        if is_plain(left.unit):
            return _ORDER[op](left.value, right.value)
        return _ORDER[op](left.value, in_unit_of(right, left).value)
    if op in ("==", "!=") and type(left) is type(right):
        return (left == right) == (op == "==")
    raise _Stopped("cannot compare a number with words", column)


def _in_unit(node: nodes.InUnit, env: Mapping[str, Value]) -> Value:
    item = quantity(_value(node.operand, env))
    unit = unit_of(node.unit)
    assert unit is not None
    if is_plain(item.unit):
        return Quantity(item.value, unit)
    result = convert(item, unit)
    if isinstance(result, Fault):
        raise Refusal(result.message)
    return result


def _call(node: nodes.Call, env: Mapping[str, Value]) -> Value:
    if node.name == "if":
        return _if(node, env)
    if node.name == "M":
        return _molar_mass(node, env)
    least, most, work = FUNCTIONS[node.name]
    if len(node.arguments) < least or (most is not None and len(node.arguments) > most):
        wanted = str(least) if least == most else f"{least} or more"
        raise Refusal(f"{node.name} takes {wanted} values, got {len(node.arguments)}")
    return work([_value(argument, env) for argument in node.arguments])


def _if(node: nodes.Call, env: Mapping[str, Value]) -> Value:
    if len(node.arguments) != 3:
        raise Refusal(f"if takes 3 values, got {len(node.arguments)}")
    condition, yes, no = node.arguments
    return _value(yes if _truth(_value(condition, env), node.column) else no, env)


def _molar_mass(node: nodes.Call, env: Mapping[str, Value]) -> Value:
    from drill.quantities.formulae import molar_mass, parse_formula

    text = _value(node.arguments[0], env) if len(node.arguments) == 1 else None
    masses = env.get("M")
    if not isinstance(text, str) or not isinstance(masses, Row):
        raise Refusal('M takes one formula in double quotes, as M("CuSO4.5H2O")')
    formula = parse_formula(text)
    if isinstance(formula, Fault):
        raise Refusal(formula.message)
    known = {name: cell.value for name, cell in masses.cells.items() if isinstance(cell, Quantity)}
    mass = molar_mass(formula, known)
    if isinstance(mass, Fault):
        raise Refusal(mass.message)
    unit = unit_of("g/mol")
    assert unit is not None
    return Quantity(mass, unit)


def _list(node: nodes.ListOf, env: Mapping[str, Value]) -> Value:
    values = [_value(item, env) for item in node.items]
    if values and all(isinstance(value, str) for value in values):
        return tuple(value for value in values if isinstance(value, str))
    items = [quantity(value) for value in values]
    return tuple(in_unit_of(item, items[0]) for item in items)


_WORK: dict[type, Callable[..., Value]] = {
    nodes.Number: _number,
    nodes.Text: _text,
    nodes.Name: _name,
    nodes.Unary: _unary,
    nodes.Binary: _binary,
    nodes.Compare: _compare,
    nodes.InUnit: _in_unit,
    nodes.Call: _call,
    nodes.ListOf: _list,
}
