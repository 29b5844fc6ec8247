"""An expression's text cut into words, numbers, signs and quoted text, each with its column."""

from __future__ import annotations

from typing import NamedTuple

from drill.quantities.values import Fault

LONGEST_TEXT = 2000
MOST_DIGITS = 60
LARGEST_EXPONENT = 64
_SIGNS = ("<=", ">=", "==", "!=", "**", *"+-*/^(),[]<>=%")
_UNIT_SIGNS = "°µμΩ"
_MISTAKES = {
    "×": "Write * for times.",
    "÷": "Write / for divided by.",
    "−": "Write - for minus.",
    "–": "Write - for minus.",
    "&": "Write and.",
    "|": "Write or.",
    "'": 'Text stands in "double quotes".',
    "“": 'Text stands in "straight quotes".',
    "”": 'Text stands in "straight quotes".',
    "{": "Names stand bare here, without braces.",
    "}": "Names stand bare here, without braces.",
    "·": "Write * for times.",
    "²": "Write ^2.",
    "³": "Write ^3.",
}


class Token(NamedTuple):
    """kind is "number", "name", "text", "sign" or "end"; column counts from 1."""

    kind: str
    text: str
    column: int


def tokens_of(text: str) -> list[Token] | Fault:
    """Every token of `text` and an "end"; a Fault names the first unknown character."""
    if len(text) > LONGEST_TEXT:
        return Fault(
            f"an expression has at most {LONGEST_TEXT} characters; this has {len(text)}",
            hint="Work it out in several steps.",
        )
    out: list[Token] = []
    at = 0
    while at < len(text):
        if text[at].isspace():
            at += 1
            continue
        token = _token(text, at)
        if isinstance(token, Fault):
            return token
        out.append(token)
        at += len(token.text) + (2 if token.kind == "text" else 0)
    out.append(Token("end", "", len(text) + 1))
    return out


def _token(text: str, at: int) -> Token | Fault:
    sign = text[at]
    if _is_digit(sign) or (sign == "." and _is_digit(text[at + 1 : at + 2])):
        return _number(text, at)
    if _starts_name(sign):
        return Token("name", text[at : _name_end(text, at)], at + 1)
    if sign == '"':
        return _quoted(text, at)
    for known in _SIGNS:
        if text.startswith(known, at):
            return Token("sign", known, at + 1)
    return Fault(f"{sign!r} has no meaning here", at + 1, _MISTAKES.get(sign, ""))


def _number(text: str, at: int) -> Token | Fault:
    end = _digits_end(text, at)
    if text[end : end + 1] == ".":
        end = _digits_end(text, end + 1)
    power = _power_end(text, end)
    digits, exponent = text[at:end], text[end + 1 : power]
    if len(digits) > MOST_DIGITS:
        return Fault(f"a number has at most {MOST_DIGITS} digits; this has {len(digits)}", at + 1)
    if exponent and (len(exponent) > 4 or abs(int(exponent)) > LARGEST_EXPONENT):
        return Fault(
            f"the power of ten in {text[at : at + 12]!r} is beyond {LARGEST_EXPONENT}", at + 1
        )
    if text[power : power + 1] == ".":
        return Fault(f"{text[at : power + 1]!r} has too many points", at + 1)
    return Token("number", text[at:power], at + 1)


def _power_end(text: str, at: int) -> int:
    """Where "e-3" ends, if it stands at `at`; else `at`."""
    if text[at : at + 1] not in ("e", "E"):
        return at
    start = at + 2 if text[at + 1 : at + 2] in ("+", "-") else at + 1
    end = _digits_end(text, start)
    return end if end > start else at


def _digits_end(text: str, at: int) -> int:
    while _is_digit(text[at : at + 1]):
        at += 1
    return at


def _name_end(text: str, at: int) -> int:
    """Where a name ends; a point belongs to it only when a word or number follows at once."""
    while at < len(text):
        if text[at] == ".":
            following = text[at + 1 : at + 2]
            if not (_starts_name(following) or _is_digit(following)):
                return at
        elif not (text[at].isalnum() or text[at] == "_" or text[at] in _UNIT_SIGNS):
            return at
        at += 1
    return at


def _quoted(text: str, at: int) -> Token | Fault:
    end = text.find('"', at + 1)
    if end < 0:
        return Fault("the quotation mark is not closed", at + 1, 'Put a second " behind the text.')
    return Token("text", text[at + 1 : end], at + 1)


def _starts_name(sign: str) -> bool:
    return bool(sign) and (sign.isalpha() or sign == "_" or sign in _UNIT_SIGNS)


def _is_digit(sign: str) -> bool:
    return bool(sign) and sign in "0123456789"
