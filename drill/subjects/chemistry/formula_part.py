"""A part answered with a chemical formula."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from drill.frozen import replace
from drill.model import MadeKey, PartSpec
from drill.model.field import Field
from drill.plaintext import one_line
from drill.quantities import Fault
from drill.subjects.chemistry.formula_marking import mark_formula
from drill.subjects.chemistry.formulae import parse_formula
from drill.subjects.chemistry.keys import FormulaKey
from drill.subjects.interface import AuthorReader, PartValues, SubjectKind, Where

FIELDS = (
    Field("accept", "texts", "The formulae that are right.", 'accept = ["CuSO4.5H2O"]',
        required=True, low=1, high=40, kinds=("formula",)),
)  # fmt: skip


def _read(spec: PartSpec, clean: Mapping[str, Any], where: Where, reader: AuthorReader) -> PartSpec:
    """A formula without {…} is read here already."""
    accept = reader.texts(clean["accept"], (*where, "accept"))
    for index, text in enumerate(accept):
        read = parse_formula(text) if "{" not in text else None
        if isinstance(read, Fault):
            message = f'"{one_line(text, 40)}" is no formula: {read.message}.'
            reader.fault((*where, "accept", index), message, read.hint)
    return replace(spec, accept=accept)


def _make(spec: PartSpec, values: PartValues) -> MadeKey | Fault:
    accept = tuple(values.fill(formula, spec.line) for formula in spec.accept)
    if not accept:
        return Fault("nothing is accepted as right", hint='Write accept = ["…"].')
    return MadeKey.whole(spec, FormulaKey(accept), accept[0], accept[0])


KIND = SubjectKind(FIELDS, _read, _make, mark_formula, seconds=30)
