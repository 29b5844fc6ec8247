"""An exact number in a unit, and the arithmetic of such numbers."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Context, Decimal
from fractions import Fraction

from drill.judge.cannot import Cannot
from drill.judge.rounding import written
from drill.judge.units import PLAIN, Unit, other_zero, root_of, times

ROOT_FIGURES = 40  # of a root or a logarithm that does not end
_LARGEST_POWER = 64
_MOST_BITS = 7000  # about 2000 digits


@dataclass(frozen=True, slots=True)
class Amount:
    """`number` of `unit`; `places` or `figures` say how it is shown and do not round it."""

    number: Fraction
    unit: Unit = PLAIN
    places: int | None = None
    figures: int | None = None

    @property
    def size(self) -> Fraction:
        """In base units, to be compared across units."""
        return self.number * self.unit.scale

    def shown(self, unit: bool = True) -> str:
        """As a reader sees it: "12.40 g"."""
        number = written(self.number, self.places, self.figures)
        return f"{number} {self.unit.symbol}" if unit and self.unit.symbol else number


Row = Mapping[str, Amount | str]
Value = Amount | str | bool | Row | tuple[Amount, ...] | tuple[str, ...]


def bare(value: Value) -> Value:
    """The same numbers without their units."""
    if isinstance(value, Amount):
        return replace(value, unit=PLAIN)
    if isinstance(value, tuple):
        return tuple(bare(item) for item in value)  # type: ignore[return-value]
    if isinstance(value, Mapping):
        return {name: bare(cell) for name, cell in value.items()}  # type: ignore[misc]
    return value


def alike(one: Unit, other: Unit) -> bool:
    """Whether both measure the same kind of thing."""
    return one.base == other.base or sorted(one.base) == sorted(other.base)


def shared(one: Unit, other: Unit) -> Unit:
    """The unit in which two amounts are added.

    Raises:
        Cannot: they differ in kind or in size.
    """
    same = alike(one, other) and one.scale == other.scale and not other_zero(one, other)
    if one is not other and not same:
        raise Cannot(f"{one.symbol or 'a plain number'} and {other.symbol or 'a plain number'}")
    return one if one.symbol or not other.symbol else other


def turned(amount: Amount, unit: Unit) -> Amount:
    """The same amount in another unit of its kind.

    Raises:
        Cannot: it measures something else.
    """
    if amount.unit is unit or amount.unit.symbol == unit.symbol:
        return amount
    if not alike(amount.unit, unit) or other_zero(amount.unit, unit):
        raise Cannot(f"{amount.unit.symbol or 'a plain number'} is not turned into {unit.symbol}")
    if amount.unit.scale == unit.scale:
        return replace(amount, unit=unit)
    return Amount(amount.size / unit.scale, unit)


def plus(one: Amount, other: Amount) -> Amount:
    """Their sum, shown to the larger number of decimal places of the two."""
    places = None
    if one.places is not None and other.places is not None:
        places = max(one.places, other.places)
    return Amount(one.number + other.number, shared(one.unit, other.unit), places)


def minus(one: Amount, other: Amount) -> Amount:
    """Their difference."""
    return plus(one, replace(other, number=-other.number))


def product(one: Amount, other: Amount) -> Amount:
    """One times the other, units and all."""
    return Amount(one.number * other.number, times(one.unit, other.unit))


def quotient(one: Amount, other: Amount) -> Amount:
    """One over the other, units and all."""
    if not other.number:
        raise Cannot("nothing is divided by zero")
    return Amount(one.number / other.number, times(one.unit, other.unit, -1))


def power(base: Amount, exponent: Amount) -> Amount:
    """A whole power, or a square root as the power of a half."""
    if not exponent.unit.plain:
        raise Cannot("an exponent has no unit")
    if exponent.number == Fraction(1, 2):
        return root(base)
    raised = exponent.number
    if raised.denominator != 1 or abs(raised) > _LARGEST_POWER or (raised < 0 and not base.number):
        raise Cannot(f"no power {raised}")
    bits = max(base.number.numerator.bit_length(), base.number.denominator.bit_length())
    if bits > 1 and bits * abs(raised) > _MOST_BITS:
        raise Cannot("the number grows beyond all use")
    unit = times(PLAIN, base.unit, int(raised)) if raised else PLAIN
    return Amount(base.number ** int(raised), unit)


def root(amount: Amount) -> Amount:
    """The square root, exact where it is a fraction."""
    if amount.number < 0:
        raise Cannot("a negative number has no square root")
    number = _decimal(amount.number).sqrt(Context(prec=ROOT_FIGURES + 10))
    near = Fraction(number).limit_denominator(10**12)
    if near * near == amount.number:
        return Amount(near, root_of(amount.unit))
    return Amount(_to_root_figures(number), root_of(amount.unit))


def logarithm(amount: Amount) -> Amount:
    """The power of ten that gives it."""
    if not amount.unit.plain or amount.number <= 0:
        raise Cannot("a logarithm is that of a plain number above zero")
    return Amount(_to_root_figures(_decimal(amount.number).log10(Context(prec=ROOT_FIGURES + 10))))


def _decimal(value: Fraction) -> Decimal:
    return Context(prec=ROOT_FIGURES + 10).divide(
        Decimal(value.numerator), Decimal(value.denominator)
    )


def _to_root_figures(number: Decimal) -> Fraction:
    return Fraction(Context(prec=ROOT_FIGURES).plus(number))


def several(values: Sequence[Value]) -> tuple[Amount, ...]:
    """Checks that amounts can form one list: at least one, all in units of the same size.

    Raises:
        Cannot: they cannot.
    """
    found = tuple(value for value in values if isinstance(value, Amount))
    if not found or len(found) < len(values):
        raise Cannot("a list of numbers is wanted")
    for other in found[1:]:
        shared(found[0].unit, other.unit)
    return found
