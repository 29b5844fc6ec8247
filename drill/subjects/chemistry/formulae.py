"""Chemical formulae as authors write them: "CuSO4.5H2O", "Cu2(OH)2CO3" become counts of atoms.

What pupils type, with charges, states and all its readings, is read in typed_formulae.py.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from drill.quantities import Fault
from drill.subjects.chemistry.elements import SYMBOLS

LONGEST = 100
_MOST_OF_ONE = 1000
_DEEPEST = 6
_PAIRS = {"(": ")", "[": "]"}
_FLAT = str.maketrans("₀₁₂₃₄₅₆₇₈₉·•⋅∙*", "0123456789.....")


@dataclass(frozen=True)
class Formula:
    """A formula and its atoms: "CuSO4.5H2O" has Cu 1, S 1, O 9, H 10."""

    text: str
    atoms: Mapping[str, int]


class _Refused(Exception):
    def __init__(self, message: str, column: int, hint: str = "") -> None:
        super().__init__(message)
        self.fault = Fault(message, column, hint)


def parse_formula(text: str) -> Formula | Fault:
    """The atoms of a neutral formula; a dot or raised dot joins water of crystallisation.

    Small digits below the line count as digits. A Fault names the place that cannot be read.
    """
    flat = text.strip().translate(_FLAT)
    if not flat:
        return Fault("there is no formula", 1)
    if len(flat) > LONGEST:
        return Fault(f"a formula has at most {LONGEST} characters; this has {len(flat)}", 1)
    try:
        return Formula(text.strip(), _Reader(flat).whole())
    except _Refused as refused:
        return refused.fault


def molar_mass(formula: Formula, masses: Mapping[str, Fraction]) -> Fraction | Fault:
    """The sum of its atoms' masses, in whatever unit the masses are in."""
    lacking = sorted(symbol for symbol in formula.atoms if symbol not in masses)
    if lacking:
        return Fault(f"no mass is given for {', '.join(lacking)} in {formula.text}")
    return sum((masses[symbol] * n for symbol, n in formula.atoms.items()), Fraction(0))


class _Reader:
    def __init__(self, text: str) -> None:
        self._text = text
        self._at = 0

    def whole(self) -> dict[str, int]:
        """Parts joined by dots, each with a number before it if it is there several times."""
        atoms: dict[str, int] = {}
        while True:
            times = self._number() if self._at else 1
            _add(atoms, self._group("", 0), times)
            if self._at == len(self._text):
                return atoms
            self._at += 1  # the dot

    def _group(self, closing: str, depth: int) -> dict[str, int]:
        """Atoms and brackets up to `closing`, or up to a dot or the end when it is ""."""
        if depth > _DEEPEST:
            raise self._refused(f"brackets go at most {_DEEPEST} deep")
        atoms: dict[str, int] = {}
        while (sign := self._peek()) and sign != closing and sign != ".":
            inner = self._bracket(depth) if sign in _PAIRS else {self._symbol(): 1}
            _add(atoms, inner, self._number())
        if not atoms:
            raise self._refused("a symbol of an element is missing")
        if closing and self._peek() != closing:
            raise self._refused(f"a {closing} is missing")
        return atoms

    def _bracket(self, depth: int) -> dict[str, int]:
        closing = _PAIRS[self._peek()]
        self._at += 1
        inner = self._group(closing, depth + 1)
        self._at += 1
        return inner

    def _symbol(self) -> str:
        for length in (2, 1):
            symbol = self._text[self._at : self._at + length]
            if symbol in SYMBOLS:
                self._at += len(symbol)
                return symbol
        seen = self._peek()
        if seen.isalpha():
            hint = "" if seen.isupper() else "Symbols begin with a capital."
            raise self._refused(f"{seen!r} is not the symbol of an element", hint)
        raise self._refused(f"{seen!r} has no place in a formula")

    def _number(self) -> int:
        """The whole number that stands here; 1 when there is none."""
        start = self._at
        while self._peek() and self._peek() in "0123456789":
            self._at += 1
        digits = self._text[start : self._at]
        if len(digits) > 4 or (digits and not 0 < int(digits) <= _MOST_OF_ONE):
            self._at = start
            raise self._refused(f"{digits[:8]!r} is no number of atoms")
        return int(digits or 1)

    def _peek(self) -> str:
        return self._text[self._at : self._at + 1]

    def _refused(self, message: str, hint: str = "") -> _Refused:
        return _Refused(message, self._at + 1, hint)


def _add(atoms: dict[str, int], more: Mapping[str, int], times: int) -> None:
    for symbol, number in more.items():
        atoms[symbol] = atoms.get(symbol, 0) + number * times
