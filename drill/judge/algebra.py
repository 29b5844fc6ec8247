"""Formulas as sympy expressions, built from Python's tree; no text ever reaches sympy.

Every number that a question was given becomes a symbol with a value, in the unit it was given in.
What cannot be written as algebra (rounding, leaving out a reading) ends the expression: sympy works
out its exact value so far, and a new symbol with that value takes its place.
"""

from __future__ import annotations

import ast
from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from math import ceil, floor
from typing import Any

from drill.judge.amounts import Amount, Value
from drill.judge.cannot import Cannot
from drill.judge.grammar import Called, Formula, Word
from drill.judge.rounding import half_up, to_figures
from drill.judge.units import Unit
from drill.judge.working import looked_up, value_of, written_out

Expr = Any  # of sympy, which has no types
Exprs = tuple[Expr, ...]

_SHORTER = ("drop", "without", "drop_anomaly", "concordant")
_PICKED = ("min", "max", "first", "last", "median", "M")
_DIGITS = 60  # worked with where a root or a logarithm does not end

_ARITHMETIC: Mapping[type, Callable[[Expr, Expr], Expr]] = {
    ast.Add: lambda a, b: a + b,
    ast.Sub: lambda a, b: a - b,
    ast.Mult: lambda a, b: a * b,
    ast.Div: lambda a, b: a / b,
    ast.Pow: lambda a, b: a**b,
}
_CUTS: Mapping[str, Callable[..., Fraction]] = {
    "round": half_up,
    "sig": to_figures,
    "floor": lambda value: Fraction(floor(value)),
    "ceil": lambda value: Fraction(ceil(value)),
}


class Algebra:
    """Expressions in the given numbers of one instance."""

    def __init__(self, env: Mapping[str, Value]) -> None:
        self.env = env
        self.worked: dict[str, Expr | Exprs] = {}
        self.known: dict[Expr, Expr] = {}

    def of(self, formula: Formula, node: ast.expr) -> Expr:
        """Part of a formula as one exact expression.

        Raises:
            Cannot: it is not a number.
        """
        if isinstance(node, ast.Name):
            return self._leaf(formula, node)
        if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
            return -self.of(formula, node.operand)
        if isinstance(node, ast.BinOp) and isinstance(node.op, ast.LShift):
            return self.of(formula, node.left) * self._scale(formula, node)
        if isinstance(node, ast.BinOp):
            return _ARITHMETIC[type(node.op)](
                self.of(formula, node.left), self.of(formula, node.right)
            )
        if isinstance(node, ast.Call):
            return self._called(formula, node)
        raise Cannot("it is no algebra")

    def several(self, formula: Formula, node: ast.expr) -> Exprs:
        """The members of a list, each an expression.

        Raises:
            Cannot: it is not a list of numbers.
        """
        if isinstance(node, ast.List):
            return tuple(self.of(formula, item) for item in node.elts)
        if isinstance(node, ast.BinOp) and isinstance(node.op, ast.LShift):
            scale = self._scale(formula, node)
            return tuple(one * scale for one in self.several(formula, node.left))
        if isinstance(node, ast.Call) and _name(formula, node) in _SHORTER:
            return self._kept(formula, node)
        leaf = formula.leaf(node) if isinstance(node, ast.Name) else None
        found = self.named(leaf.name) if isinstance(leaf, Called) else None
        if isinstance(found, tuple):
            return found
        raise Cannot("it is no list of numbers")

    def named(self, name: str) -> Expr | Exprs:
        """The expression for a name: one already built, or a new symbol with its value."""
        if name not in self.worked:
            value = looked_up(name, self.env)
            if isinstance(value, Amount):
                self.worked[name] = self.symbol(value.number, name)
            elif isinstance(value, tuple):
                self.worked[name] = tuple(
                    self.symbol(one.number, name) for one in value if isinstance(one, Amount)
                )
            else:
                raise Cannot("it is no number")
        return self.worked[name]

    def symbol(self, value: Fraction, name: str) -> Expr:
        """A new symbol with that value; its sign is declared, so that roots simplify."""
        from sympy import Dummy

        made = Dummy(name, positive=True) if value > 0 else Dummy(name, real=True)
        self.known[made] = rational(value)
        return made

    def number(self, expression: Expr) -> Fraction | None:
        """The exact value of an expression for these numbers; None when it is not rational."""
        value = expression.xreplace(self.known)
        if not value.is_Rational:
            value = value.simplify()
        return Fraction(int(value.p), int(value.q)) if value.is_Rational else None

    def equals(self, expression: Expr, value: Fraction) -> bool:
        """Whether an expression equals a value; compared to 35 figures if it is irrational."""
        exact = self.number(expression)
        if exact is not None:
            return exact == value
        off = (expression.xreplace(self.known) - rational(value)).evalf(_DIGITS)
        return bool(abs(off) <= abs(rational(value)) / 10**35)

    # ------------------------------------------------------------ pieces

    def _leaf(self, formula: Formula, node: ast.Name) -> Expr:
        leaf = formula.leaf(node)
        if isinstance(leaf, Word | Unit):
            raise Cannot("it is no number")
        if not isinstance(leaf, Called):
            return rational(leaf)
        found = self.named(leaf.name)
        if isinstance(found, tuple):
            raise Cannot("it is a list")
        return found

    def _value(self, formula: Formula, node: ast.expr) -> Value:
        return value_of(formula, node, self.env)

    def _scale(self, formula: Formula, node: ast.BinOp) -> Expr:
        """The conversion factor from the old unit to the new; a bare number takes the new unit."""
        unit = None if isinstance(node.right, ast.List) else formula.leaf(node.right)
        before = self._value(formula, node.left)
        first = before[0] if isinstance(before, tuple) and before else before
        if not isinstance(unit, Unit) or not isinstance(first, Amount):
            raise Cannot("it is no number")
        if written_out(formula, node.left):
            return rational(Fraction(1))
        return rational(first.unit.scale / unit.scale)

    def _kept(self, formula: Formula, node: ast.Call) -> Exprs:
        """The members that are kept, matched by their values in order."""
        after = self._value(formula, node)
        waiting = [one.number for one in after if isinstance(one, Amount)] if isinstance(
            after, tuple) else []  # fmt: skip
        kept: list[Expr] = []
        for one in self.several(formula, node.args[0]):
            if waiting and self.number(one) == waiting[0]:
                kept.append(one)
                waiting.pop(0)
        return tuple(kept)

    def _called(self, formula: Formula, node: ast.Call) -> Expr:
        name = _name(formula, node)
        if name in _CUTS:
            return self._cut(formula, node, _CUTS[name])
        if name in _PICKED:
            return self._chosen(formula, node)
        if name == "if":
            chosen = node.args[1 if self._value(formula, node.args[0]) is True else 2]
            return self.of(formula, chosen)
        if name in _OF_LISTS:
            return _OF_LISTS[name](self, self.several(formula, node.args[0]))
        if name in _OF_NUMBERS:
            return _OF_NUMBERS[name](self, [self.of(formula, one) for one in node.args])
        raise Cannot("it is no algebra")

    def _cut(self, formula: Formula, node: ast.Call, rule: Callable[..., Fraction]) -> Expr:
        exact = self.number(self.of(formula, node.args[0]))
        others = [self._value(formula, one) for one in node.args]
        numbers = [one.number for one in others if isinstance(one, Amount)]
        if exact is None:
            exact = numbers[0]
        return self.symbol(rule(exact, *map(int, numbers[1:])), "cut")

    def _chosen(self, formula: Formula, node: ast.Call) -> Expr:
        """One of several values, chosen by size or position; its own expression if it has one."""
        value = self._value(formula, node)
        if not isinstance(value, Amount):
            raise Cannot("it is no number")
        try:
            if len(node.args) == 1:
                offered: Sequence[Expr] = self.several(formula, node.args[0])
            else:
                offered = [self.of(formula, one) for one in node.args]
        except Cannot:
            offered = ()
        same = (one for one in offered if self.number(one) == value.number)
        return next(same, None) or self.symbol(value.number, "chosen")

    def size(self, expression: Expr) -> Fraction:
        """The value of an expression, for putting several in order."""
        return self.number(expression) or Fraction(0)


def rational(value: Fraction) -> Expr:
    """An exact number of sympy's."""
    from sympy import Rational

    return Rational(value.numerator, value.denominator)


def _name(formula: Formula, node: ast.Call) -> str:
    leaf = formula.leaf(node.func)
    return leaf.name if isinstance(leaf, Called) else ""


def _total(algebra: Algebra, items: Sequence[Expr]) -> Expr:
    return sum(items, start=rational(Fraction(0)))


def _spread(algebra: Algebra, items: Sequence[Expr]) -> Expr:
    ordered = sorted(items, key=algebra.size)
    return ordered[-1] - ordered[0]


def _absolute(algebra: Algebra, items: Sequence[Expr]) -> Expr:
    return -items[0] if algebra.size(items[0]) < 0 else items[0]


def _root(algebra: Algebra, items: Sequence[Expr]) -> Expr:
    from sympy import sqrt

    return sqrt(items[0])


def _logarithm(algebra: Algebra, items: Sequence[Expr]) -> Expr:
    from sympy import log

    return log(items[0]) / log(rational(Fraction(10)))


_Rule = Callable[[Algebra, Sequence[Expr]], Expr]

_OF_LISTS: Mapping[str, _Rule] = {
    "sum": _total,
    "mean": lambda algebra, items: _total(algebra, items) / len(items),
    "count": lambda algebra, items: rational(Fraction(len(items))),
    "range": _spread,
    "half_range": lambda algebra, items: _spread(algebra, items) / 2,
}
_OF_NUMBERS: Mapping[str, _Rule] = {
    "abs": _absolute,
    "sqrt": _root,
    "log10": _logarithm,
    "gradient": lambda _, a: (a[3] - a[1]) / (a[2] - a[0]),
    "percent_of": lambda _, a: 100 * a[0] / a[1],
    "percent_change": lambda _, a: 100 * (a[1] - a[0]) / a[0],
    "percent_error": lambda it, a: 100 * _absolute(it, [a[0] - a[1]]) / a[1],
}
