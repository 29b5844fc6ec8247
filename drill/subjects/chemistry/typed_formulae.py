"""Reads what pupils type for a formula, with charge and state, in every possible reading.

`Cu2+` typed without a raised sign is Cu²⁺ or Cu₂⁺, `SO42-` is SO₄²⁻ or SO₄₂⁻: all readings are
kept, and the marking rule looks for the correct answer among them. Digits that were typed
raised or lowered leave only one reading. Case is chemistry: CO is not Co, `nacl` is no formula.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from drill.quantities import Fault
from drill.subjects.chemistry.formulae import LONGEST, parse_formula

STATES = ("s", "l", "g", "aq")
_RAISED = dict(zip("⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻", "0123456789+-", strict=True))
_LOWERED = dict(zip("₀₁₂₃₄₅₆₇₈₉₍₎ₐ₊₋", "0123456789()a+-", strict=True))
_DASHES = str.maketrans("−–‐‑﹣－＋", "-----" + "-+")
_DOTS = str.maketrans("·•⋅∙*", ".....")
_FIXED = "_"  # stands after a digit that was typed lowered, so that it is no charge
_MOST_TIMES = 1000
_ROUND = str.maketrans("[]" + "·•⋅∙*", "()" + ".....")
_ANGLED = str.maketrans("<>", "()")
_NOTHING_MULTIPLIED = re.compile(r"\(([^()]*)\)1?(?!\d)")
_INNERMOST = re.compile(r"\(([^()]*)\)")
_ONE = re.compile(r"(?<!\d)1(?!\d)")


@dataclass(frozen=True)
class Species:
    """One reading of one formula.

    `count` is the number written before it, `written` the formula without charge and state (it
    tells CH3COOH from C2H4O2), `state` one of s, l, g, aq or "". An electron has no atoms.
    """

    atoms: Mapping[str, int]
    charge: int = 0
    state: str = ""
    count: Fraction = Fraction(1)
    written: str = ""

    @property
    def key(self) -> tuple[tuple[tuple[str, int], ...], int]:
        """What makes two species the same: their atoms and charge, whatever the order."""
        return tuple(sorted(self.atoms.items())), self.charge

    @property
    def shape(self) -> str:
        """The formula in one spelling: round brackets, none that multiply nothing, no ones."""
        return _shape(self.written)

    @property
    def same(self) -> tuple[str, int]:
        """What makes two the same where groups are to be kept together: CH3COOH is not C2H4O2."""
        return self.shape, self.charge


@lru_cache(maxsize=4096)
def _shape(written: str) -> str:
    text = written.translate(_ROUND)
    while (bare := _NOTHING_MULTIPLIED.sub(r"\1", text)) != text:
        text = bare
    text = _ONE.sub("", text)
    kept = _INNERMOST.sub(r"<\1>", text)
    return (_shape(kept) if kept != text else text).translate(_ANGLED)


@lru_cache(maxsize=4096)
def readings(text: str) -> tuple[Species, ...]:
    """Every species `text` can stand for, the larger charge first; () when it is no formula."""
    line = _flat(text)
    if not line or len(line) > LONGEST:
        return ()
    count, rest = _count(line)
    found: list[Species] = []
    for body, state in _states(rest) if count else ():
        for formula, charge in _charges(body):
            species = _species(formula, charge, state, count)
            if species is not None and species not in found:
                found.append(species)
    return tuple(found)


def _flat(text: str) -> str:
    """One line of plain signs: raised runs after "^", lowered digits marked as such."""
    out: list[str] = []
    for sign in text.strip()[: LONGEST + 1]:
        if sign in _RAISED:
            out += ("" if out and out[-1] in _RAISED_MARKS else "^", "r" + _RAISED[sign])
        elif sign in _LOWERED:
            low = _LOWERED[sign]
            if low in "+-" and out:  # a charge set low by mistake: the digit before belongs to it
                out[-1] = out[-1].removesuffix(_FIXED)
            out.append(low + _FIXED if low.isdigit() else low)
        else:
            out.append(sign.translate(_DASHES).translate(_DOTS))
    return "".join(part[1:] if part in _RAISED_MARKS else part for part in out)


_RAISED_MARKS = frozenset("r" + sign for sign in _RAISED.values())


def _count(line: str) -> tuple[Fraction, str]:
    """The number before a formula and the formula; a number of zero means it cannot be read."""
    line = line.replace("½", "1/2").replace("¼", "1/4").replace("¾", "3/4")
    match = re.match(r"(\d{1,4})\s*/\s*(\d{1,4})|\d{1,4}\.\d{1,4}|\d{1,4}(?!\d)", line)
    if match is None:
        return Fraction(1), line
    rest = line[match.end() :].strip()
    if match[2] and not int(match[2]):
        return Fraction(0), rest
    number = Fraction("".join(match[0].split()))
    return (number if number <= _MOST_TIMES else Fraction(0)), rest


def _states(line: str) -> Iterator[tuple[str, str]]:
    """The formula and its state; "(S)" may be sulfur in brackets as well as a solid."""
    match = re.search(r"\s*\^?\(\s*(s|l|g|aq)\s*\)$", line, re.IGNORECASE)
    if match:
        yield line[: match.start()], match[1].lower()
    if match is None or match[1] == "S":
        yield line, ""


def _charges(body: str) -> Iterator[tuple[str, int]]:
    """The formula and its charge, for every way of reading the digits before the sign."""
    raised = re.fullmatch(r"(.+?)\s*\^\s*[({]?\s*(\d?)\s*([+-])\s*(\d?)\s*[)}]?", body)
    if raised is None:
        raised = re.fullmatch(r"(.+?)\s*\((\d?)([+-])(\d?)\)", body)
    if raised:
        if not (raised[2] and raised[4]):
            yield raised[1], _signed(raised[2] or raised[4], raised[3])
        return
    match = re.fullmatch(r"(.+?)(\s*)(\d?)\s*([+-]|\+\++|--+)", body)
    if match is None:
        behind = re.fullmatch(r"(.+?)\s*([+-])([1-9])", body)
        yield (behind[1], _signed(behind[3], behind[2])) if behind else (body, 0)
        return
    formula, space, digit, sign = match.groups()
    if len(sign) > 1:
        yield formula + digit, len(sign) * (1 if sign[0] == "+" else -1)
        return
    if digit and digit != "0":
        yield formula, _signed(digit, sign)
    if not (digit and (space or formula.endswith(_FIXED))):
        yield formula + digit, _signed("", sign)


def _signed(digits: str, sign: str) -> int:
    return int(digits or 1) * (1 if sign == "+" else -1)


def _species(formula: str, charge: int, state: str, count: Fraction) -> Species | None:
    written = re.sub(r"\s+|_(?=[\d(\[.{])|[{}]|" + _FIXED, "", formula)
    if written in ("e", "(e)"):
        return Species({}, -1, state, count, "e") if charge in (0, -1) else None
    if "^" in written or (not charge and written.endswith(("+", "-"))):
        return None
    read = parse_formula(written)
    if isinstance(read, Fault) or abs(charge) > 8:
        return None
    return Species(dict(read.atoms), charge, state, count, written)
