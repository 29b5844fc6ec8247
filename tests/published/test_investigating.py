"""Words for results and a fall in temperature, held against published definitions and values.

Precise and accurate: OpenStax Chemistry 2e section 1.5 with its table of three dispensers of 296
cm3 (read in a stored copy). Precision, repeatability: JCGM 200:2012 (VIM) 2.13, 2.15, 2.21 (from
memory). Heat taken in by dissolving: 17.2 kJ/mol for KCl and 14.8 kJ/mol for NH4Cl, CRC Handbook
(from memory); 4.18 J for 1 g of solution and 1 °C is common practice.
"""

from __future__ import annotations

import re

import pytest

from drill.generate import generate
from drill.marking import mark
from drill.model import Question, Template
from tests.common.shipped import shipped_bank

BANK = shipped_bank()
TARGET = 296.0
DISPENSERS = {
    "precise": [283.3, 284.1, 283.9, 284.0, 284.1],
    "accurate": [298.3, 294.2, 296.0, 297.8, 293.9],
    "both": [296.1, 295.9, 296.1, 296.0, 296.1],
}
SOLUTION = {"potassium chloride": (74.55, 17.2), "ammonium chloride": (53.49, 14.8)}


def question_of(id_: str, seed: int) -> Question:
    template = BANK.template(id_)
    assert isinstance(template, Template)
    question = generate(template, seed)
    assert isinstance(question, Question)
    return question


def spread(results: list[float]) -> float:
    return max(results) - min(results)


def off(results: list[float], true: float) -> float:
    return abs(sum(results) / len(results) - true)


def test_the_published_table_is_judged_as_published() -> None:
    table = DISPENSERS
    assert spread(table["precise"]) < spread(table["accurate"])
    assert off(table["accurate"], TARGET) < off(table["precise"], TARGET)
    assert spread(table["both"]) < spread(table["precise"])
    assert off(table["both"], TARGET) < 0.1


@pytest.mark.parametrize("seed", range(12))
def test_two_teams_are_judged_by_the_same_two_numbers(seed: int) -> None:
    question = question_of("investigating/judge-two-teams", seed)
    (true,) = (float(value) for value in re.findall(r"true value is ([\d.]+) %", question.text))
    teams = {
        name: [float(value) for value in values]
        for name, *values in re.findall(
            r"Team (\w+): ([\d.]+), ([\d.]+) and ([\d.]+)", question.text
        )
    }
    nearer = min(teams, key=lambda name: off(teams[name], true))
    assert f"{nearer} is" in question.parts[0].model_answer.replace(" also", "")
    widths = {name: round(spread(results), 1) for name, results in teams.items()}
    same = widths["Red"] == widths["Blue"]
    precise = (
        "equally precise" if same else f"{min(widths, key=widths.__getitem__)} is more precise"
    )
    answer = f"{precise}. {nearer} is more accurate, because its mean is nearer to the true value."
    assert mark(question.parts[0], f"Both are {answer}" if same else answer).marks == 2


@pytest.mark.parametrize("seed", range(12))
def test_a_salt_cools_water_by_less_than_its_published_heat_allows(seed: int) -> None:
    question = question_of("investigating/complete-the-changes", seed)
    molar, heat = next(value for name, value in SOLUTION.items() if name in question.text)
    rows = re.findall(r"([\d.]+) \| ([\d.]+) \| ([\d.]+) \| _", question.parts[0].ask)
    assert len(rows) == 3
    for mass, start, end in ((float(m), float(s), float(e)) for m, s, e in rows):
        most = 1000 * heat * mass / molar / (4.18 * (25 + mass))
        assert 0.5 * most < start - end < 1.05 * most
