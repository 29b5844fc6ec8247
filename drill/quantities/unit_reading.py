"""Reading a unit as authors and learners spell it, and writing it one way.

    unit    = factor { [" " | "*" | "." | "/" | "per"] factor }
    factor  = (word | "(" unit ")") [["^"] whole number]

After "/" or "per" everything that follows is underneath, as in "J/kg °C". Superscripts, µ, Ω,
ordinal and degree signs of any sort are one. A slip of case is forgiven unless the other case
is another quantity (mA and MA, s and S, k and K, M and m). "ms-1" is read as metres per second.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable
from fractions import Fraction
from functools import lru_cache

from drill.quantities.units_table import ALIASES, ATOMS, Atom
from drill.quantities.values import PLAIN, Unit

Factor = tuple[Atom, int]

LONGEST = 60
_LARGEST_EXPONENT = 9
_SINGLE_FOLDS = {"G": "g", "j": "J", "v": "V", "w": "W", "n": "N", "c": "C"}
_SIGNS = str.maketrans({"º": "°", "˚": "°", "μ": "µ", "−": "-", "–": "-", "‑": "-", "·": "*"})
_OTHER_SIGNS = str.maketrans({"⋅": "*", "×": "*", ".": "*", "∕": "/", "÷": "/"})
_PHRASES = (
    ("per cent", "percent"),
    ("degrees ", "°"),
    ("degree ", "°"),
    ("deg ", "°"),
    ("° ", "°"),
    ("°celsius", "°C"),
    ("°centigrade", "°C"),
    ("a*u*", "au"),
    ("a*u", "au"),
    ("arbitrary units", "au"),
    ("arbitrary unit", "au"),
    ("kilowatt hour", "kWh"),
    ("kilowatt-hour", "kWh"),
    ("kWhs", "kWh"),
    ("kW h", "kWh"),
)
_BEFORE = {"cubic": 3, "square": 2, "sq": 2}
_AFTER = {"cubed": 3, "squared": 2}


@lru_cache(maxsize=4096)
def unit_of(text: str) -> Unit | None:
    """The unit spelled by `text`; "" is a plain number; None when it is no unit we know."""
    if len(text) > LONGEST:
        return None
    plain = _plain(text)
    if not plain:
        return PLAIN
    words = _words(plain)
    factors = _Reader(words).unit() if words else None
    return None if factors is None else unit_from(factors)


@lru_cache(maxsize=4096)
def factors_of(symbol: str) -> tuple[Factor, ...]:
    """The atoms of a symbol that `unit_from` wrote, with their exponents."""
    words = _words(symbol)
    factors = _Reader(words, limit=10**6).unit() if words else []
    return _gathered(factors or [])


def unit_from(factors: Iterable[Factor]) -> Unit:
    """The unit that is the product of these atoms, its symbol written the one way we write it."""
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
    return tuple(_known())


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


# ------------------------------------------------------------------ spelling


def _plain(text: str) -> str:
    """Signs of one meaning made one, phrases made words."""
    kept = text.replace("º", "°").replace("˚", "°")  # before NFKC makes letters of them
    line = unicodedata.normalize("NFKC", kept).translate(_SIGNS).translate(_OTHER_SIGNS)
    line = " ".join(line.replace("**", "^").split())
    folded = line.casefold()
    for phrase, word in _PHRASES:
        while (at := folded.find(phrase.casefold())) >= 0:
            line = line[:at] + word + line[at + len(phrase) :]
            new = line.casefold()
            if new == folded:
                break
            folded = new
    return line.strip()


def _words(line: str) -> list[tuple[str, bool]] | None:
    """(word, whether it follows its neighbour without a space); None for a sign we do not know."""
    out: list[tuple[str, bool]] = []
    at = 0
    while at < len(line):
        if line[at] == " ":
            at += 1
            continue
        end = _word_end(line, at)
        if end == at:
            return None
        out.append((line[at:end], at > 0 and line[at - 1] != " "))
        at = end
    return out


def _word_end(line: str, at: int) -> int:
    if line[at] in "/*()^":
        return at + 1
    if _is_letter(line[at]):
        return _while(line, at, _is_letter)
    start = at + 1 if line[at] in "+-" else at
    return max(at, _while(line, start, _is_digit)) if start < len(line) else at


def _while(line: str, at: int, what: object) -> int:
    assert callable(what)
    while at < len(line) and what(line[at]):
        at += 1
    return at


def _is_letter(sign: str) -> bool:
    return sign.isalpha() or sign in "°%"


def _is_digit(sign: str) -> bool:
    return sign in "0123456789"


@lru_cache(maxsize=1)
def _known() -> dict[str, Atom]:
    """Every exact spelling of an atom."""
    known: dict[str, Atom] = {}
    for atom in ATOMS:
        for word in (atom.symbol, *atom.spellings.split()):
            known[word] = atom
    return known


@lru_cache(maxsize=1)
def _folded() -> dict[str, tuple[str, Atom]]:
    """Spellings in lower case with the spelling they come from; those that clash left out."""
    folded: dict[str, tuple[str, Atom]] = {}
    clash: set[str] = set()
    for word, atom in _known().items():
        low = word.casefold()
        if low in folded and folded[low][1] != atom:
            clash.add(low)
        folded.setdefault(low, (word, atom))
    return {low: found for low, found in folded.items() if low not in clash and len(low) > 1}


def _atom(word: str) -> Atom | None:
    known = _known()
    exact = known.get(word) or known.get(_SINGLE_FOLDS.get(word, ""))
    if exact is not None:
        return exact
    found = _folded().get(word.casefold())
    if found is None or _other_quantity(word, found[0]):
        return None
    return found[1]


def _other_quantity(typed: str, known: str) -> bool:
    """Whether the other case would be another quantity: mega for milli, molar for metre."""
    prefixed = known[0] in "mM" and known[1:] in _known()
    if prefixed and typed[0] != known[0]:
        return True
    return typed.endswith("M") and typed[:-1].islower()


class _Reader:
    """One pass over the words of a unit; every method gives None when it cannot be read."""

    def __init__(self, words: list[tuple[str, bool]], limit: int = _LARGEST_EXPONENT) -> None:
        self._words = words
        self._at = 0
        self._limit = limit

    def unit(self) -> list[Factor] | None:
        factors = self._product(0)
        return factors if factors and self._at == len(self._words) else None

    def _product(self, depth: int) -> list[Factor] | None:
        if depth > 4:
            return None
        out: list[Factor] = []
        below = False
        if self._peek() == "1" and self._peek(1) in ("/", "per"):
            self._at += 1
        while (word := self._peek()) and word != ")":
            if word in ("/", "per"):
                below = True
                self._at += 1
            elif word == "*":
                if not out:
                    return None
                self._at += 1
            flip = below and (word in ("/", "per") or not self._is_negative())
            factors = self._factor(depth)
            if factors is None:
                return None
            out += [(atom, -exponent if flip else exponent) for atom, exponent in factors]
        return out

    def _factor(self, depth: int) -> list[Factor] | None:
        word = self._take()
        if word == "(":
            inner = self._product(depth + 1)
            if not inner or self._take() != ")":
                return None
            return _to_power(inner, self._exponent())
        before = _BEFORE.get(word.casefold())
        if before and self._peek():
            return _to_power(self._named(self._take()), before)
        glued = self._named(word)
        if not glued:
            return None
        raised = _to_power(glued[-1:], self._exponent())
        return raised and [*glued[:-1], *raised]

    def _named(self, word: str) -> list[Factor] | None:
        alias = ALIASES.get(word)
        if alias is not None:
            return list(factors_of(alias))
        if self._is_negative_next() and (parts := _glued(word)):
            return parts
        if word == "Nm":
            return _glued(word)
        atom = _atom(word)
        return None if atom is None else [(atom, 1)]

    def _exponent(self) -> int | None:
        """The power behind a factor: 1 when there is none, None when it is out of bounds."""
        if self._peek().casefold() in _AFTER:
            return _AFTER[self._take().casefold()]
        if self._peek() == "^":
            self._at += 1
            if not _is_whole(self._peek()):
                return None
        elif not (_is_whole(self._peek()) and (self._close() or self._peek()[0] == "-")):
            return 1
        text = self._take()
        power = int(text) if len(text) < 8 else 0
        return power if 0 < abs(power) <= self._limit else None

    def _is_negative_next(self) -> bool:
        """Whether a negative power follows."""
        word = self._peek(1) if self._peek() == "^" else self._peek()
        return word.startswith("-")

    def _is_negative(self) -> bool:
        """Whether the factor that starts here has a negative power of its own."""
        word = self._peek(2) if self._peek(1) == "^" else self._peek(1)
        return word.startswith("-")

    def _close(self) -> bool:
        return self._words[self._at][1]

    def _peek(self, ahead: int = 0) -> str:
        at = self._at + ahead
        return self._words[at][0] if at < len(self._words) else ""

    def _take(self) -> str:
        word = self._peek()
        self._at += 1
        return word


def _to_power(factors: list[Factor] | None, power: int | None) -> list[Factor] | None:
    if factors is None or power is None:
        return None
    return [(atom, exponent * power) for atom, exponent in factors]


def _is_whole(word: str) -> bool:
    return bool(word) and word.lstrip("+-").isdigit()


def _glued(word: str) -> list[Factor] | None:
    """Two symbols run together, "moldm" of "moldm-3"; a known word is one only for "ms"."""
    if word in _known() and word != "ms":
        return None
    symbols = {atom.symbol: atom for atom in ATOMS}
    for cut in range(len(word) - 1, 0, -1):
        first, second = symbols.get(word[:cut]), symbols.get(word[cut:])
        if first and second:
            return [(first, 1), (second, 1)]
    return None
