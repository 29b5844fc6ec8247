"""Evaluates formulas: walks Python's syntax tree with exact numbers and units."""

from __future__ import annotations

import ast
import operator
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from typing import Any

from drill.judge.amounts import (
    Amount,
    Value,
    minus,
    plus,
    power,
    product,
    quotient,
    turned,
)
from drill.judge.cannot import Cannot
from drill.judge.functions import FUNCTIONS
from drill.judge.grammar import Called, Formula, Word, read
from drill.judge.masses import molar_mass
from drill.judge.units import Unit

Env = Mapping[str, Value]

_ARITHMETIC: Mapping[type, Callable[[Amount, Amount], Amount]] = {
    ast.Add: plus,
    ast.Sub: minus,
    ast.Mult: product,
    ast.Div: quotient,
    ast.Pow: power,
}
_COMPARISONS: Mapping[type, Callable[[Any, Any], bool]] = {
    ast.Lt: operator.lt,
    ast.LtE: operator.le,
    ast.Gt: operator.gt,
    ast.GtE: operator.ge,
    ast.Eq: operator.eq,
    ast.NotEq: operator.ne,
}


def worked(text: str, env: Env) -> Value:
    """The value of a formula.

    Raises:
        Cannot: it has no value.
    """
    formula = read(text)
    return value_of(formula, formula.tree, env)


def number(text: str, env: Env) -> Amount:
    """The same for a formula that must be a number."""
    return _amount(worked(text, env))


def holds(text: str, env: Env) -> bool:
    """The same for a condition."""
    return _truth(worked(text, env))


def looked_up(name: str, env: Env) -> Value:
    """A value by its name; "route.acid" is a cell of a row, "titres.1" the first of a list.

    Raises:
        Cannot: nothing is called that.
    """
    if name in env:
        return env[name]
    first, _, rest = name.partition(".")
    inside = env.get(first)
    if isinstance(inside, Mapping) and rest in inside:
        return inside[rest]
    if isinstance(inside, tuple) and rest.isdecimal():
        place = int(rest)
        if 0 < place <= len(inside):
            return inside[place - 1]
    raise Cannot(f"nothing is called {name!r}")


def value_of(formula: Formula, node: ast.expr, env: Env) -> Value:
    """The value of part of a formula.

    Raises:
        Cannot: it has no value.
    """
    rule = _RULES.get(type(node))
    if rule is None:
        raise Cannot(f"{formula.text!r} is not read as a formula")
    return rule(formula, node, env)


def written_out(formula: Formula, node: ast.expr) -> bool:
    """Whether it contains only bare numbers, and so takes the unit of the other operand."""
    if isinstance(node, ast.UnaryOp):
        return isinstance(node.op, ast.USub) and written_out(formula, node.operand)
    if isinstance(node, ast.BinOp) and not isinstance(node.op, ast.LShift):
        return written_out(formula, node.left) and written_out(formula, node.right)
    return isinstance(node, ast.Name) and not isinstance(formula.leaf(node), Word | Called | Unit)


def _leaf(formula: Formula, node: ast.Name, env: Env) -> Value:
    leaf = formula.leaf(node)
    if isinstance(leaf, Called):
        return looked_up(leaf.name, env)
    if isinstance(leaf, Word):
        return leaf.text
    if isinstance(leaf, Unit):
        raise Cannot("a unit is no value")
    return Amount(leaf)


def _binary(formula: Formula, node: ast.BinOp, env: Env) -> Value:
    if isinstance(node.op, ast.LShift):
        return _in(formula, node, env)
    rule = _ARITHMETIC.get(type(node.op))
    if rule is None:
        raise Cannot(f"{formula.text!r} is not read as a formula")
    left = _amount(value_of(formula, node.left, env))
    return rule(left, _amount(value_of(formula, node.right, env)))


def _in(formula: Formula, node: ast.BinOp, env: Env) -> Value:
    """`x in [a, b]` asks whether it is one of them, `x in g` is that amount in grams."""
    if isinstance(node.right, ast.List):
        left = value_of(formula, node.left, env)
        return any(
            _compared(formula, ast.Eq, (node.left, left), (one, value_of(formula, one, env)))
            for one in node.right.elts
        )
    unit = formula.leaf(node.right)
    if not isinstance(unit, Unit):
        raise Cannot(f"{formula.text!r} is not read as a formula")
    fresh = written_out(formula, node.left)

    def one(value: Value) -> Amount:
        amount = _amount(value)
        return replace(amount, unit=unit) if fresh and amount.unit.plain else turned(amount, unit)

    value = value_of(formula, node.left, env)
    if isinstance(value, tuple):
        return tuple(one(item) for item in value)
    return one(value)


def _unary(formula: Formula, node: ast.UnaryOp, env: Env) -> Value:
    value = value_of(formula, node.operand, env)
    if isinstance(node.op, ast.Not):
        return not _truth(value)
    if not isinstance(node.op, ast.USub):
        raise Cannot(f"{formula.text!r} is not read as a formula")
    amount = _amount(value)
    return replace(amount, number=-amount.number)


def _joined(formula: Formula, node: ast.BoolOp, env: Env) -> Value:
    """Operands after the deciding one are not evaluated."""
    decides = isinstance(node.op, ast.Or)
    for part in node.values:
        if _truth(value_of(formula, part, env)) == decides:
            return decides
    return not decides


def _comparison(formula: Formula, node: ast.Compare, env: Env) -> Value:
    left = (node.left, value_of(formula, node.left, env))
    for op, following in zip(node.ops, node.comparators, strict=True):
        right = (following, value_of(formula, following, env))
        if not _compared(formula, type(op), left, right):
            return False
        left = right
    return True


def _compared(
    formula: Formula, op: type, one: tuple[ast.expr, Value], other: tuple[ast.expr, Value]
) -> bool:
    """Compares numbers by size, converting units; a bare number takes the other's unit."""
    (left_node, left), (right_node, right) = one, other
    if isinstance(left, Amount) and isinstance(right, Amount):
        if written_out(formula, left_node):
            left = replace(left, unit=right.unit)
        elif written_out(formula, right_node):
            right = replace(right, unit=left.unit)
        return _COMPARISONS[op](left.number, turned(right, left.unit).number)
    same = type(left) is type(right) and isinstance(left, str | bool)
    if op not in (ast.Eq, ast.NotEq) or not same:
        raise Cannot(f"{formula.text!r} compares different things")
    return _COMPARISONS[op](left, right)


def _list(formula: Formula, node: ast.List, env: Env) -> Value:
    values = tuple(value_of(formula, item, env) for item in node.elts)
    if all(isinstance(value, Amount) for value in values):
        return values  # type: ignore[return-value]
    if all(isinstance(value, str) for value in values):
        return values  # type: ignore[return-value]
    raise Cannot("a list holds numbers, or text")


def _call(formula: Formula, node: ast.Call, env: Env) -> Value:
    called = formula.leaf(node.func)
    name = called.name if isinstance(called, Called) else ""
    if name == "if" and len(node.args) == 3:
        chosen = node.args[1 if _truth(value_of(formula, node.args[0], env)) else 2]
        return value_of(formula, chosen, env)
    values = [value_of(formula, argument, env) for argument in node.args]
    if name == "M" and len(values) == 1:
        return molar_mass(values[0], env.get("M"))
    if name not in FUNCTIONS or not values:
        raise Cannot(f"there is no function {name!r}")
    if name in ("min", "max"):
        values = _in_one_unit(formula, node.args, values)
    return FUNCTIONS[name](values)


def _in_one_unit(
    formula: Formula, nodes: Sequence[ast.expr], values: Sequence[Value]
) -> list[Value]:
    """Bare numbers take the unit of the first amount in the list: max(0, mass)."""
    fresh = [written_out(formula, node) for node in nodes]
    units = [
        value.unit
        for value, is_ in zip(values, fresh, strict=True)
        if isinstance(value, Amount) and not is_
    ]
    return [
        replace(value, unit=units[0]) if units and is_ and isinstance(value, Amount) else value
        for value, is_ in zip(values, fresh, strict=True)
    ]


def _amount(value: Value) -> Amount:
    if not isinstance(value, Amount):
        raise Cannot("a number is wanted")
    return value


def _truth(value: Value) -> bool:
    if not isinstance(value, bool):
        raise Cannot("something true or false is wanted")
    return value


_RULES: Mapping[type, Callable[..., Value]] = {
    ast.Name: _leaf,
    ast.BinOp: _binary,
    ast.UnaryOp: _unary,
    ast.BoolOp: _joined,
    ast.Compare: _comparison,
    ast.List: _list,
    ast.Call: _call,
}
