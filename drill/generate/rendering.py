"""A formula with its numbers put in, as a pupil writes it: 100 × 4.12 g ÷ 6.2375 g.

Brackets stand only where the order of working needs them.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from drill.generate.amounts import amount_text, converted_text, number_text, with_unit
from drill.generate.fill import look_up
from drill.generate.words import listed
from drill.quantities import (
    Expression,
    Fault,
    Formula,
    Quantity,
    Row,
    Value,
    evaluate,
    parse_formula,
)
from drill.quantities.nodes import Binary, Call, Convert, ListOf, Name, Negate, Node, Number

_SUM, _PRODUCT, _SIGNED, _WHOLE = 1, 2, 3, 4  # how tightly a piece of text holds together
_SIGNS = {"+": "+", "-": "−", "*": "×", "/": "÷"}
_RAISED = str.maketrans("0123456789-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁻")


@dataclass(frozen=True)
class Piece:
    """Text and how tightly it holds together."""

    text: str
    tight: int = _WHOLE

    def inside(self, least: int) -> str:
        """The text, in brackets unless it holds together as tightly as asked."""
        return self.text if self.tight >= least else f"({self.text})"


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

    def piece(self, node: Node) -> Piece:
        """A piece of a formula, ready to stand beside others."""
        if isinstance(node, Number):
            return Piece(node.text)
        if isinstance(node, Name):
            return _signed(self._amount(node))
        if isinstance(node, Negate):
            return Piece(f"−{self.piece(node.operand).inside(_WHOLE)}", _SIGNED)
        if isinstance(node, Binary):
            return self._binary(node)
        if isinstance(node, Convert):
            return self._converted(node)
        if isinstance(node, Call) and node.function in CALLS:
            return CALLS[node.function](self, node.arguments)
        return self._worked_out(node)

    def _binary(self, node: Binary) -> Piece:
        left, right = self.piece(node.left), self.piece(node.right)
        if node.op == "^":
            return _power(left, right)
        tight = _SUM if node.op in "+-" else _PRODUCT
        # subtracting or dividing by a whole sum or product takes brackets, adding or
        # multiplying by one does not
        after = tight + 1 if node.op in "-/" else tight
        after_text = right.inside(_WHOLE if right.tight == _SIGNED else after)
        return Piece(f"{left.inside(tight)} {_SIGNS[node.op]} {after_text}", tight)

    def _converted(self, node: Convert) -> Piece:
        """The value in the other unit; the conversion itself goes on a line of its own."""
        before, after = self.value(node.operand), self.value(node)
        if not isinstance(before, Quantity) or not isinstance(after, Quantity):
            return self._worked_out(node)
        inner = self.piece(node.operand)
        if not before.unit.symbol and after.unit.symbol:
            return _signed(with_unit(inner.inside(_SIGNED), after.unit.symbol))
        if before.unit.scale == after.unit.scale:
            return inner
        text = converted_text(inner.text, after)
        line = f"{inner.text} = {text}"
        if line not in self.conversions:
            self.conversions.append(line)
        return _signed(text)

    def _amount(self, node: Name) -> str:
        value = look_up(self.values, node.name)
        return "?" if isinstance(value, Fault) else value_text(value)

    def _worked_out(self, node: Node) -> Piece:
        """For what has no form on paper: the value alone."""
        value = self.value(node)
        return _signed(value_text(value)) if not isinstance(value, Fault) else Piece("?")

    def items(self, arguments: tuple[Node, ...]) -> tuple[list[str], str]:
        """The members of a list as numbers, and their unit."""
        nodes = arguments
        if len(arguments) == 1:
            if not isinstance(arguments[0], ListOf):
                return _members(self.value(arguments[0]))
            nodes = arguments[0].items
        values = [self.value(node) for node in nodes]
        return _members(tuple(value for value in values if isinstance(value, Quantity)))


def _members(value: object) -> tuple[list[str], str]:
    items = value if isinstance(value, tuple) else ()
    quantities = [one for one in items if isinstance(one, Quantity)]
    unit = quantities[0].unit.symbol if quantities else ""
    return [number_text(one) for one in quantities], unit


def value_text(value: Value) -> str:
    """A value in a worked answer: an amount, several of one unit, or words."""
    if isinstance(value, Quantity):
        return amount_text(value)
    if isinstance(value, tuple):
        numbers, unit = _members(value)
        words = numbers or [one for one in value if isinstance(one, str)]
        return with_unit(listed(words), unit)
    return str(value)


def _signed(text: str) -> Piece:
    return Piece(text, _SIGNED if text.startswith("−") else _WHOLE)


def _power(base: Piece, exponent: Piece) -> Piece:
    whole = exponent.text.replace("−", "-")
    bare = " " not in base.text and base.tight == _WHOLE
    text = base.text if bare else f"({base.text})"
    if whole.lstrip("-").isdigit():
        return Piece(text + whole.translate(_RAISED))
    return Piece(f"{text}^{exponent.inside(_WHOLE)}")


# ------------------------------------------------------------ functions as they are written

Written = Callable[[Writer, tuple[Node, ...]], Piece]


def _inner(writer: Writer, arguments: tuple[Node, ...]) -> Piece:
    """Rounding is said at the end of the line, not inside it."""
    return writer.piece(arguments[0])


def _mean(writer: Writer, arguments: tuple[Node, ...]) -> Piece:
    numbers, unit = writer.items(arguments)
    return Piece(f"({' + '.join(numbers)}){f' {unit}' if unit else ''} ÷ {len(numbers)}", _PRODUCT)


def _total(writer: Writer, arguments: tuple[Node, ...]) -> Piece:
    numbers, unit = writer.items(arguments)
    return Piece(f"({' + '.join(numbers)}) {unit}".strip() if unit else " + ".join(numbers), _SUM)


def _range(writer: Writer, arguments: tuple[Node, ...]) -> Piece:
    low, high, unit = _ends(writer, arguments)
    return Piece(f"{high}{unit} − {low}{unit}", _SUM)


def _half_range(writer: Writer, arguments: tuple[Node, ...]) -> Piece:
    low, high, unit = _ends(writer, arguments)
    return Piece(f"({high}{unit} − {low}{unit}) ÷ 2", _PRODUCT)


def _ends(writer: Writer, arguments: tuple[Node, ...]) -> tuple[str, str, str]:
    numbers, unit = writer.items(arguments)
    ordered = sorted(numbers, key=lambda text: float(text.replace("−", "-").rstrip("…")))
    return ordered[0], ordered[-1], f" {unit}" if unit else ""


def _gradient(writer: Writer, arguments: tuple[Node, ...]) -> Piece:
    x1, y1, x2, y2 = arguments
    up = Binary("-", y2, y1)
    return writer.piece(Binary("/", up, Binary("-", x2, x1)))


def _percent_change(writer: Writer, arguments: tuple[Node, ...]) -> Piece:
    before, after = arguments
    share = Binary("/", Binary("-", after, before), before)
    return writer.piece(Binary("*", share, _hundred()))


def _percent_of(writer: Writer, arguments: tuple[Node, ...]) -> Piece:
    part, whole = arguments
    return writer.piece(Binary("*", Binary("/", part, whole), _hundred()))


def _percent_error(writer: Writer, arguments: tuple[Node, ...]) -> Piece:
    measured, true = arguments
    off = _size(writer, (Binary("-", measured, true),)).inside(_WHOLE)
    return Piece(f"{off} ÷ {writer.piece(true).inside(_WHOLE)} × 100", _PRODUCT)


def _hundred() -> Number:
    from fractions import Fraction

    return Number(Fraction(100), "100")


def _root(writer: Writer, arguments: tuple[Node, ...]) -> Piece:
    return Piece(f"√({writer.write(arguments[0])})")


def _mass(writer: Writer, arguments: tuple[Node, ...]) -> Piece:
    """The masses of the atoms, as they are added up: 63.5 + 32 + 9 × 16 + 10 × 1."""
    formula, table = writer.value(arguments[0]), writer.values.get("M")
    atoms = parse_formula(formula) if isinstance(formula, str) else None
    if not isinstance(atoms, Formula) or not isinstance(table, Row):
        return writer.piece(arguments[0])
    terms: list[str] = []
    for symbol, number in atoms.atoms.items():
        mass = table.cells.get(symbol)
        text = number_text(mass) if isinstance(mass, Quantity) else symbol
        terms.append(text if number == 1 else f"{number} × {text}")
    return Piece(" + ".join(terms), _SUM)


def _branch(writer: Writer, arguments: tuple[Node, ...]) -> Piece:
    condition, yes, no = arguments
    return writer.piece(yes if writer.value(condition) is True else no)


def _size(writer: Writer, arguments: tuple[Node, ...]) -> Piece:
    inside = arguments[0]
    value = writer.value(inside)
    negative = isinstance(value, Quantity) and value.value < 0
    if isinstance(inside, Binary) and inside.op == "-" and negative:
        return writer.piece(Binary("-", inside.right, inside.left))
    return writer.piece(Negate(inside) if negative else inside)


CALLS: Mapping[str, Written] = {
    "round": _inner,
    "sig": _inner,
    "mean": _mean,
    "sum": _total,
    "range": _range,
    "half_range": _half_range,
    "gradient": _gradient,
    "percent_change": _percent_change,
    "percent_of": _percent_of,
    "percent_error": _percent_error,
    "sqrt": _root,
    "if": _branch,
    "M": _mass,
    "abs": _size,
}
