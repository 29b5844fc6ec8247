"""Method marks for working that was typed: each step on the way to the key earns one.

A step is earned by a calculation that comes to its value, or by its value stated with what it is.
A step worked wrongly but carried on rightly loses itself alone: later ones are worked from what the
learner wrote. A calculation that leads to a known wrong answer earns nothing here.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from drill.marking.numeric.calculations import Calculation, calculations
from drill.marking.numeric.carry_forward import answer_from, between, worked
from drill.marking.numeric.number_reading import TypedNumber
from drill.model import NumberKey
from drill.quantities import Quantity, Unit, Value, same_dimension, unit_of

_MOST = 24  # calculations read
_TOLERANCE = Fraction(1, 200)
_FEWEST = 2  # figures a value that is only stated needs: a bare 2 may be anything


@dataclass(frozen=True)
class Method:
    """Marks that typed working earns, and the calculations read for them."""

    marks: int = 0
    read: tuple[str, ...] = ()

    @property
    def because(self) -> str:
        """The calculations, in quotes: what the mark was given for."""
        return "; ".join(f'"{piece}"' for piece in self.read)


def method_read(key: NumberKey, text: str, own: Mapping[str, Value] = {}) -> Method:
    """Marks for method: all when a calculation gives the answer, one for each step on the way.

    Args:
        own: values of earlier parts as the learner had them, to stand for the right ones.
    """
    most = key.award.get("method", 0)
    if not most:
        return Method()
    way = _Way(key, dict(own))
    for one in calculations(text)[:_MOST]:
        if one.sum and way.leads_to_answer(one):
            return Method(most, (one.shown,))
        way.follow(one)
    return Method(min(most, len(way.reached)), tuple(dict.fromkeys(way.reached.values()))[:most])


@dataclass
class _Way:
    """The steps to the answer, worked with what the learner wrote on the way."""

    key: NumberKey
    fixed: dict[str, Value]
    reached: dict[str, str] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.steps = between(self.key)
        self.given = {v.value for v in self.key.chain.givens.values() if isinstance(v, Quantity)}
        self.env = worked(self.key.chain, self.fixed)

    def leads_to_answer(self, one: Calculation) -> bool:
        """Whether it comes to the key, on the learner's own numbers too, and to no known slip."""
        answer = answer_from(self.key, self.env)
        if answer is None:
            return False
        unit = unit_of(self.key.unit)
        return any(
            _is_near(value, exact) and not self._is_slip(value, exact)
            for value in _in_unit(one, unit)
            for exact in {answer, self.key.value}
        )

    def _is_slip(self, value: Fraction, exact: Fraction) -> bool:
        """Whether a known wrong route lies nearer than the right one."""
        routes = [slip.value for slip in self.key.slips if slip.earns < 1]
        return any(abs(value - route) < abs(value - exact) for route in routes)

    def follow(self, one: Calculation) -> None:
        """Marks the step it comes to, and works the next ones from the result that was written."""
        for name in self.steps:
            step = self.env.get(name)
            if name in self.reached or not isinstance(step, Quantity) or not step.value:
                continue
            if any(_is_near(value, step.value) for value in self._worth(one, step.unit)):
                self.reached[name] = one.shown
                self._carry(name, step, one.result if one.sum else None)
                return

    def _worth(self, one: Calculation, unit: Unit) -> tuple[Fraction, ...]:
        """What it comes to as that step: nothing for a number that only repeats what was given."""
        if not one.sum:
            (number,) = one.numbers
            if number.value in self.given or max(number.figures, default=_FEWEST) < _FEWEST:
                return ()
        return _in_unit(one, unit)

    def _carry(self, name: str, step: Quantity, result: TypedNumber | None) -> None:
        if result is None or _is_near(result.value, step.value):
            return
        if any(_is_near(value, step.value) for value in _scaled(result.value, result, step.unit)):
            return
        self.fixed[name] = Quantity(result.value, step.unit)
        self.env = worked(self.key.chain, self.fixed)


def _in_unit(one: Calculation, unit: Unit | None) -> tuple[Fraction, ...]:
    """What it comes to, as it stands and in the unit when its result names another size of it."""
    named = one.result if one.sum else one.numbers[0]
    found: Iterable[Fraction] = one.values
    return tuple(v for value in found for v in _scaled(value, named, unit))


def _scaled(value: Fraction, named: TypedNumber | None, unit: Unit | None) -> tuple[Fraction, ...]:
    typed = unit_of(named.unit) if named and named.unit else None
    if typed is None or unit is None or typed.scale == unit.scale:
        return (value,)
    if not same_dimension(typed, unit):
        return (value,)
    return value, value * typed.scale / unit.scale


def _is_near(value: Fraction, exact: Fraction) -> bool:
    """The same but for rounding on the way."""
    return abs(value - exact) <= _TOLERANCE * abs(exact)
