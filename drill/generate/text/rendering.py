"""A formula with its numbers put in, as a pupil writes it: 100 × 4.12 g ÷ 6.2375 g.

Brackets are written only where the order of operations needs them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from drill.generate.text.amounts import converted_text, with_unit
from drill.generate.text.call_rendering import CALLS, added_up
from drill.generate.text.fill import look_up
from drill.generate.text.pieces import (
    PRODUCT,
    SIGNED,
    SUM,
    WHOLE,
    FormulaPiece,
    power,
    signed,
    value_text,
)
from drill.quantities import Expression, Fault, Quantity, Value, evaluate
from drill.quantities.expressions.nodes import (
    Binary,
    Call,
    Convert,
    ListOf,
    Name,
    Negate,
    Node,
    NumberNode,
)

_SIGNS = {"+": "+", "-": "−", "*": "×", "/": "÷"}


@dataclass
class Writer:
    """Writes formulae with one instance's numbers.

    `conversions` gathers the lines that must come before ("25.0 cm3 = 0.0250 dm3").
    """

    values: Mapping[str, Value]
    conversions: list[str] = field(default_factory=list)

    def write(self, node: Node) -> str:
        """The whole formula."""
        return self.piece(node).text

    def value(self, node: Node) -> Value | Fault:
        """What a piece of a formula comes to."""
        return evaluate(Expression("", node, frozenset()), self.values)

    def piece(self, node: Node) -> FormulaPiece:
        """A piece of a formula, ready to stand beside others."""
        if isinstance(node, NumberNode):
            return FormulaPiece(node.text)
        if isinstance(node, Name):
            return signed(self._amount(node))
        if isinstance(node, Negate):
            return FormulaPiece(f"−{self.piece(node.operand).inside(WHOLE)}", SIGNED)
        if isinstance(node, Binary):
            return self._binary(node)
        if isinstance(node, Convert):
            return self._converted(node)
        if isinstance(node, Call) and node.function in CALLS:
            return CALLS[node.function](self, node.arguments)
        if isinstance(node, Call) and node.own is not None:
            return added_up(self, node)
        return self.worked_out(node)

    def _binary(self, node: Binary) -> FormulaPiece:
        left, right = self.piece(node.left), self.piece(node.right)
        if node.op == "^":
            return power(left, right)
        tight = SUM if node.op in "+-" else PRODUCT
        # subtracting or dividing by a whole sum or product takes brackets, adding or
        # multiplying by one does not
        after = tight + 1 if node.op in "-/" else tight
        after_text = right.inside(WHOLE if right.tight == SIGNED else after)
        return FormulaPiece(f"{left.inside(tight)} {_SIGNS[node.op]} {after_text}", tight)

    def _converted(self, node: Convert) -> FormulaPiece:
        """The value in the other unit; the conversion itself goes on a line of its own."""
        before, after = self.value(node.operand), self.value(node)
        if not isinstance(before, Quantity) or not isinstance(after, Quantity):
            return self.worked_out(node)
        inner = self.piece(node.operand)
        if not before.unit.symbol and after.unit.symbol:
            return signed(with_unit(inner.inside(SIGNED), after.unit.symbol))
        if before.unit.scale == after.unit.scale:
            return inner
        text = converted_text(inner.text, after)
        line = f"{inner.text} = {text}"
        if line not in self.conversions:
            self.conversions.append(line)
        return signed(text)

    def _amount(self, node: Name) -> str:
        value = look_up(self.values, node.name)
        return "?" if isinstance(value, Fault) else value_text(value)

    def worked_out(self, node: Node) -> FormulaPiece:
        """For what has no form on paper: the value alone."""
        value = self.value(node)
        return signed(value_text(value)) if not isinstance(value, Fault) else FormulaPiece("?")

    def quantities(self, arguments: tuple[Node, ...]) -> list[Quantity]:
        """The members of a list, or of several arguments that stand for one."""
        nodes = arguments
        if len(arguments) == 1:
            only = arguments[0]
            value = self.value(only)
            if isinstance(value, tuple):
                return [one for one in value if isinstance(one, Quantity)]
            nodes = only.items if isinstance(only, ListOf) else arguments
        values = [self.value(node) for node in nodes]
        return [value for value in values if isinstance(value, Quantity)]
