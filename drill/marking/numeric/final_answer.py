"""Which of the numbers typed is the answer, and which are working."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from drill.marking.numeric.number_reading import (
    TypedNumber,
    comma_decimal,
    numbers_in,
    plain,
    worded,
)
from drill.marking.numeric.sum_text import letter_o

LONGEST = 1500  # characters of a number's answer that are read, working included
_ASIDE = re.compile(
    r"[(\[]?\s*(?:to|in|correct to|at)?\s*\b\d{1,2}\s*"
    r"(?:s\.?\s?f\.?|d\.?\s?p\.?|sig(?:nificant)?\.?\s*fig(?:ure)?s?\.?|significant figures?"
    r"|decimal places?|figures?)(?![a-z])\s*[)\]]?",
    re.IGNORECASE,
)
# a comma with the name of another value behind it ends a step: "moles 0.015, mass of salt 3.69 g"
_STEP = (
    r",\s+(?=(?!(?:and|or|to|not|because|since|working|from|using|as|which|rounded|correct|about"
    r"|approx|ignor|without|leav|leaving|exclud|reject|rough|anomal)[a-z]*\b)[A-Za-z][^,;=\d]*\d)"
)
_EQUALS = re.compile(rf"=+|≈|≃|~=|\n|;|→|=>|⇒|->|{_STEP}", re.IGNORECASE)
_CHOSEN = re.compile(
    r"\b(?:so|then|therefore|thus|hence|answer|ans|final(?:ly)?|gives?|giving|is|but|instead|makes)\b|∴",
    re.IGNORECASE,
)
_AFTER = re.compile(r"\b(?:because|since|working|from|using|as)\b", re.IGNORECASE)
# the value, and how it was reached: "3.58 coz you do 4.94-1.36", "3.58: 4.94-1.36"
_REACHED = re.compile(
    r"\b(?:cause|cos|coz|cuz|bcos|bc|when (?:you|i|we)|if (?:you|i|we)|by|through|via"
    r"|which (?:is|was)"
    r"|(?:you|i|we) (?:do|did|just|take|took|get|got)"
    r"|is the (?:difference|sum|product|quotient))\b",
    re.IGNORECASE,
)
_COLON = re.compile(r"(?<=[\w%)])\s*:\s+(?=[^:=]*[\d)]\s*[-+*/x]\s*[(\d])")
# what stands before a number that is given by the question and only says of what, or in how much
_BASIS = re.compile(
    r"(?:\b(?:in|per|of|from|between|for|on|to|with)(?:\s+(?:every|each|the|a|an|all|about))*|/)\s*$",
    re.IGNORECASE,
)
_LINK = re.compile(r"\bor\b|\band\b|\bto\b|,|/|-|&", re.IGNORECASE)


@dataclass(frozen=True)
class Answer:
    """What was read.

    `chosen` is the value that counts; `rivals` several that were not chosen between; `text` all
    that was typed, in one writing of sums; `meant` asks about a number that cannot be read.
    """

    chosen: TypedNumber | None
    rivals: tuple[TypedNumber, ...]
    text: str
    meant: str | None = None
    sum_only: bool = False
    several: bool = False


def read_answer(typed: str, ask: str = "") -> Answer:
    """The answer among everything typed; never an error.

    Args:
        typed: what was typed, working and all.
        ask: the question's words: a number of it behind "in", "per" or "of" is no answer.
    """
    text = _COLON.sub(" because ", _ASIDE.sub(" ", plain(typed[:LONGEST])))
    comma = comma_decimal(text)
    if comma is not None:
        return Answer(None, (), text, f"Did you mean {comma}? Use a point.")
    pieces = [piece for piece in _EQUALS.split(text) if piece.strip()]
    holding = [piece for piece in pieces if numbers_in(piece) or letter_o(piece)]
    if not holding:
        return Answer(worded(text), (), text)
    last = _narrowed(holding[-1])
    zero = letter_o(last)
    if zero is not None:
        asks = f"Did you mean {zero}? There is a letter O where a zero would be."
        return Answer(None, (), text, asks)
    return _chosen(last, holding, text, ask)


def _chosen(last: str, holding: list[str], text: str, ask: str) -> Answer:
    """The value of the last piece, or of the first one when the rest is how it was reached."""
    found = _without_basis(last, numbers_in(last), ask)
    if _is_sum(last, found):
        if _is_result(last, found):
            return Answer(found[0], (), text, several=True)
        first = numbers_in(holding[0])
        if len(holding) > 1 and len(first) == 1:
            return Answer(first[0], (), text, several=True)
        return Answer(None, found, text, sum_only=True)
    several = len(numbers_in(text)) > 1
    if len(found) == 1:
        return Answer(found[0], (), text, several=several)
    return Answer(_told_by_unit(last, found), found, text, several=several)


def _without_basis(text: str, found: tuple[TypedNumber, ...], ask: str) -> tuple[TypedNumber, ...]:
    """Without numbers of the question that only say of what: the 100 of "37 g in 100 g"."""
    if len(found) < 2 or not ask:
        return found
    given = numbers_in(plain(ask))
    wanted = numbers_in(plain(re.split(r"(?<=[.?!])\s+|\n", ask.strip())[-1]))
    ends = (0, *(number.end for number in found))
    kept = tuple(
        number
        for end, number in zip(ends, found, strict=False)
        if not _is_given(number, given, wanted)
        or not _is_basis(text[end : number.start], number, ask, text)
    )
    return kept or found


def _is_given(
    number: TypedNumber, given: tuple[TypedNumber, ...], wanted: tuple[TypedNumber, ...]
) -> bool:
    """Whether the question has it; where its last sentence has one in this unit, that one alone."""
    own = [one for one in wanted if one.unit == number.unit] or given
    return any(one.value == number.value for one in own)


def _is_basis(before: str, number: TypedNumber, ask: str, text: str) -> bool:
    """Whether a given number stands behind "in" or "per"; behind / where the question has it."""
    slash = text[: number.start].rstrip().endswith("/")
    if not slash:
        return _BASIS.search(before) is not None
    raw = re.escape(number.raw.lstrip("/ "))
    return bool(re.search(rf"\b(?:in|per|every|each|of)\s+{raw}(?![\d.])", ask, re.IGNORECASE))


def _is_result(text: str, found: tuple[TypedNumber, ...]) -> bool:
    """Whether the first of three numbers is what the sum of the other two gives: "6 (4 + 2)"."""
    if len(found) != 3 or not found[0].places:
        return False
    first, one, other = found
    sign = text[one.end : other.start].strip(" ()")
    made = _sum_of(one.value, sign, other.value)
    if made is None or re.search(r"[-+*/x]", text[first.end : one.start]):
        return False
    off = abs(first.value - made) * 2 * Fraction(10) ** first.places[0]
    return bool(off <= 1)


def _sum_of(one: Fraction, sign: str, other: Fraction) -> Fraction | None:
    if sign == "/":
        return one / other if other else None
    sums = {"+": one + other, "-": one - other, "x": one * other, "*": one * other}
    return sums.get(sign)


def _narrowed(piece: str) -> str:
    """The part of a piece that says the answer: after "so", before "because"."""
    after = _AFTER.search(piece)
    if after and numbers_in(piece[: after.start()]):
        piece = piece[: after.start()]
    reached = _REACHED.search(piece)
    if reached and len(numbers_in(piece[: reached.start()])) == 1:
        return piece[: reached.start()]
    for match in reversed(list(_CHOSEN.finditer(piece))):
        if numbers_in(piece[match.end() :]):
            return piece[match.end() :]
    return piece


def _is_sum(text: str, found: tuple[TypedNumber, ...]) -> bool:
    """Whether operators join the numbers: a calculation that was not carried out."""
    for left, right in pairwise(found):
        between = text[left.end : right.start].strip().strip("()").strip()
        if between in {"+", "-", "x", "*", "/", "X", "×"} or (
            not between and right.raw[:1] in "+-"
        ):
            return True
    return False


def _told_by_unit(text: str, found: tuple[TypedNumber, ...]) -> TypedNumber | None:
    """The only number with a unit, when the others are plainly not answers of their own."""
    with_unit = [number for number in found if number.unit]
    if len(with_unit) != 1:
        return None
    for left, right in pairwise(found):
        if _LINK.search(text[left.end : right.start]):
            return None
    return with_unit[0]
