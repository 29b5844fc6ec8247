"""What was typed, read as numbers with units."""

from __future__ import annotations

from fractions import Fraction

import pytest

from drill.marking.numeric.final_answer import read_answer
from drill.typed.typed_text import tidy


def read(typed: str) -> tuple[Fraction | None, str]:
    number = read_answer(tidy(typed)).chosen
    return (number.value, number.unit) if number else (None, "")


@pytest.mark.parametrize(
    ("typed", "value"),
    [
        ("3.40", "3.4"), (".5", "0.5"), ("5.", "5"), ("-2.5", "-2.5"), ("− 2.5", "-2.5"),
        ("+2.5", "2.5"), ("1 500", "1500"), ("1,500", "1500"), ("12,345.6", "12345.6"),
        ("1 234 567", "1234567"), ("1.2x10^-3", "0.0012"), ("1.2 × 10⁻³", "0.0012"),
        ("1.2*10^-3", "0.0012"), ("1.2e-3", "0.0012"), ("1.2E3", "1200"), ("1.2 x 10-3", "0.0012"),
        ("1.2 x 10^3", "1200"), ("1.2×10**3", "1200"), ("10^-3", "0.001"),
        ("1.2 x 10 to the power of -3", "0.0012"), ("3/4", "3/4"), ("1 3/4", "7/4"),
        ("1:4", "1/4"), ("1 : 4", "1/4"), ("= 4.12", "4.12"), ("x = 4.12", "4.12"),
        ("answer: 4.12", "4.12"), ("about 4.12", "4.12"), ("~4.12", "4.12"), ("≈ 4.12", "4.12"),
        ("the mass is 4.12", "4.12"), ("12.4 ± 0.2", "12.4"), ("12.4 +/- 0.2", "12.4"),
        ("31.42 - 29.87 = 1.55", "1.55"), ("31.42-29.87=1.55", "1.55"), ("= 1.55 (3 s.f.)", "1.55"),
        ("1.55 to 2 d.p.", "1.55"), ("so 4.12", "4.12"), ("4.12 because 53.02 - 48.90", "4.12"),
        ("n = 0.025\nm = 0.025 x 249.5 = 6.24", "6.24"), ("4.12 = 53.02 - 48.90", "4.12"),
        ("three", "3"), ("half", "1/2"), ("not 4.10 but 4.12", "4.12"), ("-0.5", "-0.5"),
    ],
)  # fmt: skip
def test_numbers(typed, value):
    assert read(typed)[0] == Fraction(value)


@pytest.mark.parametrize(
    ("typed", "unit"),
    [
        ("4.12 g", "g"), ("4.12g", "g"), ("25 cm3", "cm3"), ("25cm^3", "cm^3"), ("25 cm³", "cm^3"),
        ("25 ml", "ml"), ("0.1 mol/dm3", "mol/dm3"), ("0.1 mol dm-3", "mol dm-3"),
        ("0.1 mol dm^-3", "mol dm^-3"), ("0.1 mol per dm3", "mol per dm3"), ("66 %", "%"),
        ("66 percent", "%"), ("66 per cent", "%"), ("21.5 °C", "°C"), ("21.5 C", "C"),
        ("1.2 cm3/s", "cm3/s"), ("1.2 cm3 s-1", "cm3 s-1"), ("4.12 grams", "grams"), ("4.12", ""),
        ("4.12 g of salt", "g"), ("12.4 ± 0.2 cm3", "cm3"), ("1.5 x 10^3 J", "J"),
    ],
)  # fmt: skip
def test_units(typed, unit):
    assert read(typed)[1] == unit


@pytest.mark.parametrize("typed", ["3,5", "3,50", "0,500 g", "12,4"])
def test_a_decimal_comma_is_asked_about(typed):
    assert (
        read_answer(typed).meant
        == f"Did you mean {typed.split()[0].replace(',', '.')}? Use a point."
    )


@pytest.mark.parametrize(
    "typed",
    ["20-25", "20 to 25", "between 20 and 25", "4.12 or 4.21", "4.12, 4.21", "4.12 and 4.2"],
)
def test_two_values_are_not_chosen_between(typed):
    answer = read_answer(typed)
    assert answer.chosen is None
    assert len(answer.rivals) == 2


@pytest.mark.parametrize("typed", ["", "dunno", "H2O", "cm3", "x", "?"])
def test_no_number_at_all(typed):
    assert read_answer(typed) == read_answer("") or read_answer(typed).chosen is None


def test_a_sum_is_no_value():
    answer = read_answer("53.02 - 48.90")
    assert answer.chosen is None
    assert answer.sum_only
