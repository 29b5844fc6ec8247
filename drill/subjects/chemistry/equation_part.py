"""A part answered with a chemical equation, in formulae or in words."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from drill.frozen import replace
from drill.model import MadeKey, PartSpec, Point
from drill.model.field import Field
from drill.plaintext import one_line
from drill.quantities import Fault
from drill.subjects.chemistry.equation_marking import mark_equation
from drill.subjects.chemistry.keys import EquationKey
from drill.subjects.interface import AuthorReader, PartValues, SubjectKind, Where

AWARD = {
    "species": "every formula right and on its side",
    "balance": "balanced",
    "states": "state symbols right",
}
_LEFT_OUT = {"species": 1, "balance": 1}

FIELDS = (
    Field("accept", "texts", "The equations that are right; the first is the model answer.",
        'accept = ["MgO + 2HCl -> MgCl2 + H2O"]', required=True, low=1, high=40,
        kinds=("equation",)),
    Field("award", "table", "The marks: species, balance, states. Left out: one each for the first "
        "two.", "award = { species = 1, balance = 1, states = 1 }", default=None,
        kinds=("equation",)),
)  # fmt: skip


def _read(spec: PartSpec, clean: Mapping[str, Any], where: Where, reader: AuthorReader) -> PartSpec:
    """By default a mark for the species and one for the balance."""
    accept = reader.texts(clean["accept"], (*where, "accept"))
    for index, text in enumerate(accept):
        if text.count("->") != 1 and "{" not in text:
            message = f'"{one_line(text, 40)}" is no equation.'
            hint = "Write for example: MgO + 2HCl -> MgCl2 + H2O"
            reader.fault((*where, "accept", index), message, hint)
    award = reader.award(tuple(AWARD), clean["award"], where) or _LEFT_OUT
    return replace(spec, accept=accept, award=award)


def _make(spec: PartSpec, values: PartValues) -> MadeKey | Fault:
    accept = tuple(values.fill(equation, spec.line) for equation in spec.accept)
    if not accept:
        return Fault("nothing is accepted as right", hint='Write accept = ["…"].')
    award = dict(spec.award) or _LEFT_OUT
    points = tuple(Point(name, AWARD[name], marks) for name, marks in award.items())
    return MadeKey.of(EquationKey(accept, award), points, accept[0])


KIND = SubjectKind(FIELDS, _read, _make, mark_equation, seconds=60)
