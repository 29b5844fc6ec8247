"""Wrong routes told by the value they give: the author's own, and those any number can suffer."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from drill.marking.numeric.carry_forward import Values, rounded_too_far, slip_from
from drill.marking.numeric.number_reading import TypedNumber
from drill.marking.numeric.rounding import (
    FEWEST,
    is_as_asked,
    is_cut_short,
    is_near,
    is_rounding,
    is_too_short,
    misrounded,
    power_of_ten,
)
from drill.model import NumberKey, Slip
from drill.quantities import show_decimals, show_figures

TOLD_BY = 3  # figures of an answer that tell a value on the way; fewer fit too many of them
_BESIDE_WHOLE = Fraction(1, 10)  # values rounded on the way leave a whole number by no more


@dataclass(frozen=True)
class FoundSlip:
    """A slip by name, the marks its route earns, and the words for it (the point comes first)."""

    id: str
    earns: int
    says: str


def find(
    number: TypedNumber, scale: Fraction, key: NumberKey, exact: Fraction, env: Values
) -> FoundSlip | None:
    """The slip that explains a wrong value, or None. The author's slips go first.

    Args:
        exact: the right value these slips are measured against (the key, or the key carried
            forward), in the key's unit.
        env: the numbers the slips are worked from.
    """
    authored = _worths(key, exact, env)
    slip = _authored(number, scale, key, authored)
    if slip is not None:
        return FoundSlip(slip.id, slip.earns, slip.says)
    read = _nearest_within(number.value * scale, key)
    if read is not None:
        return FoundSlip(read.id, read.earns, read.says)
    common = _common(number, scale, key, exact)
    if common is not None:
        return common
    for worth, slip in authored:
        if is_near(number, worth, scale):
            return FoundSlip(slip.id, slip.earns, slip.says)
    return _on_the_way(number, scale, key, exact, env)


def _authored(
    number: TypedNumber, scale: Fraction, key: NumberKey, worths: list[tuple[Fraction, Slip]]
) -> Slip | None:
    """The author's slip that gives this value: to the last figure first, then rounded."""
    for worth, slip in worths:
        if number.value * scale == worth:
            return slip
    for worth, slip in worths:
        asked = scale == 1 and is_as_asked(number, worth, key.decimals, key.figures)
        if asked or is_rounding(number, worth, scale):
            return slip
    return None


def _on_the_way(
    number: TypedNumber, scale: Fraction, key: NumberKey, exact: Fraction, env: Values
) -> FoundSlip | None:
    """A value on the way rounded to one or two figures; told by three figures of the answer."""
    far = abs(number.value * scale - exact) > abs(exact) / 2
    if far or max(number.figures, default=0) < TOLD_BY:
        return None
    own = {} if exact == key.value else {n: env[n] for n in key.chain.answers.values() if n in env}
    for name, figures, early in rounded_too_far(key, own):
        if early != exact and is_rounding(number, early, scale):
            short = "1 figure" if figures == 1 else f"{figures} figures"
            says = f"It follows from {name} rounded to {short}: keep 3 or more until the end."
            return FoundSlip("rounded-on-the-way", _kept(key), says)
    return None


def _nearest_within(value: Fraction, key: NumberKey) -> Slip | None:
    """The slip whose numbers, read off a graph a little otherwise, give the value."""
    held = [
        slip
        for slip in key.slips
        if slip.low is not None and slip.high is not None and slip.low <= value <= slip.high
    ]
    return min(held, key=lambda slip: abs(slip.value - value), default=None)


def _worths(key: NumberKey, exact: Fraction, env: Values) -> list[tuple[Fraction, Slip]]:
    """The author's slips with their values on these numbers."""
    found: list[tuple[Fraction, Slip]] = []
    for slip in key.slips:
        worth = slip.value if exact == key.value else slip_from(key, slip.gives, env)
        if worth is not None:
            found.append((worth, slip))
    return found


def _common(
    number: TypedNumber, scale: Fraction, key: NumberKey, exact: Fraction
) -> FoundSlip | None:
    """Slips any number can suffer; one mark is lost, so a part of several keeps the others."""
    kept = _kept(key)
    if _is_not_whole(number, scale, key, exact):
        whole = show_decimals(exact, 0)
        return FoundSlip("not-whole", kept, f"A whole number is wanted: round it to {whole}.")
    if scale == 1 and is_cut_short(number, exact, key):
        says = f"Readings that end in 5 keep the 5: {show_decimals(exact, key.decimals or 0)}."
        return FoundSlip("rounded-too-far", kept, says)
    if is_too_short(number, exact, scale):
        longer = show_figures(exact / scale, FEWEST)
        return FoundSlip("rounded-too-far", kept, f"Rounded too far: to 2 figures it is {longer}.")
    other = misrounded(number, exact, scale)
    if other is not None:
        says = f"{other.exact} rounds to {other.right}, not {number.raw}."
        return FoundSlip("cut-off" if other.cut else "rounded-up", kept, says)
    if key.unit == "%" and is_near(number, exact / 100, scale):
        return FoundSlip("no-times-100", kept, "Not multiplied by 100: a percentage needs it.")
    power = power_of_ten(number, exact, scale)
    if power is not None:
        side = "large" if power > 0 else "small"
        times = f"{10 ** abs(power):,}"
        says = f"Right digits, {times} times too {side}: check the units and the powers of ten."
        return FoundSlip("power-of-ten", kept, says)
    if number.value and is_near(number, -exact, scale):
        return FoundSlip("sign", kept, "The sign is the wrong way round.")
    return None


def _is_not_whole(number: TypedNumber, scale: Fraction, key: NumberKey, exact: Fraction) -> bool:
    """6.99 or 7.01 where a whole number is asked: the route is right, the rounding is missing."""
    if scale != 1 or key.unit or exact.denominator != 1 or key.decimals not in (None, 0):
        return False
    return number.value.denominator != 1 and abs(number.value - exact) <= _BESIDE_WHOLE


def _kept(key: NumberKey) -> int:
    """What is left when one mark is lost; the method is never lost with it."""
    method, value = key.award.get("method", 0), key.award.get("value", 0)
    return max(method, method + value - 1)


def contradicts(number: TypedNumber, key: NumberKey, right: bool = True) -> FoundSlip:
    """A unit that measures something other than what is asked for.

    Beside the `right` number it costs the value's mark; the method stays.
    """
    earns = key.award.get("method", 0) if right else 0
    if not key.unit:
        says = f"No unit belongs here: {number.unit} is one too many. Type the number alone."
        return FoundSlip("unit", earns, says)
    return FoundSlip("unit", earns, f"{number.unit} does not measure this: the unit is {key.unit}.")


def other_size(number: TypedNumber, key: NumberKey) -> FoundSlip:
    """The right number beside a unit of another size than the one it was worked out in."""
    if not key.unit:
        return contradicts(number, key)
    says = f"The number fits {key.unit}, not {number.unit}: the unit is wrong."
    return FoundSlip("unit", _kept(key), says)


def impossible(part: str) -> FoundSlip:
    """A negative mass, volume or amount carried on from an earlier part."""
    says = f"You cannot have less than nothing left: look at part ({part}) again."
    return FoundSlip("less-than-nothing", 0, says)
