"""What the bank says of gases, held against published values.

Sources, each typed in here apart from the bank's own tables:

* U.S. Standard Atmosphere, 1976, table 3: mean molar mass of dry air 28.9644 g/mol, oxygen
  20.9476 % by volume; from memory.
* OpenStax, College Physics 2e, table 11.1: densities at 0 °C and 101.3 kPa in kg/m3.
* OpenStax, Chemistry 2e, section 18.6: the equation of limewater and carbon dioxide.
"""

from __future__ import annotations

import csv
from fractions import Fraction

import pytest

from drill.bank import read_template
from drill.generate import generate
from drill.model import NumberKey, Question, Template
from drill.places import bank_dir
from drill.quantities import Fault
from drill.subjects.chemistry.formulae import parse_formula

AIR_MOLAR_MASS = Fraction("28.9644")
OXYGEN_IN_AIR = Fraction("0.209476")
DENSITIES = {"oxygen": "1.43", "carbon_dioxide_dry": "1.98", "hydrogen_dry": "0.090"}
AIR_DENSITY = Fraction("1.29")
MOLAR_MASSES = {
    "hydrogen_dry": "2.016", "hydrogen_pure": "2.016", "oxygen": "31.998",
    "carbon_dioxide_dry": "44.009", "chlorine": "70.90", "ammonia": "17.031",
}  # fmt: skip


def rows(table: str) -> dict[str, dict[str, str]]:
    with (bank_dir() / "facts" / f"{table}.csv").open(encoding="utf-8", newline="") as file:
        return {row["id"]: row for row in csv.DictReader(file)}


@pytest.mark.parametrize("gas", MOLAR_MASSES)
def test_densities_beside_air_follow_from_the_molar_masses(gas: str) -> None:
    relative = Fraction(MOLAR_MASSES[gas]) / AIR_MOLAR_MASS
    assert Fraction(rows("gas_ways")[gas]["density"]) == pytest.approx(float(relative), rel=0.03)


@pytest.mark.parametrize("gas", DENSITIES)
def test_densities_beside_air_are_those_measured(gas: str) -> None:
    relative = Fraction(DENSITIES[gas]) / AIR_DENSITY
    assert Fraction(rows("gas_ways")[gas]["density"]) == pytest.approx(float(relative), rel=0.03)


def test_limewater_reacts_as_published() -> None:
    left, _, right = rows("gas_equations")["limewater"]["equation"].partition(" -> ")
    assert left.split(" + ") == ["Ca(OH)2(aq)", "CO2(g)"]
    assert right.split(" + ") == ["CaCO3(s)", "H2O(l)"]


def counted(side: str) -> dict[str, Fraction]:
    """Atoms of each element on one side of an equation with state symbols."""
    atoms: dict[str, Fraction] = {}
    for species in side.split(" + "):
        bare = species.rpartition("(")[0]
        number = bare[: len(bare) - len(bare.lstrip("0123456789"))]
        parsed = parse_formula(bare.removeprefix(number))
        assert not isinstance(parsed, Fault), species
        for element, count in parsed.atoms.items():
            atoms[element] = atoms.get(element, Fraction(0)) + count * int(number or 1)
    return atoms


@pytest.mark.parametrize("id", rows("gas_equations"))
def test_every_equation_balances(id: str) -> None:
    for column in ("equation", "also"):
        left, _, right = rows("gas_equations")[id][column].partition(" -> ")
        assert counted(left) == counted(right)


def test_oxygen_in_a_tube_of_oxygen_and_air_is_worked_with_the_share_in_air() -> None:
    read = read_template(bank_dir() / "gases/oxygen-in-the-tube.toml", bank_dir())
    assert isinstance(read, Template), read
    for seed in range(30):
        question = generate(read, seed)
        assert isinstance(question, Question), question
        tube, put = (
            Fraction(line.split()[-2])
            for line in question.text.splitlines()
            if line.startswith("Volume of")
        )
        key = question.parts[0].key
        assert isinstance(key, NumberKey)
        wanted = 100 * (put + (tube - put) * OXYGEN_IN_AIR) / tube
        assert key.value == pytest.approx(float(wanted), abs=0.1)
