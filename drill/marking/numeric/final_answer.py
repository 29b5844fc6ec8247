"""Which of the numbers typed is the answer, and which are working."""

from __future__ import annotations

import re
from dataclasses import dataclass
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


def read_answer(typed: str) -> Answer:
    """The answer among everything typed; never an error."""
    text = _ASIDE.sub(" ", plain(typed[:LONGEST]))
    comma = comma_decimal(text)
    if comma is not None:
        return Answer(None, (), text, f"Did you mean {comma}? Use a point.")
    pieces = [piece for piece in _EQUALS.split(text) if piece.strip()]
    holding = [piece for piece in pieces if numbers_in(piece) or letter_o(piece)]
    if not holding:
        return Answer(worded(text), (), text)
    last = _narrowed(holding[-1])
    nought = letter_o(last)
    if nought is not None:
        asks = f"Did you mean {nought}? There is a letter O where a nought would be."
        return Answer(None, (), text, asks)
    return _chosen(last, holding, text)


def _chosen(last: str, holding: list[str], text: str) -> Answer:
    """The value of the last piece, or of the first one when the rest is how it was reached."""
    found = numbers_in(last)
    if _is_sum(last, found):
        first = numbers_in(holding[0])
        if len(holding) > 1 and len(first) == 1:
            return Answer(first[0], (), text, several=True)
        return Answer(None, found, text, sum_only=True)
    several = len(numbers_in(text)) > 1
    if len(found) == 1:
        return Answer(found[0], (), text, several=several)
    return Answer(_told_by_unit(last, found), found, text, several=several)


def _narrowed(piece: str) -> str:
    """The part of a piece that says the answer: after "so", before "because"."""
    after = _AFTER.search(piece)
    if after and numbers_in(piece[: after.start()]):
        piece = piece[: after.start()]
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
