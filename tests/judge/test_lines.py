"""Worked lines read as arithmetic: those that hold, those that do not, those that are words."""

from __future__ import annotations

import pytest

from drill.judge.lines import uneven
from drill.judge.worked import reads
from tests.judge.helpers import amount, amounts

GOOD = [
    "mass of crystals = 45.83 g − 42.43 g = 3.40 g",
    "percentage yield = 100 × 3.40 g ÷ 4.5908 g = 74.0611… %",
    "23.0 cm3 = 0.0230 dm3",
    "amount of acid = 0.80 mol/dm3 × 0.0230 dm3 = 0.0184 mol",
    "mean titre = (23.95 + 24.05) cm3 ÷ 2 = 24 cm3",
    "volume of acid = 0.0240 mol ÷ 0.90 mol/dm3 = 0.0266666… dm3 = 26.6666… cm3",
    "water for one of salt = 0.0461111… mol ÷ 0.00921630… mol = 5.00321…",
    "energy = 100 g × 4.18 J/(g °C) × 5.0 °C = 2090 J",
    "area = (2.0 cm)² = 4 cm2",
    "side = √(16 cm2) = 4 cm",
    "difference = 3.0 g − (−1.0 g) = 4.0 g",
    "formula mass = 63.5 + 32 + 9 × 16 + 10 × 1 = 249.5",
    "small = 1.2 × 10^-5 mol × 2 = 2.4 × 10^-5 mol",
    "To 3 significant figures: 74.1 %",
    "readings that fit = 55.58, 55.59 and 55.58 g",
]
WRONG = [
    "amount of acid = 0.75 mol/dm3 × 0.0290 dm3 = 0.0218 mol",
    "mass of crystals = 45.83 g − 42.43 g = 3.41 g",
    "mass of crystals = 45.83 g + 42.43 g = 3.40 g",
    "percentage yield = 100 × 3.40 g ÷ 4.5908 g = 74.0612… %",
    "23.0 cm3 = 0.230 dm3",
    "amount of acid = 0.80 mol/dm3 × 0.0230 dm3 = 0.0184 g",
    "mean titre = 23.95 + 24.05 cm3 ÷ 2 = 24 cm3",
    "mean titre = (23.95 + 24.05) cm3 ÷ 3 = 24 cm3",
    "area = (2.0 cm)² = 8 cm2",
]


@pytest.mark.parametrize("line", GOOD)
def test_a_line_that_holds(line):
    assert uneven(line) is None


@pytest.mark.parametrize("line", WRONG)
def test_a_line_that_does_not(line):
    assert uneven(line) is not None


@pytest.mark.parametrize(
    ("text", "value", "is_"),
    [
        ("3.40 g", "3.4 g", True),
        ("3.4 kg", "3.4 g", False),
        ("0.0034 kg", "3.4 g", True),
        ("3.41 g", "3.4 g", False),
        ("3.33333… g", "3.333333 g", True),
        ("3.333… g", "3.333333 g", False),
        ("3.33334… g", "3.333333 g", False),
        ("−3.4 g", "-3.4 g", True),
        ("5", "5 %", False),
    ],
)
def test_whether_a_text_is_a_value(text, value, is_):
    assert reads(text, amount(value)) is is_


def test_whether_a_text_is_a_list():
    assert reads("1.0, 2.5 and 3 g", amounts("1 2.5 3 g"))
    assert not reads("1.0, 2.5 and 4 g", amounts("1 2.5 3 g"))
    assert not reads("1.0 and 2.5 g", amounts("1 2.5 3 g"))
