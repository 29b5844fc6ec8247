"""What must hold of every instance of a template: one function per check, and their list."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from drill.checking.asked_units import units_agree
from drill.checking.given_away import answers_are_not_given_away
from drill.checking.graphs import graph_can_be_read
from drill.checking.pictures import picture_can_be_drawn
from drill.checking.printed import printed_numbers_lead_there
from drill.checking.report import Finding
from drill.checking.texts import texts_are_clean
from drill.marking import mark
from drill.model import (
    Mark,
    NumberKey,
    Part,
    PartSpec,
    Question,
    Slip,
    TableKey,
    Template,
)
from drill.quantities import same_dimension, unit_of
from drill.subjects import subject

Check = Callable[[Template, Question], Iterator[Finding]]


def model_answer_is_right(template: Template, question: Question) -> Iterator[Finding]:
    """The marker gives the model answer full marks; not for `levels`, marked by the learner."""
    for spec, part in _parts(template, question):
        if part.kind == "levels":
            continue
        got = mark(part, part.model_answer)
        if got.marks != part.marks:
            says = (
                f'the model answer "{_short(part.model_answer)}" of part {part.id} earns '
                f"{got.marks} of {part.marks}: {got.says}"
            )
            line = spec.lines.get("model_answer", spec.lines.get("answer", spec.line))
            yield Finding(f"model {part.id}", line, says, "Look at the answer and its key.")


def slips_are_told(template: Template, question: Question) -> Iterator[Finding]:
    """Each slip's value, typed, is recognised as that slip and earns what it says."""
    for spec, part in _parts(template, question):
        if isinstance(part.key, NumberKey):
            for slip in part.key.slips:
                yield from _slip(spec, part, slip, part.key, mark(part, slip.text))
        if isinstance(part.key, TableKey):
            for name, key in part.key.cells.items():
                for slip in key.slips:
                    got = mark(part, f"{name} = {slip.text}")
                    yield from _slip(spec.cells[name], part, slip, key, got)


def _slip(spec: PartSpec, part: Part, slip: Slip, key: NumberKey, got: Mark) -> Iterator[Finding]:
    line = next((one.line for one in spec.slips if one.id == slip.id), spec.line)
    if got.slip != slip.id:
        taken = f'is taken for "{got.slip}"' if got.slip else "is not recognised"
        says = f'the slip "{slip.id}" of part {part.id}, typed as {slip.text}, {taken}: {got.says}'
        hint = "Add a requirement that keeps them apart, or drop the slip."
        yield Finding(f"slip {part.id} {slip.id}", line, says, hint)
    elif got.marks != _deserved(slip, key):
        says = (
            f'the slip "{slip.id}" of part {part.id}, typed as {slip.text}, earns {got.marks}, '
            f"not {_deserved(slip, key)}."
        )
        hint = "A slip earns method marks, and of the value's marks all but one."
        yield Finding(f"earns {part.id} {slip.id}", line, says, hint)


def _deserved(slip: Slip, key: NumberKey) -> int:
    """The marks its route earns, plus those for the correct unit and number of figures."""
    figures = key.award.get("figures", 0) if slip.earns else 0  # figures alone are worth nothing
    return slip.earns + key.award.get("unit", 0) + figures


def worked_answer_ends_well(template: Template, question: Question) -> Iterator[Finding]:
    """The worked answer ends in the model answer, and a number's shows how it is reached."""
    for spec, part in _parts(template, question):
        if not part.worked.endswith(part.model_answer):
            says = f'the worked answer of part {part.id} does not end in "{part.model_answer}".'
            yield Finding(f"worked {part.id}", spec.line, says, "Report this fault.")
        elif part.kind == "number" and part.worked == part.model_answer:
            says = f"the printed numbers do not lead to the answer of part {part.id}."
            hint = 'Print what is needed, or write worked = "…".'
            yield Finding(f"working {part.id}", spec.lines.get("ask", spec.line), says, hint)


def amounts_are_above_zero(template: Template, question: Question) -> Iterator[Finding]:
    """A mass, volume, amount or concentration is not below zero whatever is drawn."""
    for spec, part in _parts(template, question):
        key = part.key
        if isinstance(key, NumberKey) and key.value < 0 and _is_amount(key.unit, template):
            says = (
                f"the answer of part {part.id} is {part.model_answer}, and below zero every time."
            )
            line = spec.lines.get("answer", spec.line)
            hint = "Is the difference the right way round?"
            yield Finding(f"below zero {part.id}", line, says, hint, "note", always=True)


def _is_amount(unit: str, template: Template) -> bool:
    science = subject(template.subject)
    units = [unit_of(one) for one in (unit, *science.amounts, *science.positive)]
    mine, *amounts = [one for one in units if one is not None]
    return any(same_dimension(mine, one) for one in amounts)


CHECKS: Mapping[str, Check] = {
    "texts are clean": texts_are_clean,
    "the picture can be drawn": picture_can_be_drawn,
    "the graph can be read": graph_can_be_read,
    "the model answer earns full marks": model_answer_is_right,
    "every slip is told by its value": slips_are_told,
    "amounts are above zero": amounts_are_above_zero,
    "the worked answer ends in the answer": worked_answer_ends_well,
    "the printed numbers lead to the answer": printed_numbers_lead_there,
    "the unit asked for is the answer's": units_agree,
    "no answer is printed before it is asked for": answers_are_not_given_away,
}


def _parts(template: Template, question: Question) -> Iterator[tuple[PartSpec, Part]]:
    return zip(template.parts, question.parts, strict=True)


def _short(text: str) -> str:
    return text if len(text) <= 60 else f"{text[:57]}..."
