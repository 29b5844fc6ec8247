"""A formula with its numbers, as a pupil writes it."""

from __future__ import annotations

from fractions import Fraction

import pytest

from drill.generate.text.rendering import Writer
from drill.quantities import Expression, Quantity, parse, unit_of


def amount(text: str, unit: str = "") -> Quantity:
    found = unit_of(unit)
    assert found
    return Quantity(Fraction(text), found, len(text.partition(".")[2]))


VALUES = {
    "a": amount("12"),
    "b": amount("3"),
    "cold": amount("-5.0", "°C"),
    "warm": amount("21.0", "°C"),
    "volume": amount("25.0", "cm3"),
    "litre": amount("0.5", "dm3"),
    "conc": amount("1.00", "mol/dm3"),
    "titres": (amount("23.90", "cm3"), amount("24.10", "cm3"), amount("30.00", "cm3")),
    "side": amount("2.0", "cm"),
}


def lines(formula: str) -> list[str]:
    read = parse(formula)
    assert isinstance(read, Expression), read
    writer = Writer(VALUES)
    written = writer.write(read.node)
    return [*writer.conversions, written]


@pytest.mark.parametrize(
    ("formula", "expected"),
    [
        ("a + b", "12 + 3"),
        ("100 * a / b", "100 × 12 ÷ 3"),
        ("a * (b / 2)", "12 × 3 ÷ 2"),
        ("a / (b * 2)", "12 ÷ (3 × 2)"),
        ("a / (b / 2)", "12 ÷ (3 ÷ 2)"),
        ("a - (b - 2)", "12 − (3 − 2)"),
        ("a - (b + 2)", "12 − (3 + 2)"),
        ("a + (b - 2)", "12 + 3 − 2"),
        ("(a + b) * 2", "(12 + 3) × 2"),
        ("2 * (a + b)", "2 × (12 + 3)"),
        ("a * b + 2", "12 × 3 + 2"),
        ("-a + b", "−12 + 3"),
        ("b - -a", "3 − (−12)"),
        ("a ^ 2", "12²"),
        ("(a + b) ^ 2", "(12 + 3)²"),
        ("side ^ 3", "(2.0 cm)³"),
        ("2 ^ -1", "2⁻¹"),
        ("warm - cold", "21.0 °C − (−5.0 °C)"),
        ("cold - warm", "−5.0 °C − 21.0 °C"),
        ("mean(titres)", "(23.90 + 24.10 + 30.00) cm3 ÷ 3"),
        ("mean(drop_anomaly(titres))", "(23.90 + 24.10) cm3 ÷ 2"),
        ("mean([a, b])", "(12 + 3) ÷ 2"),
        ("sum(titres)", "(23.90 + 24.10 + 30.00) cm3"),
        ("range(titres)", "30.00 cm3 − 23.90 cm3"),
        ("half_range(titres)", "(30.00 cm3 − 23.90 cm3) ÷ 2"),
        ("gradient(1, a, 3, b)", "(3 − 12) ÷ (3 − 1)"),
        ("percent_change(a, b)", "(3 − 12) ÷ 12 × 100"),
        ("percent_of(b, a)", "3 ÷ 12 × 100"),
        ("percent_error(b, a)", "(12 − 3) ÷ 12 × 100"),
        ("sqrt(a * b)", "√(12 × 3)"),
        ("abs(b - a)", "12 − 3"),
        ("abs(a - b)", "12 − 3"),
        ("if(a > b, a - b, b - a)", "12 − 3"),
        ("round(a / b, 2)", "12 ÷ 3"),
        ("a * (4.18 in J/(g °C))", "12 × 4.18 J/(g °C)"),
        ("max(a, b)", "12"),
    ],
)
def test_formulae(formula, expected):
    assert lines(formula) == [expected]


def test_a_conversion_stands_on_a_line_of_its_own():
    assert lines("conc * (volume in dm3)") == [
        "25.0 cm3 = 0.0250 dm3",
        "1.00 mol/dm3 × 0.0250 dm3",
    ]
    assert lines("conc * (litre in dm3)") == ["1.00 mol/dm3 × 0.5 dm3"]
    assert lines("(volume in dm3) + (volume in dm3)")[:1] == ["25.0 cm3 = 0.0250 dm3"]
    assert len(lines("(volume in dm3) + (volume in dm3)")) == 2
