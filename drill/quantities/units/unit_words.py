"""The words of a unit as people spell them: equivalent signs unified, case mistakes forgiven.

A mistake of case is forgiven unless the other case means another unit: mA and MA, s and S, k and K,
M (molar) and m. So `CM3`, `KG` and `M3` are read, `ML` is not.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Callable
from functools import lru_cache
from typing import NamedTuple

from drill.quantities.units.unit_table import ATOMS, Atom

_LETTERS_LIKE = str.maketrans("º˚", "°°")  # before NFKC makes letters of them
_SIGNS = str.maketrans("μ−–‑·⋅×.∕⁄÷", "µ---****///")
_SINGLE_FOLDS = {"G": "g", "j": "J", "v": "V", "w": "W", "n": "N", "c": "C"}
_DEGREES = ("°", "deg", "degree", "degrees")
_CELSIUS = ("c", "celsius", "centigrade")
_FAHRENHEIT = ("f", "fahrenheit")
_PHRASES = {
    ("per", "cent"): "%",
    ("arbitrary", "units"): "au",
    ("arbitrary", "unit"): "au",
    ("a", "*", "u"): "au",
}


class UnitWord(NamedTuple):
    """A word, number or sign, and whether it stands close to what is before it."""

    text: str
    close: bool = False


def words_of(text: str) -> list[UnitWord] | None:
    """The words of a unit in order; None if it contains a character that no unit has."""
    line = unicodedata.normalize("NFKC", text.translate(_LETTERS_LIKE)).replace("**", "^")
    line = line.rstrip(" .").translate(_SIGNS)
    out: list[UnitWord] = []
    at = 0
    while at < len(line):
        if line[at].isspace():
            at += 1
            continue
        end = _word_end(line, at)
        if end == at:
            return None
        if line[at:end] != "-" or not _between_letters(line, at):  # the hyphen of kilowatt-hour
            out.append(UnitWord(line[at:end], at > 0 and not line[at - 1].isspace()))
        at = end
    return _phrased(out)


def _word_end(line: str, at: int) -> int:
    """Where the word that begins here ends: letters, a signed number, or one sign."""
    if line[at] in "/*()^%":
        return at + 1
    if line[at] == "°" or line[at].isalpha():
        return _while(line, at + 1, str.isalpha)
    if line[at] in "+-":
        return _while(line, at + 1, _is_digit)
    return _while(line, at, _is_digit)


def _while(line: str, at: int, belongs: Callable[[str], bool]) -> int:
    while at < len(line) and belongs(line[at]):
        at += 1
    return at


def _is_digit(sign: str) -> bool:
    return sign in "0123456789"


def _between_letters(line: str, at: int) -> bool:
    return 0 < at < len(line) - 1 and line[at - 1].isalpha() and line[at + 1].isalpha()


def _phrased(words: list[UnitWord]) -> list[UnitWord]:
    """Joins words that make up one unit: "per cent", "degrees Celsius"."""
    out: list[UnitWord] = []
    at = 0
    while at < len(words):
        low = tuple(word.text.casefold() for word in words[at : at + 3])
        word, used = words[at].text, 1
        if low[0] in _DEGREES and low[1:2] and low[1] in _CELSIUS:
            word, used = "°C", 2
        if low[0] in _DEGREES and low[1:2] and low[1] in _FAHRENHEIT:
            word, used = "°F", 2
        for length in (2, 3):
            if low[:length] in _PHRASES:
                word, used = _PHRASES[low[:length]], length
        out.append(UnitWord(word, words[at].close))
        at += used
    return out


# ------------------------------------------------------------------ which unit a word is


@lru_cache(maxsize=1)
def known() -> dict[str, Atom]:
    """Every exact spelling with its unit."""
    return {word: atom for atom in ATOMS for word in (atom.symbol, *atom.spellings.split())}


@lru_cache(maxsize=1)
def symbols() -> dict[str, Atom]:
    """The symbols alone."""
    return {atom.symbol: atom for atom in ATOMS}


@lru_cache(maxsize=1)
def _folded() -> dict[str, str]:
    """Spellings without regard to case -> the one exact spelling; those that clash left out."""
    folded: dict[str, str] = {}
    clash: set[str] = set()
    for word, atom in known().items():
        other = folded.setdefault(word.casefold(), word)
        if known()[other] != atom:
            clash.add(word.casefold())
    return {low: word for low, word in folded.items() if low not in clash and len(low) > 1}


def atom_of(word: str) -> Atom | None:
    """The unit a single word stands for."""
    exact = known().get(word) or known().get(_SINGLE_FOLDS.get(word, ""))
    if exact is not None:
        return exact
    spelled = _folded().get(word.casefold())
    return None if spelled is None or _other_quantity(word, spelled) else known()[spelled]


def _other_quantity(typed: str, spelled: str) -> bool:
    """Whether the other case would be another quantity: mega for milli, molar for metre."""
    rest = spelled[1:]
    prefixed = spelled[0] in "mM" and (rest in known() or rest[:-1] in known())
    if prefixed and typed[0] != spelled[0]:
        return True
    return typed.endswith("M") and typed[:-1].islower()


def glued(word: str) -> list[Atom] | None:
    """Two symbols run together, the "moldm" of "moldm-3"; of known symbols only "ms" is."""
    if word in symbols() and word != "ms":
        return None
    for cut in range(len(word) - 1, 0, -1):
        first, second = symbols().get(word[:cut]), symbols().get(word[cut:])
        if first and second and first.dimension != second.dimension:
            return [first, second]
    return None
