"""Reading an expression: a closed grammar of our own, read by binding power, never evaluated.

    or < and < not < comparisons < in UNIT < + - < * / < - (sign) < ^

`^` groups to the right and binds more tightly than a sign before it, so -2^2 is -4. Nothing is
multiplied that is only written side by side.
"""

from __future__ import annotations

from fractions import Fraction

from drill.quantities.functions import FUNCTIONS
from drill.quantities.nodes import (
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
    Number,
    Text,
    children,
    names_in,
)
from drill.quantities.suggest import nearest
from drill.quantities.tokens import Token, tokens_of
from drill.quantities.unit_reading import spellings, unit_of
from drill.quantities.values import Fault, Unit

MOST_NODES = 500
MOST_ITEMS = 200
COMPARISONS = ("<", "<=", ">", ">=", "==", "!=")
WORDS = ("and", "or", "not", "in")

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


class Refused(Exception):
    """Carries a Fault from deep inside to `parse`; it never leaves this module."""

    def __init__(self, message: str, column: int, hint: str = "") -> None:
        super().__init__(message)
        self.fault = Fault(message, column, hint)


def parse(text: str) -> Expression | Fault:
    """The expression written in `text`, or why it cannot be read, with its column and a hint."""
    tokens = tokens_of(text)
    if isinstance(tokens, Fault):
        return tokens
    try:
        node = _Parser(tokens).whole()
    except Refused as refused:
        return refused.fault
    if _depth(node) > DEEPEST:
        return Fault(
            f"an expression is at most {DEEPEST} steps deep", hint="Work it out in several steps."
        )
    return Expression(text, node, names_in(node))


def _depth(node: Node) -> int:
    """How deep the tree is; sums of many terms are deep without any bracket."""
    deep = 0
    layer: tuple[Node, ...] = (node,)
    while layer:
        deep += 1
        layer = tuple(child for parent in layer for child in children(parent))
    return deep


class _Parser:
    def __init__(self, tokens: list[Token]) -> None:
        self._tokens = tokens
        self._at = 0
        self._deep = 0
        self._nodes = 0

    def whole(self) -> Node:
        node = self._expression(0)
        token = self._peek()
        if token.kind != "end":
            raise self._left_over(token)
        return node

    # -------------------------------------------------------------- by binding power

    def _expression(self, binding: int) -> Node:
        self._deeper()
        node = self._prefix()
        while (power := _BINDING.get(self._sign(), 0)) > binding:
            node = self._infix(node, power)
        self._deep -= 1
        return node

    def _infix(self, left: Node, power: int) -> Node:
        token = self._take()
        self._count(token)
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
        while self._sign() in COMPARISONS:
            following = self._take()
            self._count(following)
            ops.append(following.text)
            operands.append(self._expression(_COMPARE))
        return Compare(tuple(operands), tuple(ops), token.column)

    # -------------------------------------------------------------- what an operand begins with

    def _prefix(self) -> Node:
        token = self._take()
        self._count(token)
        match token.kind, token.text:
            case "number", _:
                return self._number(token)
            case "text", _:
                return Text(token.text, token.column)
            case "sign", "(":
                inside = self._expression(0)
                self._close(")", token)
                return inside
            case "sign", "[":
                return ListOf(self._items("]", token), token.column)
            case "sign", "-":
                return Negate(self._expression(_SIGN), token.column)
            case "name", "not":
                return Not(self._expression(_NOT), token.column)
            case "name", _ if token.text not in WORDS:
                return self._named(token)
        raise self._no_operand(token)

    def _number(self, token: Token) -> Node:
        following = self._peek()
        if following.kind == "name" and following.column == token.column + len(token.text):
            raise Refused(
                f"{token.text + following.text!r} is neither a number nor a name",
                token.column,
                f"Write {token.text} * {following.text}.",
            )
        return Number(Fraction(token.text), token.text, token.column)

    def _named(self, token: Token) -> Node:
        if self._sign() != "(":
            if not token.text.isascii():
                hint = "Names are of plain letters, digits and _; a square is written x^2."
                raise Refused(f"{token.text!r} is no name of a value", token.column, hint)
            return Name(token.text, token.column)
        opening = self._take()
        function = FUNCTIONS.get(token.text)
        if function is None:
            hint = nearest(token.text, FUNCTIONS)
            raise Refused(f"there is no function {token.text!r}", token.column, hint)
        arguments = self._items(")", opening)
        if not function.fewest <= len(arguments) <= function.most:
            raise Refused(
                f"{token.text} takes {function.counts()}, not {len(arguments)}",
                token.column,
                f"Write {function.form}.",
            )
        return Call(token.text, arguments, token.column)

    def _items(self, closing: str, opening: Token) -> tuple[Node, ...]:
        if self._sign() == closing == "]":
            raise Refused("a list holds at least one value", opening.column)
        items = [self._expression(0)]
        while self._sign() == ",":
            self._take()
            if len(items) == MOST_ITEMS:
                raise Refused(f"a list holds at most {MOST_ITEMS} values", opening.column)
            items.append(self._expression(0))
        self._close(closing, opening)
        return tuple(items)

    # -------------------------------------------------------------- x in UNIT, x in [a, b]

    def _in(self, left: Node, column: int) -> Node:
        if self._sign() == "[":
            opening = self._take()
            self._count(opening)
            return Member(left, ListOf(self._items("]", opening), opening.column), column)
        node = Convert(left, self._unit(), column)
        following = self._sign()
        if following in ("*", "/", "+", "-", "^"):
            raise Refused(
                f"it is not clear what {following!r} after a unit belongs to",
                self._peek().column,
                f"Put brackets round the conversion: (… in {node.unit.symbol}) {following} …",
            )
        return node

    def _unit(self) -> Unit:
        token = self._peek()
        if token.kind == "text":
            self._take()
            written = token.text
        else:
            written = self._unit_words()
        unit = unit_of(written) if written else None
        if unit is None or not written.strip():
            seen = written or token.text
            hint = nearest(seen, spellings())
            raise Refused(f"{seen!r} is not a unit we know", token.column, hint)
        return unit

    def _unit_words(self) -> str:
        """The text of the tokens that make up a unit; "/" and "*" only when a unit follows."""
        words: list[str] = []
        open_brackets = 0
        while True:
            token, following = self._peek(), self._peek(1)
            if token.text == "(":
                open_brackets += 1
            elif token.text == ")" and open_brackets:
                open_brackets -= 1
            elif not self._goes_on(token, following, bool(words)):
                return " ".join(words).replace(" ^ ", "^").replace("^- ", "^-")
            words.append(self._take().text)

    def _goes_on(self, token: Token, following: Token, begun: bool) -> bool:
        if token.kind == "name":
            more = token.text == "per" or unit_of(token.text) is not None
            return not begun or (token.text not in WORDS and more)
        if token.text == "%":
            return not begun
        if token.text in ("/", "*") and begun:
            return following.text == "(" or (
                following.kind == "name" and unit_of(following.text) is not None
            )
        if token.text == "1":
            return not begun and following.text == "/"
        if token.text == "^" and begun:
            return following.kind == "number" or following.text == "-"
        before = self._tokens[self._at - 1].text
        return (token.text == "-" and before == "^") or (
            token.kind == "number" and begun and before in ("^", "-")
        )

    # -------------------------------------------------------------- tokens, bounds, refusals

    def _peek(self, ahead: int = 0) -> Token:
        return self._tokens[min(self._at + ahead, len(self._tokens) - 1)]

    def _sign(self) -> str:
        """The next token when it is a sign or a joining word; else nothing."""
        token = self._peek()
        return token.text if token.kind == "sign" or token.text in WORDS else ""

    def _take(self) -> Token:
        token = self._peek()
        self._at += 1
        return token

    def _close(self, closing: str, opening: Token) -> None:
        if self._sign() == closing:
            self._take()
            return
        token = self._peek()
        if token.kind == "end":
            raise Refused(f"{opening.text!r} is not closed", opening.column, f"Add {closing}.")
        raise self._left_over(token)

    def _deeper(self) -> None:
        self._deep += 1
        if self._deep > DEEPEST:
            raise Refused(
                f"brackets and signs go at most {DEEPEST} deep",
                self._peek().column,
                "Work it out in several steps.",
            )

    def _count(self, token: Token) -> None:
        self._nodes += 1
        if self._nodes > MOST_NODES:
            raise Refused(
                f"an expression has at most {MOST_NODES} parts",
                token.column,
                "Work it out in several steps.",
            )

    def _no_operand(self, token: Token) -> Refused:
        if token.kind == "end":
            return Refused("the expression ends too soon", token.column, "A value is missing here.")
        if token.text in ("**",):
            return Refused("'**' has no meaning here", token.column, "Write ^ for a power.")
        return Refused(
            f"a value is missing before {token.text!r}", token.column, _HINTS.get(token.text, "")
        )

    def _left_over(self, token: Token) -> Refused:
        hint = _HINTS.get(token.text, "")
        if token.kind in ("number", "name", "text") or token.text in ("(", "["):
            hint = "Between two values stands a sign: * for times."
        return Refused(f"{token.text!r} does not belong here", token.column, hint)


_HINTS = {
    "=": "Write == to compare.",
    "%": "Write a percentage out: 100 * part / whole.",
    "**": "Write ^ for a power.",
    ")": "There is no ( for it.",
    "]": "There is no [ for it.",
    "+": "Leave the sign out.",
}
