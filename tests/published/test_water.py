"""Water samples of the bank, against a standard method and published values of sea water.

Dissolved solids: Standard Methods for the Examination of Water and Wastewater, 2540 C: milligrams
in a litre are (A - B) x 1000 / cm3 of sample, A and B being the dish with and without residue in
mg. Sea water: Millero and others, Deep-Sea Research I 55 (2008), 35.165 g of salt in 1 kg, at a
density of 1.025 kg/dm3 (common practice); its mean ion weighs 31.4 g/mol (the same paper, from
memory). Boiling point: 0.512 °C for 1 mol of particles in 1 kg of water, as OpenStax Chemistry 2e
table 11.2 has it (value read elsewhere, table from memory).
"""

from __future__ import annotations

import re

import pytest

from drill.generate import generate
from drill.marking import mark
from drill.model import Question, Template
from tests.common.shipped import shipped_bank

BANK = shipped_bank()
SALT_IN_KG = 35.165


def question_of(id_: str, seed: int) -> Question:
    template = BANK.template(id_)
    assert isinstance(template, Template)
    question = generate(template, seed)
    assert isinstance(question, Question)
    return question


@pytest.mark.parametrize("seed", range(12))
def test_dissolved_solids_follow_the_standard_method(seed: int) -> None:
    question = question_of("water/dissolved-solids", seed)
    (volume,) = re.findall(r"(\d+) cm3", question.text)
    empty, full = (1000 * float(mass) for mass in re.findall(r": ([\d.]+) g", question.text))
    in_mg = (full - empty) * 1000 / float(volume)
    part = question.parts[0]
    assert mark(part, f"{in_mg / 1000:.2g} g/dm3").marks == part.marks


def sea_water(seed: int) -> tuple[float, float]:
    """Boiling point, and grams left from 50 cm3: the sample that leaves most."""
    rows = re.findall(r"boils at ([\d.]+) °C, ([\d.]+) g", question_of(SAMPLES, seed).text)
    return max(((float(boils), float(solid)) for boils, solid in rows), key=lambda row: row[1])


SAMPLES = "water/compare-samples"


@pytest.mark.parametrize("seed", range(12))
def test_the_sea_water_is_as_salt_as_the_published_one(seed: int) -> None:
    _, solid = sea_water(seed)
    assert solid / 0.050 == pytest.approx(SALT_IN_KG * 1.025, rel=0.12)


@pytest.mark.parametrize("seed", range(12))
def test_the_sea_water_boils_as_its_ions_make_it(seed: int) -> None:
    boils, _ = sea_water(seed)
    particles = SALT_IN_KG / 31.4 / (1 - SALT_IN_KG / 1000)
    assert boils - 100 == pytest.approx(0.512 * particles, abs=0.12)
