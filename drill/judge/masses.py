"""The molar mass of a chemical formula, added up from the masses of its atoms.

"Cu2(OH)2CO3" and "CuSO4.5H2O" are read by expanding brackets from the inside out.
"""

from __future__ import annotations

import re
from collections import Counter
from functools import lru_cache

from drill.judge.amounts import Amount, Row, Value
from drill.judge.cannot import Cannot

_FLAT = str.maketrans("₀₁₂₃₄₅₆₇₈₉·•⋅∙*", "0123456789.....")
_INNERMOST = re.compile(r"[(\[]([A-Za-z0-9]+)[)\]](\d*)")
_ATOMS = re.compile(r"([A-Z][a-z]?)(\d*)")
_PIECE = re.compile(r"(\d*)(.+)")


@lru_cache(maxsize=1024)
def atoms_of(formula: str) -> tuple[tuple[str, int], ...]:
    """How many atoms of each element.

    Raises:
        Cannot: it is no formula.
    """
    found: Counter[str] = Counter()
    for place, piece in enumerate(formula.strip().translate(_FLAT).split(".")):
        parts = _PIECE.fullmatch(piece)
        if parts is None or (place == 0 and parts[1]):
            raise Cannot(f"{formula!r} is no formula")
        for symbol, number in _counted(_without_brackets(parts[2]), formula):
            found[symbol] += number * int(parts[1] or 1)
    return tuple(found.items())


def _without_brackets(piece: str) -> str:
    while match := _INNERMOST.search(piece):
        times = int(match[2] or 1)
        inside = "".join(
            f"{symbol}{int(number or 1) * times}" for symbol, number in _ATOMS.findall(match[1])
        )
        piece = piece[: match.start()] + inside + piece[match.end() :]
    return piece


def _counted(piece: str, formula: str) -> list[tuple[str, int]]:
    pairs = _ATOMS.findall(piece)
    if "".join(symbol + number for symbol, number in pairs) != piece:
        raise Cannot(f"{formula!r} is no formula")
    return [(symbol, int(number or 1)) for symbol, number in pairs]


def molar_mass(formula: Value, masses: Value | None) -> Amount:
    """The sum of its atoms' masses, in the unit of the table.

    Raises:
        Cannot: it is no formula, or an element has no mass.
    """
    if not isinstance(formula, str) or masses is None or not isinstance(masses, dict):
        raise Cannot("M wants a formula in quotes and a table of masses")
    table: Row = masses
    total = None
    for symbol, number in atoms_of(formula):
        mass = table.get(symbol)
        if not isinstance(mass, Amount):
            raise Cannot(f"no mass is given for {symbol} in {formula}")
        share = Amount(mass.number * number, mass.unit)
        total = share if total is None else Amount(total.number + share.number, share.unit)
    if total is None:
        raise Cannot(f"{formula!r} is no formula")
    return total
