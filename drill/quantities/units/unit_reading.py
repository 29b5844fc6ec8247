"""Reads a unit as authors and learners spell it, and writes it in one standard form.

    unit    = factor { [" " | "*" | "." | "/" | "per"] factor }
    factor  = (word | "(" unit ")") [["^"] whole number | "squared" | "cubed"]

All that follows "/" or "per" is divided by, as in "J/kg °C", unless it has a negative power. "ms-1"
is read as metres per second, the school form, not as "per millisecond".
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from functools import lru_cache

from drill.quantities.units.unit_table import ALIASES, Atom
from drill.quantities.units.unit_words import UnitWord, atom_of, glued, known, words_of
from drill.quantities.values import PLAIN, Unit

Factor = tuple[Atom, int]

LONGEST = 60
_LARGEST_EXPONENT = 9
_DEEPEST = 3
_BEFORE = {"cubic": 3, "square": 2, "sq": 2}
_AFTER = {"cubed": 3, "squared": 2}
_OVER = ("/", "per")


@lru_cache(maxsize=4096)
def unit_of(text: str) -> Unit | None:
    """The unit written in `text`; "" is a plain number; None if it is not a known unit."""
    if len(text) > LONGEST:
        return None
    words = words_of(text)
    if not words:
        return None if words is None or text.strip() else PLAIN
    factors = _Reader(words, _LARGEST_EXPONENT).unit()
    return None if factors is None else unit_from(factors)


@lru_cache(maxsize=4096)
def factors_of(symbol: str) -> tuple[Factor, ...]:
    """The atoms of a symbol that `unit_from` wrote, with their exponents; () of a plain number."""
    words = words_of(symbol)
    return _gathered((_Reader(words, 10**4).unit() if words else None) or [])


def unit_from(factors: Iterable[Factor]) -> Unit:
    """The unit that is the product of these atoms, with its symbol in standard form."""
    gathered = _gathered(factors)
    scale = Fraction(1)
    dimension = [0] * 6
    for atom, exponent in gathered:
        scale *= atom.scale**exponent
        for place, size in enumerate(atom.dimension):
            dimension[place] += size * exponent
    return Unit(_symbol(gathered), scale, tuple(dimension)) if gathered else PLAIN


def spellings() -> tuple[str, ...]:
    """Every single word that is read as a unit, for suggestions and for the documentation."""
    return (*known(), *ALIASES)


def _gathered(factors: Iterable[Factor]) -> tuple[Factor, ...]:
    sums: dict[Atom, int] = {}
    for atom, exponent in factors:
        sums[atom] = sums.get(atom, 0) + exponent
    return tuple((atom, exponent) for atom, exponent in sums.items() if exponent)


def _symbol(factors: tuple[Factor, ...]) -> str:
    above = [_raised(atom, exponent) for atom, exponent in factors if exponent > 0]
    below = [_raised(atom, -exponent) for atom, exponent in factors if exponent < 0]
    top = " ".join(above)
    if not below:
        return top
    under = below[0] if len(below) == 1 else f"({' '.join(below)})"
    return f"{top or '1'}/{under}"


def _raised(atom: Atom, exponent: int) -> str:
    return atom.symbol if exponent == 1 else f"{atom.symbol}{exponent}"


class _Reader:
    """One pass over the words of a unit; methods return None for what cannot be read."""

    def __init__(self, words: list[UnitWord], largest: int) -> None:
        self._words = words
        self._at = 0
        self._largest = largest

    def unit(self) -> list[Factor] | None:
        factors = self._product(0)
        return factors if factors and self._at == len(self._words) else None

    def _product(self, depth: int) -> list[Factor] | None:
        out: list[Factor] = []
        below = False
        if self._peek() == "1" and self._peek(1) in _OVER:
            self._at += 1
        while (word := self._peek()) and word != ")":
            below = below or word in _OVER
            if word in _OVER or (word == "*" and out):
                self._at += 1
            flip = below and (word in _OVER or not self._is_negative(1))
            factors = self._factor(depth, below)
            if factors is None:
                return None
            out += _to_power(factors, -1 if flip else 1)
        return out

    def _factor(self, depth: int, below: bool) -> list[Factor] | None:
        word = self._take()
        if word == "(":
            inner = self._product(depth + 1) if depth < _DEEPEST else None
            if not inner or self._take() != ")":
                return None
            return self._raise(inner)
        power = _BEFORE.get(word.casefold())
        if power and self._peek().isalpha():
            named = self._named(self._take(), below)
            return named and _to_power(named, power)
        named = self._named(word, below)
        last = named and self._raise(named[-1:])
        return [*named[:-1], *last] if named and last else None

    def _named(self, word: str, below: bool) -> list[Factor] | None:
        """The atoms a word stands for: nearly always one."""
        if word in ALIASES:
            if not self._has_power():
                return list(factors_of(ALIASES[word]))
            word = "m" if word == "M" else ""  # M3 is a slip of case, there is no cubic molar
        parts = glued(word) if word == "Nm" or self._is_negative(0) else None
        if parts is None:
            atom = atom_of("s" if below and word == "S" else word)  # under a line it is a second
            parts = [atom] if atom else glued(word) if below else None
        return None if parts is None else [(atom, 1) for atom in parts]

    def _raise(self, factors: list[Factor]) -> list[Factor] | None:
        """The factors to the power that is written behind them, if one is."""
        if not self._has_power():
            return factors
        text = self._take()
        if text.casefold() in _AFTER:
            return _to_power(factors, _AFTER[text.casefold()])
        if text == "^":
            text = self._take()
        power = int(text) if _is_whole(text) and len(text) < 8 else 0
        return _to_power(factors, power) if 0 < abs(power) <= self._largest else None

    def _has_power(self) -> bool:
        """Whether a power follows: written out, or a number that stands close or is negative."""
        text = self._peek()
        if text == "^" or text.casefold() in _AFTER:
            return True
        return _is_whole(text) and (self._words[self._at].close or text[0] == "-")

    def _is_negative(self, ahead: int) -> bool:
        """Whether there is a negative power this many words ahead."""
        word = self._peek(ahead)
        return (self._peek(ahead + 1) if word == "^" else word).startswith("-")

    def _peek(self, ahead: int = 0) -> str:
        at = self._at + ahead
        return self._words[at].text if at < len(self._words) else ""

    def _take(self) -> str:
        word = self._peek()
        self._at += 1
        return word


def _to_power(factors: list[Factor], power: int) -> list[Factor]:
    return [(atom, exponent * power) for atom, exponent in factors]


def _is_whole(word: str) -> bool:
    return word.lstrip("+-").isdecimal()
