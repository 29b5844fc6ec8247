"""Molar masses of every formula in the tables of facts, against two sources outside the project.

Atomic weights: Prohaska and others, Standard atomic weights of the elements 2021 (IUPAC Technical
Report), Pure Appl. Chem. 94 (2022), as abridged in question_bank/facts/atomic_weights.csv. The
other side is the library molmass, which has its own table and its own reader of formulae; it is
needed by this test only. Both may differ by the uncertainties the report itself publishes.
"""

from __future__ import annotations

import csv
from fractions import Fraction
from pathlib import Path

import pytest

from drill.subjects.chemistry.formulae import Formula, molar_mass, parse_formula

molmass = pytest.importorskip("molmass")

FACTS = Path(__file__).parents[2] / "question_bank" / "facts"
COLUMNS = {
    "solid_formula": "M_solid (g/mol)",
    "acid_formula": "M_acid (g/mol)",
    "salt_formula": "M_salt (g/mol)",
    "crystals_formula": "M_crystals (g/mol)",
}
# formulae of the commonest school substances that no route to a salt needs
OTHERS = (
    "H2O CO2 O2 H2 CH4 C2H5OH CH3COOH C6H12O6 NaHCO3 CaO Ca(OH)2 BaCl2.2H2O BaSO4 AgCl AgNO3 "
    "KMnO4 K2Cr2O7 Na2S2O3.5H2O Na2CO3.10H2O KAl(SO4)2.12H2O (NH4)2Fe(SO4)2.6H2O Fe2(SO4)3 "
    "H2O2 NH4Cl NH4NO3 MnO2 Cu2O Al2O3 SiO2 I2 PbI2 KI H2C2O4.2H2O CuCl2.2H2O"
)


def rows(name: str) -> list[dict[str, str]]:
    with (FACTS / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


WEIGHTS = {row["id"]: row for row in rows("atomic_weights.csv")}
ABRIDGED = {symbol: Fraction(row["abridged ()"]) for symbol, row in WEIGHTS.items()}
PRINTED = {symbol: Fraction(row["printed ()"]) for symbol, row in WEIGHTS.items()}
SALTS = rows("salts.csv")
FORMULAE = sorted({row[column] for row in SALTS for column in COLUMNS} | set(OTHERS.split()))


def formula(text: str) -> Formula:
    found = parse_formula(text)
    assert isinstance(found, Formula), found
    return found


def may_differ(text: str) -> Fraction:
    """Published uncertainty of each atom's weight, and half a unit of the digit it is cut to."""
    total = Fraction(0)
    for symbol, number in formula(text).atoms.items():
        places = len(WEIGHTS[symbol]["abridged ()"].partition(".")[2])
        published = Fraction(WEIGHTS[symbol]["uncertainty ()"])
        total += number * (published + Fraction(1, 2 * 10**places))
    return total


@pytest.mark.parametrize("text", FORMULAE)
def test_a_molar_mass_agrees_with_molmass(text: str) -> None:
    ours = molar_mass(formula(text), ABRIDGED)
    theirs = Fraction(molmass.Formula(text).mass)
    assert isinstance(ours, Fraction)
    assert abs(ours - theirs) <= may_differ(text)


@pytest.mark.parametrize("text", FORMULAE)
def test_the_atoms_are_those_molmass_counts(text: str) -> None:
    theirs = {symbol: item.count for symbol, item in molmass.Formula(text).composition().items()}
    assert dict(formula(text).atoms) == theirs


@pytest.mark.parametrize("symbol", WEIGHTS)
def test_an_atomic_weight_agrees_with_molmass(symbol: str) -> None:
    theirs = Fraction(molmass.ELEMENTS[symbol].mass)
    assert abs(ABRIDGED[symbol] - theirs) <= may_differ(symbol)


@pytest.mark.parametrize("row", SALTS, ids=lambda row: row["id"])
def test_what_a_question_prints_is_the_sum_of_what_it_prints(row: dict[str, str]) -> None:
    """School convention: whole numbers, Cl 35.5, Cu 63.5, Zn 65.4."""
    for column, printed in COLUMNS.items():
        assert molar_mass(formula(row[column]), PRINTED) == Fraction(row[printed]), row[column]


@pytest.mark.parametrize("row", SALTS, ids=lambda row: row["id"])
def test_what_a_question_prints_is_near_the_published_mass(row: dict[str, str]) -> None:
    """Whole numbers cost most for magnesium: 24.305 printed as 24 is 1.25 % off."""
    for column, printed in COLUMNS.items():
        theirs = Fraction(molmass.Formula(row[column]).mass)
        assert abs(Fraction(row[printed]) / theirs - 1) < Fraction("0.013"), row[column]
