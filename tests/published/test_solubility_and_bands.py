"""Solubilities, what can crystallise, and hazard bands, held against published values.

Sources, each typed in here apart from the bank's own tables:

* CRC Handbook of Chemistry and Physics, 98th edition (2017), section 5, aqueous solubility of
  inorganic compounds: mass per cent of the anhydrous salt.
* Regulation (EC) 1272/2008 (CLP), Annex VI, table 3: specific concentration limits, mass per cent.
  Nitric acid as changed by Regulation (EU) 2020/1182.
* Densities of dilute acids and alkali at 20 °C: CRC Handbook, concentrative properties; from
  memory.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from functools import cache

import pytest

from drill.bank import read_facts, read_template
from drill.generate import generate
from drill.model import NumberKey, Question, Template
from drill.places import bank_dir
from drill.quantities import FactsRow, Quantity
from drill.subjects.chemistry.formulae import molar_mass, parse_formula

CRC_98_MASS_PERCENT = {
    "CuSO4_0": "12.4", "CuSO4_20": "16.7", "CuSO4_40": "22.2", "CuSO4_80": "36.3",
    "MgSO4_0": "18.2", "MgSO4_20": "25.1", "MgSO4_40": "30.9", "MgSO4_80": "35.9",
    "ZnSO4_0": "29.1", "ZnSO4_20": "35.0", "ZnSO4_40": "41.3", "ZnSO4_80": "39.9",
}  # fmt: skip

# (substance, at least, below): the hazard codes for health in that band
CLP_ANNEX_VI = {
    ("sulfuric acid", "0", "5"): "",
    ("sulfuric acid", "5", "15"): "H315;H319",
    ("sulfuric acid", "15", None): "H314",
    ("hydrochloric acid", "0", "10"): "",
    ("hydrochloric acid", "10", "25"): "H315;H319;H335",
    ("hydrochloric acid", "25", None): "H314;H335",
    ("nitric acid", "5", "13.25"): "H314",
    ("sodium hydroxide", "0", "0.5"): "",
    ("sodium hydroxide", "0.5", "2"): "H315;H319",
    ("sodium hydroxide", "2", "5"): "H314",
    ("sodium hydroxide", "5", None): "H314",
    ("ethanoic acid", "10", "25"): "H315;H319",
}

# (id in hazards.csv, molar mass in g/mol, density in g/cm3 at the lower limit of the band)
DENSITY_AT_LIMIT = [
    ("H2SO4_aqueous_solution_2", "98.07", "1.032"),
    ("H2SO4_aqueous_solution_3", "98.07", "1.102"),
    ("HCl_aqueous_solution_2", "36.46", "1.047"),
    ("NaOH_aqueous_solution_3", "40.00", "1.020"),
]

WATER = Fraction(18)


@cache
def facts(table: str) -> Mapping[str, FactsRow]:
    """The rows of a table of the shipped bank by id."""
    rows = read_facts(bank_dir() / "facts" / f"{table}.csv")
    assert all(isinstance(row, FactsRow) for row in rows), rows
    return {row.id: row for row in rows if isinstance(row, FactsRow)}


def number(row: FactsRow, column: str) -> Fraction:
    cell = row.cells[column]
    assert isinstance(cell, Quantity), (row.id, column, cell)
    return cell.value


def mass_of(formula: str) -> Fraction:
    """The molar mass worked from the masses the bank prints."""
    printed = {id: number(row, "printed") for id, row in facts("atomic_weights").items()}
    mass = molar_mass(parse_formula(formula), printed)
    assert isinstance(mass, Fraction)
    return mass


# ---------------------------------------------------------------- solubility


@pytest.mark.parametrize("id", CRC_98_MASS_PERCENT)
def test_solubilities_are_those_of_the_handbook(id: str) -> None:
    assert number(facts("solubility")[id], "mass_percent") == Fraction(CRC_98_MASS_PERCENT[id])


def test_what_dissolves_in_100_g_of_water_follows_from_the_mass_per_cent() -> None:
    for row in facts("solubility").values():
        share = number(row, "mass_percent")
        dissolved = 100 * share / (100 - share)
        assert number(row, "per_100g_water") == pytest.approx(float(dissolved), rel=0.006), row.id


def largest_yield(salt: str, conc: str, left: Fraction) -> Fraction:
    """Per cent of the salt that can be crystals at 20 °C when that share of 25 cm3 of acid is left.

    A mass balance: crystals take their water along, the rest stays a saturated solution.
    """
    crystals, waters = facts("salts")[salt].cells["crystals_formula"], {"Cu": 5, "Mg": 7, "Zn": 7}
    assert isinstance(crystals, str)
    anhydrous = crystals.partition(".")[0]
    in_crystals = waters[anhydrous[:2]]
    amount = Fraction(25, 1000) * Fraction(conc)
    held = number(facts("solubility")[f"{anhydrous}_20"], "per_100g_water") / 100
    out = amount * mass_of(anhydrous) - held * 25 * left
    each = mass_of(anhydrous) - held * in_crystals * WATER
    return max(Fraction(0), 100 * out / each / amount)


def test_evaporating_to_half_is_a_rule_for_copper_sulfate_only() -> None:
    half = Fraction(1, 2)
    assert 38 < largest_yield("CuO_H2SO4", "1", half) < 44
    assert largest_yield("MgO_H2SO4", "1", half) == 0
    assert largest_yield("ZnO_H2SO4", "1", half) == 0
    assert largest_yield("CuO_H2SO4", "0.5", half) == 0


@pytest.mark.parametrize(
    ("salt", "left", "percent"),
    [
        ("CuO_H2SO4", 4, 77), ("CuO_H2SO4", 5, 84),
        ("MgO_H2SO4", 4, 46), ("MgO_H2SO4", 5, 68),
        ("ZnO_H2SO4", 4, 29), ("ZnO_H2SO4", 5, 58),
    ],
)  # fmt: skip
def test_the_less_water_is_left_the_more_can_crystallise(
    salt: str, left: int, percent: int
) -> None:
    assert largest_yield(salt, "1", Fraction(1, left)) == pytest.approx(percent, abs=1.5)


@pytest.mark.parametrize("salt", ["CuO_H2SO4", "MgO_H2SO4", "ZnO_H2SO4"])
def test_ordinary_yields_can_be_reached_once_nearly_all_the_water_has_gone(salt: str) -> None:
    assert largest_yield(salt, "0.5", Fraction(1, 25)) > 85


def keys_of(template: str, seeds: int = 40) -> list[NumberKey]:
    """The last number asked for in each of the first instances of a shipped question."""
    read = read_template(bank_dir() / f"{template}.toml", bank_dir())
    assert isinstance(read, Template), read
    keys: list[NumberKey] = []
    for seed in range(seeds):
        question = generate(read, seed)
        assert isinstance(question, Question), question
        keys.append([p.key for p in question.parts if isinstance(p.key, NumberKey)][-1])
    return keys


@pytest.mark.parametrize(
    "template",
    [
        "salts/percentage-yield",
        "salts/percentage-yield-given-masses",
        "salts/percentage-of-maximum",
    ],
)
def test_ordinary_yields_are_ones_that_can_be_collected(template: str) -> None:
    assert all(35 <= key.value <= 85 for key in keys_of(template))


def test_a_yield_that_cannot_be_true_is_above_100() -> None:
    assert all(key.value > 100 for key in keys_of("salts/yield-too-good"))


def test_what_two_groups_collect_can_crystallise() -> None:
    """1.0 mol/dm3 acid: half of the solution left, a fifth left."""
    at_half = largest_yield("CuO_H2SO4", "1", Fraction(1, 2))
    at_a_fifth = largest_yield("CuO_H2SO4", "1", Fraction(1, 5))
    for key in keys_of("salts/two-groups"):
        printed = key.chain.printed
        most, slow, fast = (printed[name] for name in ("most", "slow", "fast"))
        assert isinstance(most, Quantity)
        assert isinstance(slow, Quantity)
        assert isinstance(fast, Quantity)
        assert 100 * slow.value / most.value <= at_half
        assert 100 * fast.value / most.value <= at_a_fifth


# ---------------------------------------------------------------- hazard bands


@pytest.mark.parametrize("band", CLP_ANNEX_VI, ids=lambda band: " ".join(map(str, band)))
def test_bands_are_those_of_annex_vi(band: tuple[str, str, str | None]) -> None:
    substance, low, below = band
    found = [
        row
        for row in facts("hazards").values()
        if row.cells["substance"] == substance
        and row.cells["form"] == "aqueous solution"
        and number(row, "percent_from") == Fraction(low)
    ]
    assert len(found) == 1, [row.id for row in found]
    assert found[0].cells["h_codes"] == CLP_ANNEX_VI[band]
    upper = found[0].cells.get("percent_below", "")
    assert upper.value == Fraction(below) if isinstance(upper, Quantity) else below is None


@pytest.mark.parametrize(("id", "mass", "density"), DENSITY_AT_LIMIT)
def test_limits_in_moles_follow_from_the_limits_in_per_cent(
    id: str, mass: str, density: str
) -> None:
    row = facts("hazards")[id]
    moles = number(row, "percent_from") * Fraction(density) * 10 / Fraction(mass)
    assert number(row, "conc_from") == pytest.approx(float(moles), rel=0.005)


def test_class_acids_stay_below_the_corrosive_band() -> None:
    corrosive: dict[str, Fraction] = {}
    for row in facts("hazards").values():
        least = row.cells.get("conc_from")
        if "H314" in str(row.cells["h_codes"]) and isinstance(least, Quantity):
            name = str(row.cells["substance"])
            corrosive[name] = min(least.value, corrosive.get(name, least.value))
    used = [row for row in facts("salts").values() if row.cells["class_use"] == "yes"]
    assert used
    for row in used:
        assert number(row, "acid_conc_to") < corrosive[str(row.cells["acid"])], row.id


def test_every_hazard_code_in_a_band_has_its_statement() -> None:
    known = facts("h_statements")
    for row in facts("hazards").values():
        codes = [code for code in str(row.cells["h_codes"]).split(";") if code]
        assert all(code in known for code in codes), row.id
