"""What was typed, read as numbers with units: the last value counts, the rest is working.

    "31.42 - 29.87 = 1.55 g"  ->  value 1.55 g, working "31.42 - 29.87"

Nothing typed is evaluated here; a literal is turned into an exact `Fraction` by hand.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from drill.marking.numeric.sum_text import COUNTED, plain_sums

_MOST_DIGITS = 30
_MOST_POWER = 40

_DIGITS = r"(?:\d{1,3}(?:,\d{3})+(?![\d,])|\d{1,3}(?: \d{3})+(?![\d])|\d+)"
_PLAIN = rf"(?:{_DIGITS}(?:\.\d*)?|\.\d+)"
# "x 10-3" is a power too; "x 10 3" and "x 103" are not
_POWER = (
    r"(?:\s*(?:[x*]\s*10\s*(?:(?:\^|\*\*|to the power(?: of)?)\s*[({]?\s*(?P<power>[-+]?\d{1,4})"
    r"\s*[)}]?|(?P<bare>-\d{1,2})(?![\d.]))|[eE](?P<e>[-+]?\d{1,4})))"
)
_NUMBER = re.compile(
    r"(?P<ten>(?<![\d.])10)\s*(?:\^|\*\*)\s*\(?(?P<tenpower>[-+]?\d{1,4})\)?"
    rf"|(?P<mantissa>{_PLAIN}){_POWER}?",
)
_MIXED = re.compile(r"(?P<whole>\d{1,6})\s+(?P<top>\d{1,6})/(?P<bottom>\d{1,6})(?![\d.])")
_FRACTION = re.compile(r"(?P<top>\d{1,9})\s*/\s*(?P<bottom>\d{1,9})(?![\d.]|\s*[/*x^])")
_RATIO = re.compile(r"(?P<top>\d{1,6}(?:\.\d{1,6})?)\s*:\s*(?P<bottom>\d{1,6}(?:\.\d{1,6})?)")
_COMMA = re.compile(r"(?<![\d,.])\d+,\d+(?!\d|,|\.\d)")
_THOUSANDS = re.compile(r"[1-9]\d{0,2}(?:,\d{3})+$")
_UNIT_WORD = re.compile(
    r"\s*(?:[^\W\d_]+(?:\s?\^?-?\d(?!\.?\d))?|[°%µ]+[^\W\d_]*(?:\^?-\d(?!\.?\d))?"
    r"|1\s?(?=/\s?[^\W\d_])|[/·*()]|\^)"
)
_MOST_UNIT_WORDS = 14
_PERCENT = re.compile(r"\s*(?:%|\(\s*%\s*\)|percent\b|per cent\b|pc\b)", re.IGNORECASE)
_SPREAD = re.compile(r"\s*±\s*")
# the 3 and the 4 of "Na2CO3: 4.5 g" and "MgSO4.7H2O" are part of a formula
_IN_WORD = re.compile(r"\d+(?:\.(?=\d+\s*H2?O))?")
_WORDS = {word: Fraction(value) for word, value in COUNTED.items()} | {
    "half": Fraction(1, 2),
    "quarter": Fraction(1, 4),
    "double": Fraction(2),
    "none": Fraction(0),
}


@dataclass(frozen=True)
class TypedNumber:
    """One number as typed, with whatever unit stands behind it.

    `value` is in `unit` as typed; `places` are the decimal places it may be rounded to (several
    when zeros end a whole number; none for a fraction or ratio, which are exact).
    """

    raw: str
    value: Fraction
    unit: str
    places: tuple[int, ...]
    figures: tuple[int, ...]
    start: int
    end: int

    @property
    def percent(self) -> bool:
        return self.unit == "%"


@lru_cache(maxsize=64)
def numbers_in(text: str) -> tuple[TypedNumber, ...]:
    """Every number in `text`, left to right, signs and units read, ± parts left out."""
    found: list[TypedNumber] = []
    position = 0
    while position < len(text):
        number = _next(text, position)
        if number is None:
            break
        position = max(number.end, position + 1)
        spread = _SPREAD.match(text, position)
        if spread:
            uncertainty = _next(text, spread.end())
            if uncertainty is not None and uncertainty.start == spread.end():
                position = uncertainty.end
                number = _with_unit_of(number, uncertainty)
        found.append(number)
    return tuple(found)


def _with_unit_of(number: TypedNumber, other: TypedNumber) -> TypedNumber:
    """12.4 ± 0.2 cm3: the unit stands behind the second number and means both."""
    if number.unit or not other.unit:
        return number
    return TypedNumber(
        number.raw, number.value, other.unit, number.places, number.figures, number.start, other.end
    )


def _next(text: str, position: int) -> TypedNumber | None:
    match = _first(text, position)
    while match is not None and _inside_word(text, match.start()):
        part = _IN_WORD.match(text, match.start())
        match = _first(text, part.end() if part else match.end())
    if match is None:
        return None
    start, sign = _sign(text, match.start(), position)
    value, places, figures = _value(match)
    if value is None:
        return _next(text, match.end())
    unit, end = _unit(text, match.end())
    raw = text[start : match.end()].strip()
    return TypedNumber(raw, sign * value, unit, places, figures, start, end)


def _first(text: str, position: int) -> re.Match[str] | None:
    """The next literal: mixed number, fraction or ratio where one stands, else a plain number."""
    match = _NUMBER.search(text, position)
    if match is None:
        return None
    for pattern in (_MIXED, _FRACTION, _RATIO):
        longer = pattern.match(text, match.start())
        if longer and longer.end() > match.end() and int(Fraction(longer["bottom"]) * 10**6):
            return longer
    return match


def _inside_word(text: str, start: int) -> bool:
    """The 2 of H2O or cm2 is no number of its own; that of x=2 is."""
    return start > 0 and (text[start - 1].isalpha() or text[start - 1] in "^_")


def _sign(text: str, start: int, position: int) -> tuple[int, int]:
    """Where the literal begins, and its sign; a minus after a value is an operator."""
    before = text[position:start].rstrip()
    if not before or before[-1] not in "+-":
        return start, 1
    ahead = before[:-1].rstrip()
    if ahead and (ahead[-1].isalnum() or ahead[-1] in ")%°."):
        return start, 1
    if position and not ahead:
        return start, 1
    return position + len(before) - 1, -1 if before[-1] == "-" else 1


def _value(match: re.Match[str]) -> tuple[Fraction | None, tuple[int, ...], tuple[int, ...]]:
    groups = match.groupdict()
    if groups.get("bottom") is not None:
        top, bottom = Fraction(groups["top"]), Fraction(groups["bottom"])
        if ":" in match[0] and bottom == 1:  # "1.3 : 1" is 1.3, rounded where it was typed
            return _literal(groups["top"], 0)
        return Fraction(groups.get("whole") or 0) + top / bottom, (), ()
    if groups["ten"] is not None:
        power = int(groups["tenpower"])
        if abs(power) > _MOST_POWER:
            return None, (), ()
        return Fraction(10) ** power, (-power,), (1,)
    return _literal(groups["mantissa"], int(groups["power"] or groups["bare"] or groups["e"] or 0))


def _literal(mantissa: str, power: int) -> tuple[Fraction | None, tuple[int, ...], tuple[int, ...]]:
    digits = mantissa.replace(",", "").replace(" ", "")
    if len(digits) > _MOST_DIGITS or abs(power) > _MOST_POWER:
        return None, (), ()
    whole, _, after = digits.partition(".")
    value = Fraction(int(whole + after or "0"), 10 ** len(after)) * Fraction(10) ** power
    significant = (whole + after).lstrip("0")
    if "." in digits:
        return value, (len(after) - power,), (len(significant),)
    spare = len(significant) - len(significant.rstrip("0")) if significant else 0
    places = tuple(-power - zeros for zeros in range(spare + 1))
    return value, places, tuple(len(significant) - zeros for zeros in range(spare + 1))


def _unit(text: str, position: int) -> tuple[str, int]:
    """The longest known unit that stands at `position`, and where it ends."""
    percent = _PERCENT.match(text, position)
    if percent:
        return "%", percent.end()
    ends: list[int] = []
    end = position
    while len(ends) < _MOST_UNIT_WORDS and (match := _UNIT_WORD.match(text, end)):
        end = match.end()
        ends.append(end)
    for end in reversed(ends):
        candidate = text[position:end].strip()
        if candidate and known_unit(candidate):
            return candidate, end
    return "", position


@lru_cache(maxsize=4096)
def known_unit(text: str) -> bool:
    """Whether a unit is spelled like this (without regard to case where case means nothing)."""
    from drill.quantities import unit_of

    return len(text) <= 40 and unit_of(text) is not None


def comma_decimal(text: str) -> str | None:
    """The point form of a decimal typed with a comma ("3,5" -> "3.5"); thousands are not one."""
    for match in _COMMA.finditer(text):
        if not _THOUSANDS.match(match[0]):
            return match[0].replace(",", ".")
    return None


def worded(text: str) -> TypedNumber | None:
    """A number in words ("three", "half"), when that is all there is."""
    for match in re.finditer(r"[a-z]+", text.lower()):
        if match[0] in _WORDS:
            unit, end = _unit(text, match.end())
            value = _WORDS[match[0]]
            return TypedNumber(match[0], value, unit, (), (), match.start(), end)
    return None


def plain(text: str) -> str:
    """Superscripts written out and every sum in one writing, so that 10⁻³ and 2·5 can be read."""
    return plain_sums(text)
