"""One chemical species as people type it: all the readings it can have, and never a guess.

"Cu2+" may be one copper with charge 2+ or two coppers with charge +; "SO42-" and "Al3+" likewise.
Whoever compares takes the reading that fits the key, if there is one.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache

from drill.marking.text import flat

LONGEST = 60
_SYMBOLS = """H He Li Be B C N O F Ne Na Mg Al Si P S Cl Ar K Ca Sc Ti V Cr Mn Fe Co Ni Cu Zn Ga Ge
As Se Br Kr Rb Sr Y Zr Nb Mo Tc Ru Rh Pd Ag Cd In Sn Sb Te I Xe Cs Ba La Ce Pr Nd Pm Sm Eu Gd Tb Dy
Ho Er Tm Yb Lu Hf Ta W Re Os Ir Pt Au Hg Tl Pb Bi Po At Rn Fr Ra Ac Th Pa U Np Pu"""
_ELEMENTS = frozenset(_SYMBOLS.split())
_STATE = re.compile(r"\s*\(\s*(s|l|g|aq)\s*\)\s*$", re.IGNORECASE)
_COUNT = re.compile(r"^(?:(\d{1,3})\s*/\s*(\d{1,3})|(\d{1,3}(?:\.\d{1,3})?))?\s*")
_HALVES = {"½": "1/2", "¼": "1/4", "¾": "3/4"}
_UNIT = re.compile(r"([A-Z][a-z]?)(\d{0,3})|([(\[])|([)\]])(\d{0,3})")


@dataclass(frozen=True)
class Species:
    """`shape` is the formula in one spelling, `atoms` what it holds; an electron holds none."""

    shape: str
    atoms: tuple[tuple[str, int], ...]
    charge: int
    state: str
    count: Fraction

    @property
    def same(self) -> tuple[str, int]:
        """What makes two species one and the same, wherever they stand."""
        return self.shape, self.charge


@lru_cache(maxsize=4096)
def readings(text: str) -> tuple[Species, ...]:
    """Every way to read one species with its number in front and its state; () if there is none."""
    line = text.strip()
    for half, plain in _HALVES.items():
        line = line.replace(half, f"{plain} ")
    line = flat(line)
    if not line or len(line) > LONGEST:
        return ()
    state = ""
    match = _STATE.search(line)
    if match:
        line, state = line[: match.start()], match[1].lower()
    front = _COUNT.match(line)
    assert front is not None
    count = _number(front)
    body = "".join(line[front.end() :].split())
    if not count or not body:
        return ()
    return tuple(replace(one, state=state, count=count) for one in _bodies(body))


def _number(front: re.Match[str]) -> Fraction:
    if front[1]:
        return Fraction(int(front[1]), int(front[2]) or 1)
    return Fraction(front[3]) if front[3] else Fraction(1)


def _bodies(body: str) -> list[Species]:
    """Readings of a formula with its charge, the likelier first."""
    if re.fullmatch(r"e\^?\(?-?\)?", body):
        return [Species("e", (), -1, "", Fraction(1))]
    found: list[Species] = []
    for formula, charge in _charges(body):
        made = _formula(formula, charge)
        if made is not None and made not in found:
            found.append(made)
    return found


def _charges(body: str) -> list[tuple[str, int]]:
    """(formula, charge) pairs: "SO42-" is SO4 with 2- or SO42 with -."""
    if not body or body[-1] not in "+-)":
        return [(body, 0)]
    repeated = re.search(r"(\++|-+)$", body)
    if repeated and len(repeated[0]) in (2, 3):
        sign = 1 if repeated[0][0] == "+" else -1
        return [(body[: repeated.start()].rstrip("^"), sign * len(repeated[0]))]
    match = re.search(r"\^?\(?(\d?)([+-])\)?$|\^\(?([+-])(\d)\)?$", body)
    if match is None:
        return [(body, 0)]
    sign = 1 if (match[2] or match[3]) == "+" else -1
    size = match[1] or match[4] or ""
    before = body[: match.start()]
    pairs = [(before, sign * int(size or 1))]
    if size and "^" not in body and before[-1:].isalnum():
        pairs.append((before + size, sign))
    return pairs


def _formula(text: str, charge: int) -> Species | None:
    """One formula; brackets and dots of water kept in its shape, atoms added up."""
    text = re.sub(r"[·•∙⋅*×]", ".", text)
    shapes: list[str] = []
    atoms: dict[str, int] = {}
    for index, piece in enumerate(text.split(".")):
        front = re.match(r"\d{0,3}", piece)
        number = front[0] if front else ""
        if number and index == 0:
            return None
        group = _group(piece[len(number) :])
        if group is None:
            return None
        shapes.append(number + group[0])
        for symbol, amount in group[1].items():
            atoms[symbol] = atoms.get(symbol, 0) + amount * int(number or 1)
    return Species(".".join(shapes), tuple(sorted(atoms.items())), charge, "", Fraction(1))


def _group(text: str) -> tuple[str, Mapping[str, int]] | None:
    """Shape and atoms of a piece without dots; brackets that multiply nothing are dropped."""
    stack: list[tuple[list[str], dict[str, int]]] = [([], {})]
    place = 0
    while place < len(text):
        match = _UNIT.match(text, place)
        if match is None:
            return None
        place = match.end()
        symbol, number, opened, closed, times = match.groups()
        if symbol:
            if symbol not in _ELEMENTS or number == "0":
                return None
            _put(stack[-1], symbol, {symbol: 1}, number)
        elif opened:
            stack.append(([], {}))
        elif closed:
            if len(stack) == 1:
                return None
            shape, inner = stack.pop()
            joined = "".join(shape)
            _put(stack[-1], joined if times in ("", "1") else f"({joined})", inner, times)
    if len(stack) > 1 or not stack[0][1]:
        return None
    return "".join(stack[0][0]), stack[0][1]


def _put(
    level: tuple[list[str], dict[str, int]], shape: str, inner: Mapping[str, int], number: str
) -> None:
    shapes, atoms = level
    shapes.append(shape + ("" if number in ("", "1") else number))
    for symbol, amount in inner.items():
        atoms[symbol] = atoms.get(symbol, 0) + amount * int(number or 1)


def recased(text: str, known: tuple[str, ...]) -> str | None:
    """The known formula this is but for its capitals ("nacl"), when only one can be meant."""
    bare = "".join(flat(text).split())
    found = {formula for formula in known if formula.lower() == bare.lower() and formula != bare}
    return found.pop() if len(found) == 1 else None
