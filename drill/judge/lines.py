"""Reads lines of a worked answer as arithmetic: both sides of each = must be equal.

A line is written for a student: "2.0 g ÷ (18 g/mol) = 0.111111… mol". It is turned back into a
formula and worked out. A truncated number (…) is taken at both ends of the range it can stand for.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise, product

from drill.judge.amounts import Amount
from drill.judge.cannot import Cannot
from drill.judge.rounding import places_of
from drill.judge.units import unit_of
from drill.judge.working import worked

_RAISED = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁻", "0123456789-")
_POWER = re.compile(r"[⁰¹²³⁴⁵⁶⁷⁸⁹⁻]+")
_STANDARD = re.compile(r"(\d+(?:\.\d+)?) × 10\^(-?\d+)")
_PIECE = re.compile(
    r"\s*(?:(?P<number>\d+(?:\.\d+)?(?:e-?\d+)?)(?P<cut>…)?|(?P<sign>[-+*/^(]|√\()|(?P<close>\)))"
)
_UNIT_ENDS = re.compile(r" [-+*/] |\^")
_MOST_CUT = 6
_ONE = re.compile(r"−?\d+(\.\d+)?…?( [^×÷+−]*)?")


def uneven(line: str) -> tuple[str, str] | None:
    """The two sides of an = that are not equal; None when all that can be read are."""
    sides = [side.strip() for side in re.split(r" = |: ", line)]
    for left, right in pairwise(sides):
        if not agree(left, right):
            return left, right
    return None


def agree(left: str, right: str) -> bool:
    """Whether two sides are equal, exactly or to the digits written.

    Sides that are words, or that cannot be read, agree with anything.
    """
    try:
        ends, others = list(_ends(left)), list(_ends(right))
    except (Cannot, ZeroDivisionError):
        return True
    both_written = _ONE.fullmatch(left) and _ONE.fullmatch(right)
    if both_written and ends[0].unit.plain and ends[0].unit.symbol != others[0].unit.symbol:
        return False  # 74.1 and 74.1 % are two numbers
    united = bool(ends[0].unit.base and others[0].unit.base)
    if united and sorted(ends[0].unit.base) != sorted(others[0].unit.base):
        return False
    mine, theirs = ([one.size if united else one.number for one in side] for side in (ends, others))
    return min(mine) <= max(theirs) and min(theirs) <= max(mine)


def _ends(side: str) -> Iterator[Amount]:
    """The values of a side, with each truncated number at both ends of its range."""
    pieces = list(_pieces(side))
    cut = [place for place, piece in enumerate(pieces) if piece.endswith("…")]
    if len(cut) > _MOST_CUT:
        raise Cannot("too much is cut off")
    for ends in product((0, 1), repeat=len(cut)):
        here = list(pieces)
        for place, end in zip(cut, ends, strict=True):
            number = here[place].rstrip("…")
            step = Fraction(1, 10 ** places_of(number))
            here[place] = _decimal(Fraction(number) + end * step, places_of(number))
        yield _value(here)


def _value(pieces: list[str]) -> Amount:
    """Their values; without units where the units do not match."""
    try:
        value = worked(" ".join(pieces), {})
    except Cannot:
        value = worked(" ".join(one for one in pieces if one != "in" and one[0] != '"'), {})
    if not isinstance(value, Amount):
        raise Cannot("no number")
    return value


def _decimal(value: Fraction, places: int) -> str:
    whole = int(value * 10**places)
    return f"{whole}e-{places}"


def _pieces(side: str) -> Iterator[str]:
    """A printed side as pieces of a formula; a unit after a number or a bracket belongs to it."""
    text = _STANDARD.sub(r"\1e\2", side)
    text = text.replace("×", "*").replace("÷", "/").replace("−", "-")
    text = _POWER.sub(lambda found: "^" + found[0].translate(_RAISED), text)
    pieces: list[str] = []
    opened: list[int] = []
    at = 0
    while at < len(text.rstrip()):
        found = _PIECE.match(text, at)
        if found is None:
            raise Cannot(f"{side!r} is no arithmetic")
        at, start = found.end(), len(pieces)
        if found["sign"]:
            if found["sign"].endswith("("):
                opened.append(start)
            pieces.append(found["sign"].replace("√", "sqrt"))
            continue
        if found["close"]:
            start = opened.pop() if opened else 0
            pieces.append(")")
        else:
            pieces.append(found["number"] + (found["cut"] or ""))
        at, unit = _unit(text, at)
        if unit:
            pieces[start:] = ["(", *pieces[start:], "in", f'"{unit}"', ")"]
    yield from pieces


def _unit(text: str, at: int) -> tuple[int, str]:
    """The unit after a number, and where it ends."""
    if text[at : at + 1] != " " or text[at + 1 : at + 2] in (*"+-*/^()", ""):
        return at, ""
    rest = text[at:]
    stop = _UNIT_ENDS.search(rest)
    end = stop.start() if stop else len(rest)
    deep = 0
    for place, sign in enumerate(rest[:end]):
        deep += (sign == "(") - (sign == ")")
        if deep < 0:
            end = place
            break
    unit_of(rest[:end])
    return at + end, rest[:end].strip()
