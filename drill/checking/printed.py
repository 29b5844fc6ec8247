"""A pupil works with the numbers as they are printed: those must lead to the same answer."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from drill.checking.report import Finding
from drill.generate import names_in
from drill.marking import mark
from drill.model import Chain, NumberKey, Part, PartSpec, Question, Template
from drill.quantities import (
    PLAIN,
    Fault,
    Quantity,
    Value,
    convert,
    evaluate,
    half_up,
    run_steps,
    show,
    to_figures,
    unit_of,
)


@dataclass(frozen=True)
class _Rounded:
    """A value that is printed otherwise than it is: its name, the number a pupil sees."""

    name: str
    printed: Quantity


def printed_numbers_lead_there(template: Template, question: Question) -> Iterator[Finding]:
    """Every printed value says how many decimals it has, and the answer follows from those."""
    keyed = [
        (spec, part, part.key)
        for spec, part in zip(template.parts, question.parts, strict=True)
        if isinstance(part.key, NumberKey)
    ]
    if not keyed:
        return
    chain = keyed[0][2].chain
    values = run_steps(chain.steps, chain.givens)
    if isinstance(values, tuple):
        return
    rounded = [one for name in _printed(template) if (one := _rounded(name, values))]
    for one in rounded:
        if one.printed.decimals is None and one.printed.figures is None:
            line = next((step.line for step in template.work if step.name == one.name), 0)
            says = f'"{one.name}" is printed as {show(one.printed)}, and its value goes on.'
            hint = "Give it decimals or figures, or round it."
            yield Finding(f"endless {one.name}", line, says, hint)
    for spec, part, key in keyed:
        others = [one for one in rounded if one.name not in key.answer.names]
        if others:
            yield from _led_astray(spec, part, key, others)


def _printed(template: Template) -> frozenset[str]:
    texts = (template.stem, *(part.ask for part in template.parts))
    return frozenset(name for text in texts for name in names_in(text))


def _rounded(name: str, values: Mapping[str, Value]) -> _Rounded | None:
    value = values.get(name)
    if not isinstance(value, Quantity):
        return None
    if value.decimals is not None:
        seen = half_up(value.value, value.decimals)
    elif value.figures is not None:
        seen = to_figures(value.value, value.figures)
    else:
        seen = value.value if _ends(value.value) else to_figures(value.value, 4)
    return None if seen == value.value else _Rounded(name, replace(value, value=seen))


def _ends(value: Fraction) -> bool:
    return (value * 10**6).denominator == 1


def _led_astray(
    spec: PartSpec, part: Part, key: NumberKey, rounded: list[_Rounded]
) -> Iterator[Finding]:
    """The answer worked from the printed numbers, marked like a pupil's."""
    answer = _from_printed(key, key.chain, {one.name: one.printed for one in rounded})
    if answer is None:
        return
    typed = show(Quantity(answer, PLAIN, key.decimals, key.figures or _figures(key)), unit=False)
    typed = f"{typed} {key.unit}".strip()
    got = mark(part, typed)
    if got.marks != part.marks:
        names = ", ".join(f'"{one.name}" {show(one.printed)}' for one in rounded)
        says = (
            f"with the printed numbers ({names}) part {part.id} comes to {typed}, which earns "
            f"{got.marks} of {part.marks}."
        )
        hint = "Work the key from the rounded value: round(…) in [work]."
        yield Finding(f"printed {part.id}", spec.line, says, hint)


def _figures(key: NumberKey) -> int | None:
    return None if key.decimals is not None or _ends(key.value) else 3


def _from_printed(key: NumberKey, chain: Chain, printed: Mapping[str, Value]) -> Fraction | None:
    givens = {name: printed.get(name, value) for name, value in chain.givens.items()}
    steps = {step.name for step in chain.steps}
    fixed = {name: value for name, value in printed.items() if name in steps}
    values = run_steps(chain.steps, givens, fixed)
    value = Fault("") if isinstance(values, tuple) else evaluate(key.answer, values)
    if not isinstance(value, Quantity):
        return None
    unit = unit_of(key.unit)
    moved = convert(value, unit) if unit and any(value.unit.dimension) else value
    return moved.value if isinstance(moved, Quantity) else None
