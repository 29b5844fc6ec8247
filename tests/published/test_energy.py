"""Temperature changes in the bank, against published enthalpies: none is more than they allow.

* Displacement at 25 °C: zinc -218.7, magnesium -531.7, iron -153.9 kJ for each mole of copper ions,
  from the formation enthalpies of aqueous ions in the CRC Handbook of Chemistry and Physics.
* Dissolving at 25 °C: CRC Handbook, Enthalpy of Solution of Electrolytes: NH4NO3 25.69, KCl 17.22,
  CaCl2 -81.3 kJ/mol; from memory.
* OpenStax Chemistry 2e, example 5.8: 50.0 cm3 each of 1.00 mol/dm3 HCl and NaOH, 22.0 to 28.9 °C,
  give 2.9 kJ, and 58 kJ for each mole.
"""

from __future__ import annotations

import csv
import re

import pytest

from drill.places import bank_dir
from tests.published.shipped import question, value

HEAT = 4.18  # J/(g °C), common school convention
SALTS = {"nh4no3": (25.69, 80.04), "kcl": (17.22, 74.55), "cacl2": (-81.3, 110.98)}
DISPLACEMENT = {"zn_cuso4": 218.7, "fe_cuso4": 153.9}


def changes() -> dict[str, dict[str, str]]:
    with (bank_dir() / "facts" / "energy_changes.csv").open(encoding="utf-8", newline="") as file:
        return {row["id"]: row for row in csv.DictReader(file)}


@pytest.mark.parametrize("seed", range(30))
def test_energy_for_each_mole_of_copper_is_below_the_published_value(seed: int) -> None:
    assert 0.7 * 218.7 < value(question("energy/per-mole", seed), 2) < 218.7


@pytest.mark.parametrize("id", SALTS)
def test_dissolving_changes_the_temperature_by_no_more_than_published(id: str) -> None:
    enthalpy, molar_mass = SALTS[id]
    most = abs(enthalpy) * 1000 * (5 / molar_mass) / (55 * HEAT)
    row = changes()[id]
    assert float(row["high ()"]) <= most
    assert float(row["low ()"]) >= 0.5 * most
    assert (row["kind"] == "endothermic") == (enthalpy > 0)


@pytest.mark.parametrize("id", DISPLACEMENT)
def test_displacement_in_a_fifth_molar_solution_warms_by_no_more_than_published(id: str) -> None:
    most = DISPLACEMENT[id] * 1000 * 0.200 * 0.025 / (25 * HEAT)
    assert float(changes()[id]["high ()"]) <= most


@pytest.mark.parametrize("seed", range(30))
def test_mixing_is_worked_as_the_example_is(seed: int) -> None:
    printed = 2900
    assert abs(100 * HEAT * 6.9 - printed) < 50
    asked = question("energy/energy-of-mixing", seed)
    conc = re.search(r"concentration ([\d.]+)", asked.text)
    volume = re.search(r"(\d+) cm", asked.text)
    assert conc
    assert volume
    moles = float(conc[1]) * float(volume[1]) / 1000
    assert value(asked, 1) / 1000 / moles < 58
