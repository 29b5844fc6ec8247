"""The unit after `in`: the tokens that make it up, or a text in quotes."""

from __future__ import annotations

from drill.quantities.expressions.cursor import WORDS, Cursor, ParseRefused
from drill.quantities.expressions.tokens import Token
from drill.quantities.suggest import nearest
from drill.quantities.units.unit_reading import spellings, unit_of
from drill.quantities.values import Unit


def read_unit(cursor: Cursor) -> Unit:
    """The unit at this position; raises Refused when it is not a known unit."""
    token = cursor.peek()
    written = cursor.take().text if token.kind == "text" else _words(cursor)
    unit = unit_of(written)
    if unit is None or not written.strip():
        seen = written or token.text
        raise ParseRefused(
            f"{seen!r} is not a unit we know", token.column, nearest(seen, spellings())
        )
    return unit


def _words(cursor: Cursor) -> str:
    """The text of the tokens that make up a unit."""
    words: list[str] = []
    open_brackets = 0
    while True:
        token = cursor.peek()
        if token.text == "(":
            open_brackets += 1
        elif token.text == ")" and open_brackets:
            open_brackets -= 1
        elif not _belongs(cursor, token, bool(words)):
            return " ".join(words).replace(" ^ ", "^").replace("^- ", "^-")
        words.append(cursor.take().text)


def _belongs(cursor: Cursor, token: Token, begun: bool) -> bool:
    """Whether a token is part of the unit; "/" and "*" only when a unit follows."""
    following = cursor.peek(1)
    if not begun:
        return token.kind == "name" or token.text == "%" or token.text + following.text == "1/"
    if token.kind == "name":
        return token.text not in WORDS and (token.text == "per" or _is_unit(token))
    if token.text in ("/", "*"):
        return following.text == "(" or _is_unit(following)
    if token.text == "^":
        return following.kind == "number" or following.text == "-"
    before = cursor.before().text
    if token.text == "-":
        return before == "^"
    return token.kind == "number" and before in ("^", "-")


def _is_unit(token: Token) -> bool:
    return token.kind == "name" and unit_of(token.text) is not None
