"""Relative masses and equations of the bank's salts, held against published values.

Sources: Prohaska and others, Standard atomic weights of the elements 2021 (IUPAC Technical Report),
Pure Appl. Chem. 94 (2022), abridged values typed in here. That the printed ones are whole numbers
but for copper, zinc and chlorine is common practice, no source. Balance needs no source: atoms are
counted on both sides.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction
from functools import cache

import pytest

from drill.bank import read_facts
from drill.places import bank_dir
from drill.quantities import FactsRow, Quantity
from drill.subjects.chemistry.formulae import Formula, molar_mass, parse_formula

IUPAC_2021_ABRIDGED = {
    "H": "1.0080", "C": "12.011", "N": "14.007", "O": "15.999", "Na": "22.990", "Mg": "24.305",
    "S": "32.06", "Cl": "35.45", "K": "39.098", "Ca": "40.078", "Fe": "55.845", "Cu": "63.546",
    "Zn": "65.38",
}  # fmt: skip

# relative formula masses as usually printed, worked by hand from H 1, C 12, O 16, S 32, Cl 35.5,
# Mg 24, Cu 63.5, Zn 65.4
BY_HAND = {
    ("CuO_H2SO4", "M_solid"): "79.5",
    ("CuO_H2SO4", "M_salt"): "159.5",
    ("CuO_H2SO4", "M_crystals"): "249.5",
    ("CuCO3b_H2SO4", "M_solid"): "221",
    ("MgO_H2SO4", "M_crystals"): "246",
    ("ZnO_H2SO4", "M_solid"): "81.4",
    ("ZnO_H2SO4", "M_crystals"): "287.4",
    ("CuO_HCl", "M_crystals"): "170.5",
    ("MgCO3_H2SO4", "M_solid"): "84",
}


@cache
def facts(table: str) -> Mapping[str, FactsRow]:
    rows = read_facts(bank_dir() / "facts" / f"{table}.csv")
    assert all(isinstance(row, FactsRow) for row in rows), rows
    return {row.id: row for row in rows if isinstance(row, FactsRow)}


def number(row: FactsRow, column: str) -> Fraction:
    cell = row.cells[column]
    assert isinstance(cell, Quantity), (row.id, column, cell)
    return cell.value


def formula(text: str) -> Formula:
    read = parse_formula(text)
    assert isinstance(read, Formula), (text, read)
    return read


@pytest.mark.parametrize("symbol", IUPAC_2021_ABRIDGED)
def test_standard_weights_are_those_of_iupac(symbol: str) -> None:
    row, published = facts("atomic_weights")[symbol], Fraction(IUPAC_2021_ABRIDGED[symbol])
    assert number(row, "standard") == pytest.approx(float(published), rel=3e-5)


@pytest.mark.parametrize("symbol", IUPAC_2021_ABRIDGED)
def test_printed_weights_are_roundings_of_the_standard_ones(symbol: str) -> None:
    row = facts("atomic_weights")[symbol]
    printed, standard = number(row, "printed"), number(row, "standard")
    room = Fraction(1, 2) if printed.denominator == 1 else Fraction(1, 20)
    assert abs(printed - standard) <= room


@pytest.mark.parametrize(("id", "column"), BY_HAND)
def test_relative_formula_masses_worked_by_hand(id: str, column: str) -> None:
    assert number(facts("salts")[id], column) == Fraction(BY_HAND[id, column])


@pytest.mark.parametrize("id", facts("salts"))
def test_relative_formula_masses_follow_from_the_printed_weights(id: str) -> None:
    row = facts("salts")[id]
    masses = {symbol: number(one, "printed") for symbol, one in facts("atomic_weights").items()}
    for column, name in [
        ("M_solid", "solid_formula"),
        ("M_acid", "acid_formula"),
        ("M_salt", "salt_formula"),
        ("M_crystals", "crystals_formula"),
    ]:
        assert number(row, column) == molar_mass(formula(str(row.cells[name])), masses), name


@pytest.mark.parametrize("id", facts("atom_economies"))
def test_atom_economies_use_the_same_masses_and_equations(id: str) -> None:
    row, salt = facts("atom_economies")[id], facts("salts")[id]
    assert row.cells["equation"] == salt.cells["equation"]
    for column, other in [
        ("R_solid", "M_solid"),
        ("R_acid", "M_acid"),
        ("R_product", "M_salt"),
        ("acid_number", "acid_per_solid"),
    ]:
        assert number(row, column) == number(salt, other), column


def side(text: str) -> tuple[dict[str, int], dict[str, int]]:
    """`{element: atoms}` and `{formula: number in front}` of one side of an equation."""
    atoms: dict[str, int] = {}
    numbers: dict[str, int] = {}
    for term in text.split(" + "):
        found = re.fullmatch(r"\s*(\d*)\s*(\S+?)\((?:s|l|g|aq)\)\s*", term)
        assert found, term
        times = int(found[1] or 1)
        numbers[found[2]] = times
        for symbol, count in formula(found[2]).atoms.items():
            atoms[symbol] = atoms.get(symbol, 0) + times * count
    return atoms, numbers


@pytest.mark.parametrize("id", facts("salts"))
def test_equations_balance_and_give_the_ratios(id: str) -> None:
    row = facts("salts")[id]
    left, right = (side(text) for text in str(row.cells["equation"]).split("->"))
    assert left[0] == right[0]
    acid = left[1][str(row.cells["acid_formula"])]
    solid = left[1][str(row.cells["solid_formula"])]
    salt = right[1][str(row.cells["salt_formula"])]
    assert number(row, "acid_per_solid") == Fraction(acid, solid)
    if "salt_per_acid" in row.cells:
        assert number(row, "salt_per_acid") == Fraction(salt, acid)
