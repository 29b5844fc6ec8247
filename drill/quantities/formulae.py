"""Chemical formulae as atoms, and their relative masses from the masses that were printed."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from drill.quantities.values import Fault

_LOWERED = str.maketrans("₀₁₂₃₄₅₆₇₈₉·•∙⋅", "0123456789....")
_PIECE = re.compile(r"([A-Z][a-z]?)(\d*)|(\()|(\)|\])(\d*)|(\[)")
LONGEST = 60
MOST_ATOMS = 10_000


@dataclass(frozen=True)
class Formula:
    """`atoms`: symbol -> number, water of crystallisation included."""

    text: str
    atoms: Mapping[str, int]


def parse_formula(text: str) -> Formula | Fault:
    """Read "CuSO4.5H2O", "Cu2(OH)2CO3", "(NH4)2SO4"; a dot or a raised dot joins water."""
    tidy = "".join(text.split()).translate(_LOWERED)
    if not tidy or len(tidy) > LONGEST:
        return Fault(f'"{text[:20]}" is no formula')
    atoms: dict[str, int] = {}
    for piece in tidy.split("."):
        match = re.match(r"\d*", piece)
        front = match[0] if match else ""
        found = _group(piece[len(front) :])
        if isinstance(found, Fault):
            return Fault(f'"{text}" is no formula: {found.message}')
        for symbol, number in found.items():
            atoms[symbol] = atoms.get(symbol, 0) + number * int(front[:4] or 1)
    if sum(atoms.values()) > MOST_ATOMS:
        return Fault(f'"{text}" has too many atoms')
    return Formula(text, atoms)


def _group(text: str) -> dict[str, int] | Fault:
    """Atoms of a piece without dots, brackets multiplied out."""
    stack: list[dict[str, int]] = [{}]
    place = 0
    while place < len(text):
        match = _PIECE.match(text, place)
        if match is None:
            return Fault(f'cannot read "{text[place : place + 6]}"')
        place = match.end()
        symbol, number, opened, closed, times, square = match.groups()
        if symbol:
            stack[-1][symbol] = stack[-1].get(symbol, 0) + int(number[:4] or 1)
        elif opened or square:
            stack.append({})
        elif closed:
            if len(stack) == 1:
                return Fault("a bracket closes that was never opened")
            for inner, amount in stack.pop().items():
                stack[-1][inner] = stack[-1].get(inner, 0) + amount * int(times[:4] or 1)
    if len(stack) > 1 or not stack[0]:
        return Fault("a bracket is not closed" if stack[0] or len(stack) > 1 else "it is empty")
    return stack[0]


def molar_mass(formula: Formula, masses: Mapping[str, Fraction]) -> Fraction | Fault:
    """The sum of the relative atomic masses; a Fault names the first element without one."""
    total = Fraction(0)
    for symbol, number in formula.atoms.items():
        if symbol not in masses:
            return Fault(f'no relative atomic mass for "{symbol}"')
        total += masses[symbol] * number
    return total
