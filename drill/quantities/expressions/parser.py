"""Parses an expression: drill's own grammar, a precedence-climbing parser, no `eval`.

    or < and < not < comparisons < in UNIT < + - < * / < - (sign) < ^

`^` is right-associative and binds more tightly than a sign before it, so -2^2 is -4. There is no
implied multiplication: `2 x` is refused.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from types import MappingProxyType

from drill.quantities.evaluation.functions import FUNCTIONS, Function
from drill.quantities.expressions.cursor import WORDS, Cursor, ParseRefused
from drill.quantities.expressions.nodes import (
    DEEPEST,
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
    children,
    names_in,
)
from drill.quantities.expressions.tokens import Token, tokens_of
from drill.quantities.expressions.unit_phrase import read_unit
from drill.quantities.suggest import nearest
from drill.quantities.values import Fault

MOST_ITEMS = 200
NONE_OWN: Mapping[str, Function] = MappingProxyType({})
COMPARISONS = ("<", "<=", ">", ">=", "==", "!=")

_OR, _AND, _NOT, _COMPARE, _IN, _SUM, _PRODUCT, _SIGN, _POWER = range(1, 10)
_BINDING = {
    "or": _OR,
    "and": _AND,
    **dict.fromkeys(COMPARISONS, _COMPARE),
    "in": _IN,
    "+": _SUM,
    "-": _SUM,
    "*": _PRODUCT,
    "/": _PRODUCT,
    "^": _POWER,
}


def parse(text: str, own: Mapping[str, Function] = NONE_OWN) -> Expression | Fault:
    """The expression written in `text`, or why it cannot be read, with its column and a hint.

    Args:
        own: functions of a subject, which may be called besides the general ones.
    """
    tokens = tokens_of(text)
    if isinstance(tokens, Fault):
        return tokens
    try:
        node = _Parser(Cursor(tokens), own).whole()
    except ParseRefused as refused:
        return refused.fault
    if _depth(node) > DEEPEST:
        return Fault(
            f"an expression is at most {DEEPEST} steps deep", hint="Work it out in several steps."
        )
    return Expression(text, node, names_in(node))


def _depth(node: Node) -> int:
    """The depth of the tree; a sum of many terms is deep even without brackets."""
    deep = 0
    layer: tuple[Node, ...] = (node,)
    while layer:
        deep += 1
        layer = tuple(child for parent in layer for child in children(parent))
    return deep


class _Parser:
    def __init__(self, cursor: Cursor, own: Mapping[str, Function]) -> None:
        self._cursor = cursor
        self._own = own

    def whole(self) -> Node:
        node = self._expression(0)
        if self._cursor.peek().kind != "end":
            raise self._cursor.left_over()
        return node

    # -------------------------------------------------------------- by binding power

    def _expression(self, binding: int) -> Node:
        self._cursor.deeper()
        node = self._prefix()
        while (power := _BINDING.get(self._cursor.sign(), 0)) > binding:
            node = self._infix(node, power)
        self._cursor.higher()
        return node

    def _infix(self, left: Node, power: int) -> Node:
        token = self._cursor.take_part()
        column = token.column
        if token.text == "in":
            return self._in(left, column)
        if token.text in COMPARISONS:
            return self._comparison(left, token)
        if token.text in ("and", "or"):
            return Logic(token.text, left, self._expression(power), column)
        # what stands right of ^ may have a sign and a power of its own
        right = self._expression(_SIGN - 1 if token.text == "^" else power)
        return Binary(token.text, left, right, column)

    def _comparison(self, left: Node, token: Token) -> Node:
        operands, ops = [left, self._expression(_COMPARE)], [token.text]
        while self._cursor.sign() in COMPARISONS:
            following = self._cursor.take_part()
            ops.append(following.text)
            operands.append(self._expression(_COMPARE))
        return Compare(tuple(operands), tuple(ops), token.column)

    # -------------------------------------------------------------- what an operand begins with

    def _prefix(self) -> Node:
        token = self._cursor.take_part()
        match token.kind, token.text:
            case "number", _:
                return self._number(token)
            case "text", _:
                return TextNode(token.text, token.column)
            case "sign", "(":
                inside = self._expression(0)
                self._cursor.close(")", token)
                return inside
            case "sign", "[":
                return ListOf(self._items("]", token), token.column)
            case "sign", "-":
                return Negate(self._expression(_SIGN), token.column)
            case "name", "not":
                return Not(self._expression(_NOT), token.column)
            case "name", _ if token.text not in WORDS:
                return self._named(token)
        raise self._cursor.no_operand(token)

    def _number(self, token: Token) -> Node:
        following = self._cursor.peek()
        if following.kind == "name" and following.column == token.column + len(token.text):
            raise ParseRefused(
                f"{token.text + following.text!r} is neither a number nor a name",
                token.column,
                f"Write {token.text} * {following.text}.",
            )
        return NumberNode(Fraction(token.text), token.text, token.column)

    def _named(self, token: Token) -> Node:
        if self._cursor.sign() != "(":
            if not token.text.isascii():
                hint = "Names are of plain letters, digits and _; a square is written x^2."
                raise ParseRefused(f"{token.text!r} is no name of a value", token.column, hint)
            return Name(token.text, token.column)
        opening = self._cursor.take()
        function = FUNCTIONS.get(token.text) or self._own.get(token.text)
        if function is None:
            apart = opening.column > token.column + len(token.text)
            hint = (
                "Write * for times."
                if apart
                else nearest(token.text.lower(), (*FUNCTIONS, *self._own))
            )
            raise ParseRefused(f"there is no function {token.text!r}", token.column, hint)
        arguments = self._items(")", opening)
        if not function.fewest <= len(arguments) <= function.most:
            raise ParseRefused(
                f"{token.text} takes {function.counts()}, not {len(arguments)}",
                token.column,
                f"Write {function.form}.",
            )
        return Call(token.text, arguments, token.column, self._own.get(token.text))

    def _items(self, closing: str, opening: Token) -> tuple[Node, ...]:
        if self._cursor.sign() == closing == "]":
            raise ParseRefused("a list holds at least one value", opening.column)
        items = [self._expression(0)]
        while self._cursor.sign() == ",":
            self._cursor.take()
            if len(items) == MOST_ITEMS:
                raise ParseRefused(f"a list holds at most {MOST_ITEMS} values", opening.column)
            items.append(self._expression(0))
        self._cursor.close(closing, opening)
        return tuple(items)

    # -------------------------------------------------------------- x in UNIT, x in [a, b]

    def _in(self, left: Node, column: int) -> Node:
        if self._cursor.sign() == "[":
            opening = self._cursor.take_part()
            return Member(left, ListOf(self._items("]", opening), opening.column), column)
        node = Convert(left, read_unit(self._cursor), column)
        following = self._cursor.sign()
        if following in ("*", "/", "+", "-", "^"):
            raise ParseRefused(
                f"it is not clear what {following!r} after a unit belongs to",
                self._cursor.peek().column,
                f"Put brackets round the conversion: (… in {node.unit.symbol}) {following} …",
            )
        return node
