"""An author's [work]: steps in order, each checked against the unit it says it has."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from drill.quantities.evaluate import evaluate
from drill.quantities.parser import Expression
from drill.quantities.unit_reading import unit_of
from drill.quantities.units import convert, is_plain, named
from drill.quantities.values import PLAIN, Fault, Quantity, Unit, Value

if TYPE_CHECKING:
    from collections.abc import Sequence


@dataclass(frozen=True)
class Step:
    """One line of [work]. `called` is its name in words; `decimals`/`figures` how it is shown."""

    name: str
    is_: Expression
    unit: str = ""
    called: str = ""
    decimals: int | None = None
    figures: int | None = None
    line: int = 0


def run_steps(
    steps: Sequence[Step], givens: Mapping[str, Value], fixed: Mapping[str, Value] | None = None
) -> dict[str, Value] | tuple[str, Fault]:
    """All names with their values: the givens, then every step in order.

    Args:
        fixed: steps whose value is given from outside (a learner's own) instead of being worked.

    Returns:
        the values, or (name of the step, what is wrong with it).
    """
    values: dict[str, Value] = dict(givens)
    outside = fixed or {}
    for step in steps:
        if step.name in outside:
            values[step.name] = outside[step.name]
            continue
        result = evaluate(step.is_, values)
        if not isinstance(result, Fault):
            result = _checked(step, result)
        if isinstance(result, Fault):
            return step.name, result
        values[step.name] = result
    return values


def _checked(step: Step, result: Value) -> Value | Fault:
    """The result in the step's unit; another size or kind of unit is a fault that names both."""
    if not isinstance(result, Quantity):
        return result
    decimals = step.decimals if step.decimals is not None else result.decimals
    if not step.unit:
        return replace(result, decimals=decimals)
    wanted = unit_of(step.unit)
    if wanted is None:
        return Fault(f'"{step.unit}" is no unit')
    return _in_unit(step, result, wanted, decimals)


def _in_unit(step: Step, result: Quantity, wanted: Unit, decimals: int | None) -> Value | Fault:
    if is_plain(result.unit) and result.value == 0:
        return Quantity(result.value, wanted, decimals)
    if result.unit.dimension != wanted.dimension:
        return Fault(
            f'"{step.name}" works out in {named(result.unit)} but its unit is {step.unit}',
            0,
            "The two do not measure the same thing: check the formula or the unit.",
        )
    if result.unit.scale != wanted.scale:
        return Fault(
            f'"{step.name}" works out in {named(result.unit)}, which is '
            f"{result.unit.scale / wanted.scale} of {step.unit}",
            0,
            "Convert inside the formula, as (volume in dm3).",
        )
    moved = convert(result, wanted)
    return moved if isinstance(moved, Fault) else replace(moved, decimals=decimals)


def to_plain(value: Value) -> Value:
    """The same number without its unit; lists item by item; anything else as it is."""
    if isinstance(value, Quantity):
        return Quantity(value.value, PLAIN, value.decimals)
    if isinstance(value, tuple):
        plain = [to_plain(item) for item in value]
        if all(isinstance(item, Quantity) for item in plain):
            return tuple(item for item in plain if isinstance(item, Quantity))
    return value
