"""Checks that the numbers as printed lead to the same answer, since a pupil works with those."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from drill.checking.report import Finding
from drill.frozen import replace
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
    """A value that was rounded when printed: its name, and the number a pupil sees."""

    name: str
    printed: Quantity
    exact: Fraction
    line: int = 0


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
    lines = {step.name: step.line for step in template.work}
    rounded = [
        replace(one, line=lines.get(name, 0))
        for name in sorted(_printed(template))
        if (one := _rounded(name, values))
    ]
    for one in rounded:
        if one.printed.decimals is None and one.printed.figures is None:
            says = f'"{one.name}" is printed as {show(one.printed)}, and its value goes on.'
            hint = "Give it decimals or figures, or round it."
            yield Finding(f"endless {one.name}", one.line, says, hint)
    for spec, part, key in keyed:
        others = [one for one in rounded if one.name != key.answer.text.strip()]
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
    return None if seen == value.value else _Rounded(name, replace(value, value=seen), value.value)


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
    if key.low is None and not _same(answer, key):
        yield from _worked_from_unrounded(part, key, rounded, _shown(key, answer))
    elif got.marks != part.marks:
        names = ", ".join(f'"{one.name}" {show(one.printed)}' for one in rounded)
        says = (
            f"with the printed numbers ({names}) part {part.id} comes to {typed}, which earns "
            f"{got.marks} of {part.marks}."
        )
        hint = "Work the key from the rounded value: round(…) in [work]."
        yield Finding(f"printed {part.id}", spec.line, says, hint)


def _worked_from_unrounded(
    part: Part, key: NumberKey, rounded: list[_Rounded], typed: str
) -> Iterator[Finding]:
    """The marker accepts intermediate rounding, but the worked answer would show another number.

    Names the printed value that alone leads to another number; all of them if none does alone.
    """
    alone = [one for one in rounded if not _same_from(key, [one])]
    for one in alone or rounded:
        shown, exact = show(one.printed), _longer(one)
        says = f"{one.name} is printed as {shown} but is {exact}, and part {part.id} is worked"
        says += f" from it: what is printed leads to {typed}, the key is {_shown(key, key.value)}."
        places = one.printed.decimals
        hint = "Write round(…) in its formula." if places is None else f"Write round(…, {places})."
        yield Finding(f"unrounded {one.name} {part.id}", one.line, says, hint)


def _longer(one: _Rounded) -> str:
    """The value itself, to three figures more than are printed."""
    extra = 3 if one.printed.decimals is None else one.printed.decimals + 3
    return show(replace(one.printed, value=one.exact, decimals=extra, figures=None))


def _same_from(key: NumberKey, printed: list[_Rounded]) -> bool:
    answer = _from_printed(key, key.chain, {one.name: one.printed for one in printed})
    return answer is None or _same(answer, key)


def _same(answer: Fraction, key: NumberKey) -> bool:
    """Whether both are written alike, to the places or figures asked for, else to 3 figures."""
    return _shown(key, answer) == _shown(key, key.value)


def _shown(key: NumberKey, value: Fraction) -> str:
    figures = None if key.decimals is not None else key.figures or 3
    shown = show(Quantity(value, PLAIN, key.decimals, figures), unit=False)
    return f"{shown} {key.unit}".strip()


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
