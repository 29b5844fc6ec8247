"""Our formulae as sympy expressions, built from our own tree; no text ever reaches sympy.

Every number a question was given becomes a symbol with a value. What cannot be written as algebra
(rounding, which reading is left out) cuts the expression: the value so far is worked out exactly,
and a new symbol with the result carries on.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from drill.generate.proof.exact_functions import (
    LISTS,
    OPERATIONS,
    ROUNDINGS,
    SINGLE,
    Expr,
    rational,
)
from drill.generate.text.fill import look_up
from drill.quantities import Expression, Fault, Quantity, Unit, Value, evaluate
from drill.quantities.expressions.nodes import (
    Binary,
    Call,
    Convert,
    ListOf,
    Name,
    Negate,
    Node,
    NumberNode,
    children,
)

_SHORTER = ("drop", "without", "drop_anomaly", "concordant")
_CUTS = ("round", "sig", "floor", "ceil")
_DIGITS = 60  # worked with where a root or a logarithm does not end


class NotAlgebra(Exception):
    """The formula speaks of words or conditions, not of numbers."""


class Algebra:
    """Expressions in the given numbers of one instance."""

    def __init__(self, values: Mapping[str, Value]) -> None:
        self.values = values
        self.worked: dict[str, Expr | tuple[Expr, ...]] = {}
        self.known: dict[Expr, Expr] = {}

    def of(self, node: Node) -> Expr:
        """A formula as one exact expression.

        Raises:
            NotAlgebra: it is no number.
        """
        if isinstance(node, NumberNode):
            return rational(node.value)
        if isinstance(node, Name):
            return self._named(node.name)
        if isinstance(node, Negate):
            return -self.of(node.operand)
        if isinstance(node, Binary):
            return OPERATIONS[node.op](self.of(node.left), self.of(node.right))
        if isinstance(node, Convert):
            return self.of(node.operand) * self._scale(node)
        if isinstance(node, Call):
            return self._called(node)
        raise NotAlgebra

    def several(self, node: Node) -> tuple[Expr, ...]:
        """The members of a list, each an expression.

        Raises:
            NotAlgebra: it is no list of numbers.
        """
        if isinstance(node, ListOf):
            return tuple(self.of(item) for item in node.items)
        if isinstance(node, Name):
            found = self._looked_up(node.name)
            if isinstance(found, tuple):
                return found
        if isinstance(node, Call) and node.function in _SHORTER:
            return self._kept(node)
        if isinstance(node, Convert):
            scale = rational(self._first(node.operand).scale / self._first(node).scale)
            return tuple(one * scale for one in self.several(node.operand))
        raise NotAlgebra

    def number(self, expression: Expr) -> Fraction | None:
        """The exact value of an expression here; None when it does not end in a fraction."""
        value = expression.xreplace(self.known)
        if not value.is_Rational:
            value = value.simplify()
        return Fraction(int(value.p), int(value.q)) if value.is_Rational else None

    def equals(self, expression: Expr, value: Fraction) -> bool:
        """Whether an expression comes to a value; to 35 figures where it does not end."""
        exact = self.number(expression)
        if exact is not None:
            return exact == value
        off = (expression.xreplace(self.known) - rational(value)).evalf(_DIGITS)
        return bool(abs(off) <= abs(rational(value)) / 10**35)

    # ------------------------------------------------------------ names

    def _named(self, name: str) -> Expr:
        found = self._looked_up(name)
        if isinstance(found, tuple):
            raise NotAlgebra
        return found

    def _looked_up(self, name: str) -> Expr | tuple[Expr, ...]:
        if name not in self.worked:
            value = look_up(self.values, name)
            if isinstance(value, Quantity):
                self.worked[name] = self.symbol(value.value, name)
            elif isinstance(value, tuple):
                self.worked[name] = tuple(
                    self.symbol(item.value, name) for item in value if isinstance(item, Quantity)
                )
            else:
                raise NotAlgebra
        return self.worked[name]

    def symbol(self, value: Fraction, name: str) -> Expr:
        """A new symbol of that value; its sign is known, so that roots simplify."""
        from sympy import Dummy

        made = Dummy(name, positive=True) if value > 0 else Dummy(name, real=True)
        self.known[made] = rational(value)
        return made

    # ------------------------------------------------------------ what our own rules decide

    def _valued(self, node: Node) -> Value:
        value = evaluate(Expression("", node, frozenset()), self.values)
        if isinstance(value, Fault):
            raise NotAlgebra
        return value

    def quantity(self, node: Node) -> Quantity:
        value = self._valued(node)
        if not isinstance(value, Quantity):
            raise NotAlgebra
        return value

    def _scale(self, node: Convert) -> Expr:
        """How many of the new unit one of the old is; a number written out takes the new unit."""
        before, after = self.quantity(node.operand), self.quantity(node)
        if _is_literal(node.operand):
            return rational(Fraction(1))
        return rational(before.unit.scale / after.unit.scale)

    def _first(self, node: Node) -> Unit:
        """The unit of a list: that of its first member."""
        value = self._valued(node)
        first = value[0] if isinstance(value, tuple) and value else None
        if not isinstance(first, Quantity):
            raise NotAlgebra
        return first.unit

    def _kept(self, call: Call) -> tuple[Expr, ...]:
        """The members our rules keep, told by their values in order."""
        before, after = self._valued(call.arguments[0]), self._valued(call)
        if not isinstance(before, tuple) or not isinstance(after, tuple):
            raise NotAlgebra
        kept: list[Expr] = []
        waiting = [item.value for item in after if isinstance(item, Quantity)]
        for item, expression in zip(before, self.several(call.arguments[0]), strict=True):
            if waiting and isinstance(item, Quantity) and item.value == waiting[0]:
                kept.append(expression)
                waiting.pop(0)
        return tuple(kept)

    def _called(self, call: Call) -> Expr:
        if call.function in _CUTS:
            return self._cut(call)
        if call.function in ("min", "max", "first", "last", "median") or call.own:
            return self._picked(call)
        if call.function == "if":
            condition, yes, no = call.arguments
            return self.of(yes if self._valued(condition) is True else no)
        if call.function in LISTS:
            return LISTS[call.function](self.several(call.arguments[0]), self.number)
        if call.function in SINGLE:
            return SINGLE[call.function]([self.of(one) for one in call.arguments], self.number)
        raise NotAlgebra

    def _cut(self, call: Call) -> Expr:
        """The rounded value, worked from sympy's own exact value, as a new symbol."""
        exact = self.number(self.of(call.arguments[0]))
        if exact is None:
            exact = self.quantity(call.arguments[0]).value
        places = [int(self.quantity(one).value) for one in call.arguments[1:]]
        return self.symbol(ROUNDINGS[call.function](exact, *places), call.function)

    def _picked(self, call: Call) -> Expr:
        """One of several values, chosen by size or place: its own expression if it has one."""
        value = self.quantity(call).value
        try:
            if len(call.arguments) == 1:
                offered = self.several(call.arguments[0])
            else:
                offered = tuple(self.of(argument) for argument in call.arguments)
        except NotAlgebra:
            offered = ()
        same = [one for one in offered if self.number(one) == value]
        return same[0] if same else self.symbol(value, call.function)


def _is_literal(node: Node) -> bool:
    if isinstance(node, NumberNode):
        return True
    return isinstance(node, Negate | Binary) and all(map(_is_literal, children(node)))
