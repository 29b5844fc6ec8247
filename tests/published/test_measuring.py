"""Scales and densities of the bank, held against standards and handbook values.

Graduations: ASTM E1272-02 table 1 for cylinders, ISO 385:2005 for a 50 cm3 burette (0.1 cm3).
Densities at 20 °C: CRC Handbook, concentrative properties of aqueous solutions (from memory):
sodium chloride of 26 % 1.197 g/cm3, sucrose of 24 % 1.099 and of 60 % 1.287 g/cm3.
"""

from __future__ import annotations

import re
from fractions import Fraction

import pytest

from drill.generate import generate
from drill.model import NumberKey, Question, Template
from tests.common.shipped import shipped_bank

BANK = shipped_bank()
GRADUATIONS = {"10": "0.2", "25": "0.5", "50": "1", "100": "1"}
DENSEST = {"salt solution": 1.197, "sugar solution": 1.287, "syrup": 1.40}


def question_of(id_: str, seed: int) -> Question:
    template = BANK.template(id_)
    assert isinstance(template, Template)
    question = generate(template, seed)
    assert isinstance(question, Question)
    return question


def answer(question: Question, part: int) -> Fraction:
    key = question.parts[part].key
    assert isinstance(key, NumberKey)
    return key.value


@pytest.mark.parametrize("seed", range(12))
def test_a_cylinder_is_read_to_half_a_published_graduation(seed: int) -> None:
    question = question_of("measure/read-cylinder", seed)
    (capacity,) = re.findall(r"(\d+) cm3 measuring", question.parts[0].ask)
    half = Fraction(GRADUATIONS[capacity]) / 2
    assert answer(question, 0) % half == 0
    assert answer(question, 0) <= int(capacity)


@pytest.mark.parametrize("seed", range(12))
def test_a_burette_is_read_to_half_a_published_graduation(seed: int) -> None:
    assert answer(question_of("measure/read-burette", seed), 0) % Fraction("0.05") == 0


@pytest.mark.parametrize("seed", range(12))
def test_a_solution_is_no_denser_than_it_can_be(seed: int) -> None:
    question = question_of("measure/density-from-a-graph", seed)
    liquid = next(name for name in DENSEST if name.lower() in question.parts[0].ask.lower())
    assert 1 < float(answer(question, 0)) <= DENSEST[liquid]
