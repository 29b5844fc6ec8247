"""Chemistry: formulae and equations, molar masses, names of substances."""

from __future__ import annotations

from collections.abc import Sequence

from drill.quantities import Fault, Function, Value
from drill.subjects.chemistry.naming import NAMES
from drill.subjects.chemistry.wording import FORMULA_MASS, WORDING
from drill.subjects.interface import LearnersTable, ReferenceTable, Subject


def _molar_mass(values: Sequence[Value | None]) -> Value | Fault:
    from drill.subjects.chemistry.molar_mass import mass_of  # most questions need none

    return mass_of(*values)


def _atoms_added_up(values: Sequence[Value | None]) -> Sequence[tuple[int, Value]]:
    from drill.subjects.chemistry.molar_mass import atoms_of

    return atoms_of(*values)


_MASS = Function(
    'M("CuSO4.5H2O")',
    "the molar mass, from the table of masses called M",
    _molar_mass,
    1,
    1,
    looks_in="M",
    sum_of=_atoms_added_up,
)

# keys are worked from what a student has in front of them, so from the printed masses
_MASSES = ReferenceTable("M", "atomic_masses", "mass", "atomic_weights", "printed", "g/mol")

_SHOWN = (
    LearnersTable("Relative atomic masses", "atomic_weights", ("id", "printed")),
    LearnersTable("Hazard symbols", "ghs_pictograms", ("symbol", "meaning"), not_for="safety"),
)

SUBJECT = Subject(
    package=__name__,
    functions={"M": _MASS},
    tables={"M": _MASSES},
    names=NAMES,
    wording=WORDING,
    unitless=FORMULA_MASS,
    amounts=("g", "cm3", "mol"),
    positive=("mol/dm3", "g/dm3"),
    kinds=("formula", "equation"),
    shown=_SHOWN,
)
