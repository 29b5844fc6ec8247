"""What the bank says of ions, held against published values.

Sources, each typed in here apart from the bank's own tables:

* CRC Handbook of Chemistry and Physics, line spectra of the elements: strong lines of neutral
  atoms in air, in nm; from memory.
* OpenStax, Chemistry 2e, appendix J: solubility products at 25 °C; from memory.
* OpenStax, Chemistry 2e, example 4.3: barium sulfate and silver chloride precipitate.
"""

from __future__ import annotations

import csv
from fractions import Fraction

import pytest

from drill.bank import read_template
from drill.generate import generate
from drill.model import NumberKey, Question, Template
from drill.places import bank_dir

LINES = {
    "lithium": ("610.36", "670.78"), "sodium": ("589.00", "588.99"),
    "potassium": ("404.41", "766.49"), "calcium": ("422.67", "422.67"),
    "strontium": ("460.73", "460.73"),
}  # fmt: skip

# ions of the solid, and its solubility product
SOLUBILITY_PRODUCTS = {
    "AgCl": (2, 1.6e-10), "AgBr": (2, 5.0e-13), "AgI": (2, 1.5e-16), "BaSO4": (2, 2.3e-8),
    "CuOH2": (3, 2.2e-20), "FeOH2": (3, 1.8e-15), "FeOH3": (4, 4e-38), "AlOH3": (4, 2e-32),
    "MgOH2": (3, 8.9e-12), "CaOH2": (3, 1.3e-6),
}  # fmt: skip
SCHOOL_REAGENT = 0.05  # mol/dm3, as a drop leaves it in the tube; common practice


def rows(table: str) -> dict[str, dict[str, str]]:
    with (bank_dir() / "facts" / f"{table}.csv").open(encoding="utf-8", newline="") as file:
        return {row["id"]: row for row in csv.DictReader(file)}


@pytest.mark.parametrize("metal", rows("line_spectra"))
def test_lines_are_those_published(metal: str) -> None:
    row = rows("line_spectra")[metal]
    for column, published in zip(("first (nm)", "second (nm)"), LINES[metal], strict=True):
        assert abs(Fraction(row[column]) - Fraction(published)) <= Fraction(1, 2)


@pytest.mark.parametrize("id", rows("ion_precipitates"))
def test_every_precipitate_forms_from_school_solutions(id: str) -> None:
    ions, product = SOLUBILITY_PRODUCTS[id]
    assert SCHOOL_REAGENT**ions > 10 * product


def test_charges_and_atoms_of_precipitates_agree() -> None:
    for row in rows("ion_precipitates").values():
        assert row["equation"].endswith(f"-> {row['formula']}(s)")
        assert row["also"].endswith(f"-> {row['formula']}(s)")
    assert {"AgCl", "BaSO4"} <= set(rows("ion_precipitates"))


def test_standards_hold_what_was_taken_of_the_stock() -> None:
    """Dilution keeps the amount: c1 V1 = c2 V2 (OpenStax, Chemistry 2e, section 3.4)."""
    read = read_template(bank_dir() / "ions/standards.toml", bank_dir())
    assert isinstance(read, Template), read
    for seed in range(30):
        question = generate(read, seed)
        assert isinstance(question, Question), question
        words = question.text.replace(",", " ").split()
        stock, weak, strong = (
            Fraction(words[at - 1]) for at, word in enumerate(words) if word.startswith("mg/dm3")
        )
        total = next(Fraction(words[at - 1]) for at, word in enumerate(words) if word == "cm3")
        taken, water = (part.key for part in question.parts)
        assert isinstance(taken, NumberKey)
        assert isinstance(water, NumberKey)
        assert stock * taken.value == weak * total
        assert stock * (total - water.value) == strong * total
