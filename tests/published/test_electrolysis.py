"""Electrolysis in the bank, against Faraday's law, electrode potentials and a worked example.

Faraday constant: 96485.332 C/mol (CODATA). Copper 63.546 g/mol: Prohaska and others, Standard
atomic weights 2021. Worked example: OpenStax Chemistry 2e example 17.9, 10.23 A for one hour give
41.19 g of silver, of 107.9 g/mol. Standard electrode potentials in V: CRC Handbook of Chemistry and
Physics, Electrochemical Series (values from memory).
"""

from __future__ import annotations

import csv
import re
from pathlib import Path

import pytest

from drill.generate import generate
from drill.model import Question, Template
from drill.places import bank_dir
from tests.common.shipped import shipped_bank

FARADAY = 96485.332
POTENTIALS = {"copper(II)": 0.34, "sodium": -2.71, "potassium": -2.93, "magnesium": -2.37}
HALIDES = ("chloride", "bromide", "iodide")


def mass(amperes: float, seconds: float, molar_mass: float, electrons: int) -> float:
    return amperes * seconds / FARADAY / electrons * molar_mass


def rows(table: str) -> list[dict[str, str]]:
    with (Path(bank_dir()) / "facts" / f"{table}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_the_law_gives_the_worked_example() -> None:
    assert mass(10.23, 3600, 107.9, 1) == pytest.approx(41.19, abs=0.01)


@pytest.mark.parametrize("seed", range(20))
def test_masses_of_copper_follow_the_law(seed: int) -> None:
    template = shipped_bank().template("electrolysis/table-of-currents")
    assert isinstance(template, Template)
    question = generate(template, seed)
    assert isinstance(question, Question)
    (minutes,) = re.findall(r"for (\d+) min", question.text)
    (current,) = re.findall(r"at ([\d.]+) A", question.text)
    runs = [float(run) for run in re.findall(r"\d+", question.text.split("electrode:")[1])]
    expected = 1000 * mass(float(current), 60 * float(minutes), 63.546, 2)
    assert sum(runs) / len(runs) == pytest.approx(expected, abs=4)


@pytest.mark.parametrize("row", rows("electrode_products"), ids=lambda row: row["id"])
def test_products_follow_from_potentials_and_halides(row: dict[str, str]) -> None:
    metal = next(volts for name, volts in POTENTIALS.items() if name in row["solution"])
    assert (row["negative"] == "hydrogen") == (metal < 0)
    assert (row["positive"] == "oxygen") == (not row["solution"].endswith(HALIDES))


@pytest.mark.parametrize("row", rows("half_equations"), ids=lambda row: row["id"])
def test_half_equations_gain_at_the_negative_electrode(row: dict[str, str]) -> None:
    left, right = row["equation"].split("->")
    assert ("e-" in left) == (row["electrode"] == "negative")
    assert ("e-" in right) == (row["electrode"] == "positive")
