"""A second subject, only for tests: a function with a reference table, and a kind of part."""

from __future__ import annotations

import re
from collections.abc import Sequence

from drill.quantities import FactsRow, Fault, Function, Quantity, Value
from drill.quantities.arithmetic import multiply
from drill.subjects.interface import ReferenceTable, Subject
from drill.typed.names import NameRules


def _weight(values: Sequence[Value | None]) -> Value | Fault:
    table, place, mass = values
    field = table.cells.get(str(place)) if isinstance(table, FactsRow) else None
    if not isinstance(field, Quantity) or not isinstance(mass, Quantity):
        return Fault(f"no field strength is known for {place}")
    return multiply(mass, field)


def _factors(values: Sequence[Value | None]) -> Sequence[tuple[int, Value]]:
    return ((1, found),) if isinstance(found := _weight(values), Quantity) else ()


SUBJECT = Subject(
    package=__name__,
    functions={
        "weight_at": Function(
            'weight_at("Moon", mass)',
            "the weight of a mass at a place",
            _weight,
            2,
            2,
            looks_in="G",
            sum_of=_factors,
        )
    },
    tables={"G": ReferenceTable("G", "field_strengths", "strength", "places", "strength", "N/kg")},
    names=NameRules(deciding=re.compile(r"meter$")),
    amounts=("kg",),
    kinds=("direction",),
)
