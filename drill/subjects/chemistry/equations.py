"""Equations as pupils type them, in every way they can be meant, and whether they balance.

Balanced means that every element and the charge have the same total on both sides; no equation is
ever solved.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from itertools import pairwise, product
from math import prod
from typing import cast

from drill.quantities import Fault
from drill.subjects.chemistry.formulae import parse_formula
from drill.subjects.chemistry.typed_formulae import Species, readings

LONGEST = 300
_MOST_READINGS = 128
_MOST_PLUSES = 24
_MOST_DOUBTFUL = 6
_TOO_MANY = Fault("this can be read in too many ways", hint="Write charges as in Cu^2+.")
_DASHES = str.maketrans("−–—", "---")
_ARROWS = re.compile(r"<-+>|<=+>|[-=]+>|[→⟶⇌⇋↔⟷➔➝⟹⇒]|=+")


@dataclass(frozen=True)
class Equation:
    """One reading of an equation; each species carries its number in `count`."""

    left: tuple[Species, ...]
    right: tuple[Species, ...]


def read_equation(text: str) -> tuple[Equation, ...] | Fault:
    """Every way `text` can be read as an equation, those nearest to balance first.

    Arrows may be `->`, `-->`, `→`, `=`, `⇌`, `<->` and their like. A Fault says in words what
    could not be read.
    """
    if len(text) > LONGEST:
        return Fault(f"an equation has at most {LONGEST} characters; this has {len(text)}")
    line = " ".join(text.translate(_DASHES).split())
    fault: Fault | None = None
    found: list[Equation] = []
    for left_text, right_text in _sides(line):
        left, right = _side(left_text), _side(right_text)
        if isinstance(left, Fault) or isinstance(right, Fault):
            fault = fault or (left if isinstance(left, Fault) else cast(Fault, right))
        elif len(found) + len(left) * len(right) > _MOST_READINGS:
            return _TOO_MANY
        else:
            found += (Equation(a, b) for a, b in product(left, right))
    if not found:
        return fault or _no_arrow(line)
    return tuple(sorted(found, key=lambda equation: len(unbalanced(equation))))


def unbalanced(equation: Equation) -> dict[str, tuple[Fraction, Fraction]]:
    """What does not balance: symbol of an element or "charge" -> its totals (left, right)."""
    left, right = _totals(equation.left), _totals(equation.right)
    zero = Fraction(0)
    pairs = {
        name: (left.get(name, zero), right.get(name, zero)) for name in sorted({*left, *right})
    }
    return {name: pair for name, pair in pairs.items() if pair[0] != pair[1]}


def _totals(side: tuple[Species, ...]) -> dict[str, Fraction]:
    totals: dict[str, Fraction] = {}
    for species in side:
        for name, number in (*species.atoms.items(), ("charge", species.charge)):
            totals[name] = totals.get(name, Fraction(0)) + species.count * number
    return totals


def _no_arrow(line: str) -> Fault:
    if _ARROWS.search(line):
        return Fault("an equation has just one arrow with something on each side of it")
    return Fault("there is no arrow in this equation", hint="Write -> between the two sides.")


def _sides(line: str) -> Iterator[tuple[str, str]]:
    """Left and right of the arrow; the dashes of "Cl-->" may be a charge and an arrow."""
    arrows = list(_ARROWS.finditer(line))
    if len(arrows) != 1:
        return
    start, end = arrows[0].span()
    starts = [start]
    if re.fullmatch(r"--+>", line[start:end]) and start and line[start - 1] != " ":
        starts.append(start + 1)
    for begin in starts:
        left, right = line[:begin].strip(), line[end:].strip()
        if left and right:
            yield left, right


# ------------------------------------------------------------------ one side


def _side(text: str) -> list[tuple[Species, ...]] | Fault:
    """Every way to read one side as species with + between them."""
    out: list[tuple[Species, ...]] = []
    unread = ""
    kinds = {place: _separates(text, place) for place, sign in enumerate(text) if sign == "+"}
    if len(kinds) > _MOST_PLUSES or list(kinds.values()).count(None) > _MOST_DOUBTFUL:
        return _TOO_MANY
    read = cache(readings)
    for pieces in _pieces(text, kinds):
        choices = [read(piece) for piece in pieces]
        if len(out) + prod(map(len, choices)) > _MOST_READINGS:
            return _TOO_MANY
        out += product(*choices)
        unread = unread or next((piece for piece in pieces if not read(piece)), "")
    return out or _unread(unread)


def _unread(piece: str) -> Fault:
    if not piece:
        return Fault("a formula is missing beside a +")
    why = parse_formula(piece)
    hint = why.hint if isinstance(why, Fault) else ""
    return Fault(f"{piece[:40]!r} is not read as a formula", hint=hint)


def _pieces(text: str, kinds: dict[int, bool | None]) -> Iterator[list[str]]:
    """The side cut at its plus signs, for every sign that may be a charge or may not."""
    certain = [place for place, separates in kinds.items() if separates]
    doubtful = [place for place, separates in kinds.items() if separates is None]
    for choice in product((True, False), repeat=len(doubtful)):
        cuts = sorted(certain + [p for p, cut in zip(doubtful, choice, strict=True) if cut])
        pieces = _cut(text, cuts)
        if all(pieces):
            yield pieces


def _cut(text: str, cuts: list[int]) -> list[str]:
    edges = pairwise((-1, *cuts, len(text)))
    return [text[start + 1 : end].strip() for start, end in edges]


def _separates(text: str, place: int) -> bool | None:
    """Whether the plus at `place` stands between two species; None when it may be a charge."""
    before, after = text[:place], text[place + 1 :]
    if before.endswith(" "):
        return True
    if not after.strip() or after.lstrip()[:1] in ("+", ")", "}"):
        return None if after.startswith("+") else False
    if re.search(r"\^[({]?\d?$", before) or re.match(r"\s*\(\s*(s|l|g|aq)\s*\)", after, re.I):
        return False
    return True if re.search(r"\((s|l|g|aq)\)$", before, re.I) else None
