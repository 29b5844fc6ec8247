"""Units from their published definitions: the exact size of each in base units.

Definitions are those of the SI Brochure (BIPM, 9th edition, 2019): prefixes of table 7, derived
units of table 4, units used beside the SI of table 8. The bar and the standard atmosphere are
100 000 Pa and 101 325 Pa (ISO 80000-4:2019), a difference of a degree Fahrenheit is 5/9 K (NIST
Special Publication 811, 2008, appendix B). Temperatures on scales with different zeros are not
converted, only differences are. Per cent and counted things are plain numbers with a name.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from drill.judge.cannot import Cannot

Parts = tuple[tuple[str, int], ...]

_PREFIXES = {
    "M": (6, "mega"), "k": (3, "kilo"), "d": (-1, "deci"), "c": (-2, "centi"),
    "m": (-3, "milli"), "µ": (-6, "micro"), "n": (-9, "nano"),
}  # fmt: skip

# symbol: (what one of it is, full names, prefixes in use)
_DEFINED: Mapping[str, tuple[str, str, str]] = {
    "m": ("", "metre meter", "kdcmµn"),
    "s": ("", "second sec", "m"),
    "A": ("", "ampere amp", "mµ"),
    "K": ("", "kelvin", ""),
    "°C": ("1 K", "celsius centigrade", ""),
    "°F": ("5/9 K", "fahrenheit", ""),
    "mol": ("", "mole mol", "km"),
    "g": ("1/1000 kg", "gram gramme gm", "mµ"),
    "kg": ("", "kilogram kilogramme kilo kg", ""),
    "t": ("1000 kg", "tonne", ""),
    "L": ("1 dm3", "litre liter l ltr", "cmµ"),
    "min": ("60 s", "minute min", ""),
    "h": ("60 min", "hour hr", ""),
    "day": ("24 h", "day", ""),
    "Hz": ("1 s-1", "hertz", "kM"),
    "N": ("1 kg m s-2", "newton", "km"),
    "Pa": ("1 N m-2", "pascal", "kM"),
    "bar": ("100000 Pa", "bar", ""),
    "atm": ("101325 Pa", "atmosphere", ""),
    "J": ("1 N m", "joule", "kMm"),
    "W": ("1 J s-1", "watt", "kMm"),
    "kWh": ("1 kW h", "", ""),
    "coulomb": ("1 A s", "coulomb", ""),
    "V": ("1 W A-1", "volt", "km"),
    "Ω": ("1 V A-1", "ohm", "kM"),
    "%": ("1", "percent percentage pc", ""),
    "°": ("1", "degree deg", ""),
    "au": ("1", "arb", ""),
    "bubbles": ("1", "bubble", ""),
    "drops": ("1", "drop", ""),
    "squares": ("1", "square", ""),
}
_OTHER_WORDS = {
    "cms": "cm", "mms": "mm", "micron": "µm", "um": "µm", "l": "L", "cL": "cl", "mL": "ml",
    "mls": "ml", "mLs": "ml", "ul": "µl", "µL": "µl", "uL": "µl", "kgs": "kg", "mgs": "mg",
    "ug": "µg", "msec": "ms", "uA": "µA", "milliamp": "mA", "microamp": "µA", "C": "°C",
    "degC": "°C", "°celsius": "°C", "°centigrade": "°C",
    "F": "°F", "degF": "°F", "°fahrenheit": "°F", "megohm": "MΩ", "megohms": "MΩ",
    "kilohm": "kΩ", "kilohms": "kΩ", "kohm": "kΩ", "kohms": "kΩ",
    "G": "g", "j": "J", "v": "V", "w": "W", "n": "N", "c": "°C",
}  # fmt: skip
_WORTH = {"cc": "cm3", "ccs": "cm3", "CC": "cm3", "M": "mol/dm3", "molar": "mol/dm3",
          "mM": "mmol/dm3"}  # fmt: skip
_SHOWN = {"cL": "cl", "mL": "ml", "µL": "µl"}  # how a prefixed litre is written
_PHRASES = (
    (r"\bper\s*cent\b", "%"), (r"\barbitrary units?\b", "au"), (r"\ba\*u\b|\ba\.u\b", "au"),
    (r"(?:°|\bdeg(?:rees?)?)\s*(?:C|celsius|centigrade)\b", "°C"),
    (r"(?:°|\bdeg(?:rees?)?)\s*(?:F|fahrenheit)\b", "°F"),
    (r"(?<=[a-z])-(?=[a-z])", " "), (r"\bper\b", "/"),
    (r"\bcubic\s+([a-z]+)", r"\1^3"), (r"\b(?:square|sq)\s+([a-z]+)", r"\1^2"),
    (r"\s*\bcubed\b", "^3"), (r"\s*\bsquared\b", "^2"),
)  # fmt: skip
_LIKE = str.maketrans("º˚μ−–‑·⋅×.∕⁄÷", "°°µ---****///")
_WORD = re.compile(r"([^\W\d_]+|°[^\W\d_]*|%)(?:\s*\^\s*([-+]?\d+)|([-+]?\d+)|\s+(-\d+))?")


_OWN_ZERO = frozenset(("°C", "°F"))


@dataclass(frozen=True)
class Unit:
    """`parts` are known units with their powers; `scale` and `base` give its size in base units."""

    parts: Parts
    symbol: str
    scale: Fraction
    base: Parts

    def __hash__(self) -> int:
        return hash(self.symbol)

    @property
    def plain(self) -> bool:
        """Whether a number in it is just that number: no unit, per cent, counted things."""
        return not self.base and self.scale == 1


@lru_cache(maxsize=4096)
def unit_of(text: str) -> Unit:
    """The unit written in a text; "" is a plain number.

    Raises:
        Cannot: it is not a unit in the table.
    """
    if text.strip() == "1":
        raise Cannot(f"{text!r} is no unit")
    return made_of(_read(text)) if text.strip() else PLAIN


def made_of(parts: Iterable[tuple[str, int]]) -> Unit:
    """The product of known units."""
    powers: dict[str, int] = {}
    for symbol, power in parts:
        powers[symbol] = powers.get(symbol, 0) + power
    return _made(tuple((symbol, power) for symbol, power in powers.items() if power))


@lru_cache(maxsize=4096)
def times(one: Unit, other: Unit, power: int = 1) -> Unit:
    """The unit of a product; per cent and counted things are dropped from it."""
    if other.plain:
        return PLAIN if one.plain else one
    mine = () if one.plain else one.parts
    return made_of((*mine, *((symbol, size * power) for symbol, size in other.parts)))


@lru_cache(maxsize=4096)
def root_of(unit: Unit) -> Unit:
    """The unit whose square it is.

    Raises:
        Cannot: there is none.
    """
    if unit.plain:
        return PLAIN
    if any(power % 2 for _, power in unit.parts):
        raise Cannot(f"{unit.symbol} has no square root")
    return made_of((symbol, power // 2) for symbol, power in unit.parts)


@lru_cache(maxsize=4096)
def means(text: str, unit: Unit) -> bool:
    """Whether a text is that unit, in any order or form."""
    try:
        other = unit_of(text)
    except Cannot:
        return False
    if unit.plain or other.plain or other_zero(unit, other):
        return other.symbol == unit.symbol
    return (other.scale, sorted(other.base)) == (unit.scale, sorted(unit.base))


def other_zero(one: Unit, other: Unit) -> bool:
    """Whether they are two temperature scales with different zeros."""
    return one.symbol != other.symbol and not _OWN_ZERO.isdisjoint((one.symbol, other.symbol))


@lru_cache(maxsize=1)
def symbols() -> Mapping[str, tuple[int, str]]:
    """Every symbol: the power of ten its prefix stands for, and the unit it is a multiple of."""
    found = {symbol: (0, symbol) for symbol in _DEFINED}
    for symbol, (_, _, prefixes) in _DEFINED.items():
        for prefix in prefixes:
            shown = _SHOWN.get(prefix + symbol, prefix + symbol)
            found[shown] = (_PREFIXES[prefix][0], symbol)
    return found


@lru_cache(maxsize=1)
def words() -> Mapping[str, str]:
    """Every word for a unit with its symbol."""
    found = {symbol: symbol for symbol in symbols()}
    for symbol, (_, names, prefixes) in _DEFINED.items():
        for name in names.split():
            found |= {name: symbol, name + "s": symbol}
            for prefix in prefixes:
                shown = _SHOWN.get(prefix + symbol, prefix + symbol)
                long = _PREFIXES[prefix][1] + name
                found |= {long: shown, long + "s": shown}
                if len(name) > 2 and name.startswith(symbol):
                    found |= {prefix + name + "s": shown} if name == "mol" else {}
    return found | _OTHER_WORDS


@lru_cache(maxsize=1)
def _folded() -> Mapping[str, str]:
    """Unit words by their lower-case form, without those that become ambiguous."""
    found: dict[str, set[str]] = {}
    for word, symbol in words().items():
        found.setdefault(word.casefold(), set()).add(symbol)
    return {word: min(several) for word, several in found.items() if len(several) == 1}


@lru_cache(maxsize=4096)
def _made(parts: Parts) -> Unit:
    if not parts:
        return PLAIN
    scale, base = Fraction(1), dict[str, int]()
    for symbol, power in parts:
        size, inner = _worth(symbol)
        scale *= size**power
        for name, times_ in inner:
            base[name] = base.get(name, 0) + times_ * power
    return Unit(parts, _spelled(parts), scale, tuple((n, p) for n, p in base.items() if p))


@lru_cache(maxsize=512)
def _worth(symbol: str) -> tuple[Fraction, Parts]:
    """One of a unit in base units, by its definition."""
    power, root = symbols()[symbol]
    definition = _DEFINED[root][0]
    number, _, rest = definition.partition(" ")
    scale = Fraction(10) ** power * (Fraction(number) if number else 1)
    if not definition:
        return scale, ((root, 1),)
    inner = made_of(_read(rest)) if rest else PLAIN
    return scale * inner.scale, inner.base


def _spelled(parts: Parts) -> str:
    """As school science writes it: "mol/dm3", "J/(kg °C)"."""
    above = [name + (str(power) if power > 1 else "") for name, power in parts if power > 0]
    below = [name + (str(-power) if power < -1 else "") for name, power in parts if power < 0]
    if not below:
        return " ".join(above)
    under = below[0] if len(below) == 1 else f"({' '.join(below)})"
    return f"{' '.join(above) or '1'}/{under}"


def _read(text: str) -> list[tuple[str, int]]:
    """The known units of a text with their powers; everything after the first / is divided by."""
    line = unicodedata.normalize("NFKC", text).translate(_LIKE).replace("**", "^").rstrip(" *")
    for pattern, instead in _PHRASES:
        line = re.sub(pattern, instead, line, flags=re.IGNORECASE)
    above, slash, below = line.partition("/")
    out = _product(above, 1, text) if above.strip() not in ("", "1") else []
    if slash:
        for piece in below.split("/"):
            out += _product(piece, -1, text)
    if not out or (slash and not below.strip()):
        raise Cannot(f"{text!r} is no unit")
    return out


def _product(text: str, sign: int, whole: str) -> list[tuple[str, int]]:
    out: list[tuple[str, int]] = []
    rest = text.replace("(", " ").replace(")", " ").replace("*", " ").strip()
    while rest:
        found = _WORD.match(rest)
        if found is None:
            raise Cannot(f"{whole!r} is no unit")
        written = found[2] or found[3] or found[4]
        power = int(written or 1)
        word = "m" if found[1] == "M" and written else found[1]  # no cubic molar: a slip of case
        *before, last = _symbols_of(word, power < 0, whole)
        flip = sign if power > 0 else 1  # kg-1 behind a / is still underneath, once
        out += [(symbol, times_ * sign) for symbol, times_ in before]
        out.append((last[0], last[1] * power * flip))
        rest = rest[found.end() :].strip()
    return out


def _symbols_of(word: str, negative: bool, whole: str) -> list[tuple[str, int]]:
    """The symbols of one word: "moldm" of moldm-3 is two, and so is "ms" of ms-1."""
    if word in _WORTH:
        return list(unit_of(_WORTH[word]).parts)
    if not (negative and word == "ms") and (known := _known(word)):
        return [(known, 1)]
    for cut in range(1, len(word)):
        if word[:cut] in symbols() and word[cut:] in symbols():
            return [(word[:cut], 1), (word[cut:], 1)]
    raise Cannot(f"{whole!r} is no unit: {word!r} is not known")


def _known(word: str) -> str:
    return words().get(word) or (_folded().get(word.casefold(), "") if len(word) > 1 else "")


PLAIN = Unit((), "", Fraction(1), ())
