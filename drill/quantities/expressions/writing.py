"""An expression's tree written out again, with only the brackets it needs."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from drill.quantities.expressions.nodes import (
    Binary,
    Call,
    Compare,
    Convert,
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

# how tightly each kind holds together, loosest first; see parser.py
_OR, _AND, _NOT, _COMPARE, _IN, _SUM, _PRODUCT, _SIGN, _POWER, _ALONE = range(10)
_OF_OP = {"or": _OR, "and": _AND, "+": _SUM, "-": _SUM, "*": _PRODUCT, "/": _PRODUCT, "^": _POWER}


def text_of(node: Node, name: Callable[[str], str] = str) -> str:
    """The tree as text that reads back as the same tree; `name` may show names otherwise."""
    return _written(node, name)[0]


def _written(node: Node, name: Callable[[str], str]) -> tuple[str, int]:
    """The text and how tightly it holds together."""

    def inside(child: Node, at_least: int) -> str:
        text, tight = _written(child, name)
        return text if tight >= at_least else f"({text})"

    match node:
        case NumberNode():
            return _number(node)
        case TextNode(value):
            return f'"{value}"', _ALONE
        case Name(called):
            return name(called), _ALONE
        case Negate(operand):
            return f"-{inside(operand, _SIGN)}", _SIGN
        case Binary("^", left, right):
            return f"{inside(left, _ALONE)}^{inside(right, _SIGN)}", _POWER
        case Binary(op, left, right) | Logic(op, left, right):
            tight = _OF_OP[op]
            return f"{inside(left, tight)} {op} {inside(right, tight + 1)}", tight
        case Not(operand):
            return f"not {inside(operand, _NOT)}", _NOT
        case Compare(operands, ops):
            parts = [inside(operand, _IN) for operand in operands]
            pairs = [f" {op} {part}" for op, part in zip(ops, parts[1:], strict=True)]
            return parts[0] + "".join(pairs), _COMPARE
        case Convert(operand, unit):
            return f"{inside(operand, _SUM)} in {_unit(unit.symbol)}", _IN
        case Member(operand, among):
            return f"{inside(operand, _SUM)} in {_listed(among.items, name)}", _IN
        case ListOf(items):
            return _listed(items, name), _ALONE
        case Call(function, arguments):
            return f"{function}({_listed(arguments, name)[1:-1]})", _ALONE


def _unit(symbol: str) -> str:
    """Bare when it is a single word or a quotient of two, as in "mol/dm3"; else in quotes."""
    bare = symbol.replace("/", "", 1).isalnum() and symbol[0] != "1"
    return symbol if bare else f'"{symbol}"'


def _listed(items: tuple[Node, ...], name: Callable[[str], str]) -> str:
    return "[" + ", ".join(text_of(item, name) for item in items) + "]"


def _number(node: NumberNode) -> tuple[str, int]:
    if node.text:
        return node.text, _ALONE
    value: Fraction = node.value
    if value.denominator == 1:
        return str(value), _ALONE if value >= 0 else _SIGN
    return f"{value.numerator} / {value.denominator}", _PRODUCT
