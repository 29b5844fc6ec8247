"""The molar mass of a formula, looked up atom by atom in a table of masses."""

from __future__ import annotations

from fractions import Fraction

from drill.quantities import FactsRow, Fault, Quantity, Value
from drill.quantities.evaluation.scalar_functions import described
from drill.quantities.units.conversion import named
from drill.subjects.chemistry.formulae import molar_mass, parse_formula


def mass_of(table: Value | None, written: Value | None) -> Quantity | Fault:
    """The molar mass of a formula, in the unit its elements' masses have in the table."""
    if not isinstance(written, str):
        what = described(written) if written is not None else "nothing"
        return Fault(f"M wants a formula in quotes, not {what}")
    if not isinstance(table, FactsRow):
        return Fault("there is no table of masses called M here")
    formula = parse_formula(written)
    if isinstance(formula, Fault):
        return Fault(f"{written!r}: {formula.message}", hint=formula.hint)
    masses = {name: cell for name, cell in table.cells.items() if isinstance(cell, Quantity)}
    units = {masses[symbol].unit for symbol in formula.atoms if symbol in masses}
    if len(units) > 1:
        shown = ", ".join(sorted(map(named, units)))
        return Fault(f"the masses of {written} are in different units: {shown}")
    mass = molar_mass(formula, {name: cell.value for name, cell in masses.items()})
    return mass if isinstance(mass, Fault) else Quantity(Fraction(mass), units.pop())


def atoms_of(table: Value | None, written: Value | None) -> tuple[tuple[int, Quantity | str], ...]:
    """How many of each atom and its mass, as they are added up: 63.5 + 32 + 9 × 16 + 10 × 1."""
    formula = parse_formula(written) if isinstance(written, str) else None
    if formula is None or isinstance(formula, Fault) or not isinstance(table, FactsRow):
        return ()
    return tuple((count, table.cells.get(atom, atom)) for atom, count in formula.atoms.items())
