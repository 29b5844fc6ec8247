"""Boiling points, melting points and a crystallisation of the bank, against handbook values.

Boiling and melting points: CRC Handbook of Chemistry and Physics, 95th edition (2014), section 3,
Physical Constants of Organic Compounds, in °C to one place. Solubility of potassium nitrate: the
same handbook, 98th edition (2017), section 5, Aqueous Solubility, in per cent by mass.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from drill.generate import generate
from drill.marking import mark
from drill.model import Question, Template
from drill.places import bank_dir
from tests.common.shipped import shipped_bank

BOILS = {
    "propanone": 56.1, "ethanol": 78.2, "propan-2-ol": 82.3, "propan-1-ol": 97.0,
    "heptane": 98.4, "butan-1-ol": 117.6, "octane": 125.6, "nonane": 150.8,
}  # fmt: skip
MELTS = {
    "benzoic acid": 122.3, "naphthalene": 80.2, "stearic acid": 69.3, "salicylic acid": 158.6,
    "vanillin": 81.0, "urea": 132.4,
}  # fmt: skip
NITRATE_PERCENT = {"0": 12.0, "10": 17.6, "20": 24.2, "25": 27.7}


def column(table: str, heading: str) -> dict[str, float]:
    path = Path(bank_dir()) / "facts" / f"{table}.csv"
    with path.open(encoding="utf-8", newline="") as file:
        return {row["name"]: float(row[heading]) for row in csv.DictReader(file)}


def test_boiling_points_are_the_handbook_ones() -> None:
    assert column("liquids", "bp (°C)") == pytest.approx(BOILS, abs=0.5)


def test_melting_points_are_the_handbook_ones() -> None:
    assert column("melting_points", "mp (°C)") == pytest.approx(MELTS, abs=0.5)


@pytest.mark.parametrize("seed", range(12))
def test_what_stays_dissolved_follows_from_the_handbook(seed: int) -> None:
    template = shipped_bank().template("separating/stays-dissolved")
    assert isinstance(template, Template)
    question = generate(template, seed)
    assert isinstance(question, Question)
    words = question.text.split()
    mass, water = [float(words[at - 1]) for at, word in enumerate(words) if word == "g"][:2]
    cold = words[words.index("cooled") + 2]
    share = NITRATE_PERCENT[cold]
    crystals = mass - water * share / (100 - share)
    assert mark(question.parts[0], f"{crystals:.2g} g").marks == question.parts[0].marks
