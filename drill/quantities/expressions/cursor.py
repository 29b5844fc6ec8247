"""A position among the tokens of an expression, with limits on size and depth, and refusals."""

from __future__ import annotations

from drill.quantities.expressions.nodes import DEEPEST
from drill.quantities.expressions.tokens import Token
from drill.quantities.units.unit_reading import unit_of
from drill.quantities.values import Fault

MOST_NODES = 500
WORDS = ("and", "or", "not", "in")

_SMALLER = "Work it out in several steps."
_HINTS = {
    "=": "Write == to compare.",
    "%": "Write a percentage out: 100 * part / whole.",
    "**": "Write ^ for a power.",
    ")": "There is no ( for it.",
    "]": "There is no [ for it.",
    "+": "Leave the sign out.",
}


class ParseRefused(Exception):
    """Carries a Fault from deep inside to `parse`, which returns it as a value."""

    def __init__(self, message: str, column: int, hint: str = "") -> None:
        super().__init__(message)
        self.fault = Fault(message, column, hint)


class Cursor:
    """Walks over tokens; counts nodes and depth and refuses an expression that exceeds a limit."""

    def __init__(self, tokens: list[Token]) -> None:
        self._tokens = tokens
        self._at = 0
        self._deep = 0
        self._nodes = 0

    def peek(self, ahead: int = 0) -> Token:
        """The token this many places ahead; after the last one it is always "end"."""
        return self._tokens[min(self._at + ahead, len(self._tokens) - 1)]

    def before(self) -> Token:
        """The token that was taken last."""
        return self._tokens[self._at - 1]

    def sign(self) -> str:
        """The next token if it is an operator or a joining word; else nothing."""
        token = self.peek()
        return token.text if token.kind == "sign" or token.text in WORDS else ""

    def take(self) -> Token:
        """The next token, which is then behind us."""
        token = self.peek()
        self._at += 1
        return token

    def take_part(self) -> Token:
        """The same, for a token that creates a node in the tree."""
        token = self.take()
        self._nodes += 1
        if self._nodes > MOST_NODES:
            message = f"an expression has at most {MOST_NODES} parts"
            raise ParseRefused(message, token.column, _SMALLER)
        return token

    def close(self, closing: str, opening: Token) -> None:
        """Take the bracket that closes what `opening` opened."""
        if self.sign() == closing:
            self.take()
            return
        if self.peek().kind == "end":
            raise ParseRefused(f"{opening.text!r} is not closed", opening.column, f"Add {closing}.")
        raise self.left_over()

    def deeper(self) -> None:
        """Go one level down."""
        self._deep += 1
        if self._deep > DEEPEST:
            message = f"brackets and signs go at most {DEEPEST} deep"
            raise ParseRefused(message, self.peek().column, _SMALLER)

    def higher(self) -> None:
        """Come back from one level down."""
        self._deep -= 1

    def no_operand(self, token: Token) -> ParseRefused:
        """The refusal of a token found where a value was expected."""
        if token.kind == "end":
            return ParseRefused(
                "the expression ends too soon", token.column, "A value is missing here."
            )
        message = f"a value is missing before {token.text!r}"
        return ParseRefused(message, token.column, _HINTS.get(token.text, ""))

    def left_over(self) -> ParseRefused:
        """The refusal of the next token, which cannot follow what was read."""
        token = self.peek()
        hint = _HINTS.get(token.text, "")
        before = self._tokens[self._at - 1] if self._at else token
        if before.kind == "number" and token.kind == "name" and unit_of(token.text) is not None:
            hint = f"Write ({before.text} in {token.text}) for a number with a unit."
        elif before.kind == "number" and token.text == "," and self.peek(1).kind == "number":
            hint = f"Write {before.text}.{self.peek(1).text}, with a point."
        elif token.kind in ("number", "name", "text") or token.text in ("(", "["):
            hint = "Between two values stands a sign: * for times."
        return ParseRefused(f"{token.text!r} does not belong here", token.column, hint)
