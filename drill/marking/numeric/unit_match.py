"""A typed number beside the key's unit: converted, left out, or measuring something else."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from drill.marking.numeric.number_reading import TypedNumber
from drill.model import NumberKey
from drill.quantities import PLAIN, Unit, same_dimension, unit_of
from drill.subjects import Unitless, every


@dataclass(frozen=True)
class InUnit:
    """`scale`: the key's units in one typed unit.

    `unit` is "right", "missing", "other" (another size of the same thing, number unconverted),
    "ignored" (beside what has none, whose name is in `beside`) or "wrong" (it measures something
    else).
    """

    scale: Fraction
    unit: str
    beside: str = ""


_UNITLESS = tuple(one.unitless for one in every() if one.unitless)
WRONG = InUnit(Fraction(1), "wrong")
UNCONVERTED = InUnit(Fraction(1), "other")


def in_unit(number: TypedNumber, key: NumberKey, ask: str = "") -> InUnit:
    """How the typed unit stands to the key's.

    Args:
        ask: the words of the question, which may make another unit right too: "the energy that 1 g
            gave" is in kJ as well as in kJ/g, and what has no unit is often given one.
    """
    if not number.unit:
        return InUnit(Fraction(1), "missing")
    if number.percent or key.unit == "%":
        return _percent(number, key)
    typed, wanted = unit_of(number.unit), unit_of(key.unit) or PLAIN
    if typed and typed.symbol == "°" and wanted.symbol == "°C":  # "21.5 degrees"
        return InUnit(Fraction(1), "right")
    if typed is None:
        return WRONG
    if not same_dimension(typed, wanted):
        return _by_the_question(typed, number.unit, key, ask)
    return InUnit(typed.scale / wanted.scale, "right")


def _by_the_question(typed: Unit, number_unit: str, key: NumberKey, ask: str) -> InUnit:
    """A unit that the question's own words allow though the key has another."""
    bare = None if key.unit else _unitless(ask)
    if bare:
        known = [unit_of(name) for name in bare.units]
        fits = any(one is not None and one.symbol == typed.symbol for one in known)
        return InUnit(Fraction(1), "ignored", bare.name) if fits else WRONG
    if not key.unit and "/" in number_unit and "divided by" in ask:
        return InUnit(Fraction(1), "right")  # a quotient of two columns, with the unit it has
    above, _, below = key.unit.partition("/")
    whole = unit_of(above)
    if not below or whole is None or not same_dimension(typed, whole):
        return WRONG
    of_one = re.search(rf"\b(?:1|one|each|every|per)\s+{re.escape(below)}\b", ask)
    return InUnit(typed.scale / whole.scale, "right") if of_one else WRONG


def _unitless(ask: str) -> Unitless | None:
    """What the last sentence of a question asks for, if a science says that it has no unit."""
    last = ask.rstrip(" .?!").rpartition("\n")[2]
    return next((one for one in _UNITLESS if re.search(one.asked, last, re.IGNORECASE)), None)


def _percent(number: TypedNumber, key: NumberKey) -> InUnit:
    if not number.percent or key.unit not in ("", "%"):
        return WRONG
    return InUnit(Fraction(1) if key.unit else Fraction(1, 100), "right")


def chosen_among(
    rivals: tuple[TypedNumber, ...], key: NumberKey, ask: str = ""
) -> TypedNumber | None:
    """The one meant among several: all the same quantity, or one alone in the key's kind of unit.

    "45 % (0.45)" and "4.12 g, 4120 mg" say one thing twice; "0.025 mol, 6.24 g" answers in g.
    """
    if not rivals:
        return None
    if all(_same(rivals[0], other, key) for other in rivals[1:]):
        return rivals[0]
    fitting = [number for number in rivals if in_unit(number, key, ask).unit == "right"]
    every_one_has_a_unit = all(number.unit for number in rivals)
    return fitting[0] if len(fitting) == 1 and every_one_has_a_unit else None


def _same(one: TypedNumber, other: TypedNumber, key: NumberKey) -> bool:
    """Whether two typed numbers are the same quantity; a percentage is a number of hundredths."""
    if one.percent != other.percent and not (one.unit and other.unit):
        return _bare(one) == _bare(other)
    return one.value * in_unit(one, key).scale == other.value * in_unit(other, key).scale


def _bare(number: TypedNumber) -> Fraction:
    return number.value / 100 if number.percent else number.value
