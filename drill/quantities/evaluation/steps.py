"""An author's working: named steps in order, each result checked against its stated unit."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

from msgspec import Struct

from drill.frozen import replace
from drill.quantities.evaluation.evaluator import evaluate
from drill.quantities.evaluation.scalar_functions import described
from drill.quantities.expressions.nodes import Expression
from drill.quantities.suggest import nearest
from drill.quantities.units.conversion import (
    convert,
    is_plain,
    named,
    ratio,
    same_dimension,
    same_size,
)
from drill.quantities.units.unit_reading import spellings, unit_of
from drill.quantities.values import PLAIN, FactsRow, Fault, Quantity, Unit, Value

_LIKELY = ("dm3", "cm3", "m3", "g", "kg", "mg", "m", "cm", "mm", "s", "min", "mol", "J", "kJ", "A")

_PER_MOLE = (0, 1, 0, 0, 0, -1)  # of g/mol, as in `Unit.dimension`
_DIVIDED = re.compile(r"/\s*(?P<number>\d+(?:\.\d+)?)(?![\w.])")
_MULTIPLIED = re.compile(r"\*\s*(?P<number>\d+(?:\.\d+)?)(?![\w.])")


class Step(Struct, frozen=True):
    """One line of working: `name` is what `is_` comes to, in `unit`.

    `called` is what a pupil would call it; `decimals` or `figures` say how it is shown and never
    round it.
    """

    name: str
    is_: Expression
    unit: str = ""
    called: str = ""
    decimals: int | None = None
    figures: int | None = None
    line: int = 0


def run_steps(
    steps: Sequence[Step],
    givens: Mapping[str, Value],
    fixed: Mapping[str, Value] = {},  # never written to
) -> dict[str, Value] | tuple[str, Fault]:
    """Every value, givens included, after working the steps in order.

    Args:
        steps: each may use the givens and the steps before it.
        givens: drawn and looked-up values.
        fixed: values to use instead of working out the steps of these names.

    Returns:
        name -> value, or (name of the step that could not be worked, why).
    """
    values: dict[str, Value] = dict(givens)
    for step in steps:
        value = fixed[step.name] if step.name in fixed else evaluate(step.is_, values)
        if not isinstance(value, Fault):
            value = _as_claimed(value, step, values, step.name in fixed)
        if isinstance(value, Fault):
            return step.name, value
        values[step.name] = value
    return values


def to_plain(value: Value) -> Value:
    """The same numbers without their units (for wrong routes, which know none)."""
    match value:
        case Quantity():
            return replace(value, unit=PLAIN)
        case FactsRow():
            cells = {name: _plain_cell(cell) for name, cell in value.cells.items()}
            return replace(value, cells=cells)
        case tuple():
            return _plain_items(value)
        case _:
            return value


def _plain_cell(cell: Quantity | str) -> Quantity | str:
    return replace(cell, unit=PLAIN) if isinstance(cell, Quantity) else cell


def _plain_items(items: tuple[Quantity, ...] | tuple[str, ...]) -> Value:
    numbers = tuple(replace(item, unit=PLAIN) for item in items if isinstance(item, Quantity))
    return numbers if len(numbers) == len(items) else items


def _as_claimed(value: Value, step: Step, env: Mapping[str, Value], fixed: bool) -> Value | Fault:
    unit = unit_of(step.unit)
    if unit is None:
        return Fault(f"{step.unit!r} is not a unit we know", 0, nearest(step.unit, spellings()))
    if isinstance(value, Quantity):
        return _fitted(value, unit, step, env, fixed)
    if isinstance(value, tuple) and (step.unit or step.decimals is not None):
        return _fitted_list(value, unit, step, env, fixed)
    if step.unit:
        return Fault(f"only a number has a unit, and this is {described(value)}")
    return value


def _fitted_list(
    values: tuple[Quantity, ...] | tuple[str, ...],
    unit: Unit,
    step: Step,
    env: Mapping[str, Value],
    fixed: bool,
) -> Value | Fault:
    out: list[Quantity] = []
    for value in values:
        if not isinstance(value, Quantity):
            return Fault(f"only a number has a unit, and this is {described(value)}")
        fitted = _fitted(value, unit, step, env, fixed)
        if isinstance(fitted, Fault):
            return fitted
        out.append(fitted)
    return tuple(out)


def _fitted(
    value: Quantity, unit: Unit, step: Step, env: Mapping[str, Value], fixed: bool
) -> Quantity | Fault:
    """The value in the step's unit, shown as the step says; a Fault if the units do not match."""
    if not step.unit and any(value.unit.dimension):
        unit = value.unit  # a value on the way, whose unit nobody claims anything about
    if fixed and same_dimension(value.unit, unit):
        converted = convert(value, unit)
        if isinstance(converted, Fault):
            return converted
        value = converted
    if not same_dimension(value.unit, unit):
        return _other_kind(value.unit, unit, step)
    if not same_size(value.unit, unit):
        return _other_size(value.unit, unit, step, env)
    kept = unit if step.unit or (is_plain(unit) and not value.unit.symbol) else value.unit
    if step.decimals is not None or step.figures is not None:
        return Quantity(value.value, kept, step.decimals, step.figures)
    return replace(value, unit=kept)


def _other_kind(found: Unit, wanted: Unit, step: Step) -> Fault:
    return Fault(
        f"{step.name} comes out in {named(found)}, and its unit is {named(wanted)}",
        hint=_per_amount(found, wanted, step) or f"Check the working: {step.is_.text}",
    )


def _per_amount(found: Unit, wanted: Unit, step: Step) -> str:
    """The hint when a bare number should be a molar mass; "" if that would not help."""
    off = tuple(one - other for one, other in zip(found.dimension, wanted.dimension, strict=True))
    bare = (_DIVIDED if off == _PER_MOLE else _MULTIPLIED).search(step.is_.text)
    if bare is None or off not in (_PER_MOLE, tuple(-power for power in _PER_MOLE)):
        return ""
    return f"Write ({bare['number']} in g/mol) for a mass per amount."


def _other_size(found: Unit, wanted: Unit, step: Step, env: Mapping[str, Value]) -> Fault:
    better = _likeliest(_conversions(found, wanted, step, env), wanted)
    hint = f"Write {better}." if better else f"Write ({step.is_.text}) in {named(wanted)}."
    times = ratio(found, wanted)
    size = f"{1 / times} times smaller" if times < 1 else f"{times} times larger"
    message = f"{step.name} comes out in {named(found)}, and its unit is {named(wanted)}"
    return Fault(f"{message}: each is {size}" if times != 1 else message, hint=hint)


def _likeliest(ways: Iterator[tuple[str, str]], wanted: Unit) -> str:
    """The conversion whose unit occurs in the wanted one: (volume in dm3) for g/dm3."""
    found = [(unit in re.split(r"[^A-Za-z0-9]+", wanted.symbol), name, unit) for name, unit in ways]
    _, name, unit = max(found, key=lambda way: way[0], default=(False, "", ""))
    return f"({name} in {unit})" if name else ""


def _conversions(
    found: Unit, wanted: Unit, step: Step, env: Mapping[str, Value]
) -> Iterator[tuple[str, str]]:
    """Conversions of one of the names that would give the result the right unit."""
    off = ratio(found, wanted)
    for name in sorted(step.is_.names):
        unit = _unit_of_name(name, env)
        for likely in _LIKELY:
            other = unit_of(likely)
            if unit is None or other is None or not same_dimension(unit, other):
                continue
            if ratio(unit, other) in (off, 1 / off):
                yield name, likely


def _unit_of_name(name: str, env: Mapping[str, Value]) -> Unit | None:
    root, _, cell = name.partition(".")
    value = env.get(name, env.get(root))
    if isinstance(value, FactsRow):
        value = value.cells.get(cell)
    return value.unit if isinstance(value, Quantity) else None
