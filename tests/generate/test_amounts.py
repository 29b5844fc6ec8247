"""Values inside a worked answer are never rounded without a word."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drill.generate.text.amounts import amount_text, converted_text, number_text, places_before
from drill.quantities import PLAIN, Quantity, unit_of


@pytest.mark.parametrize(
    ("value", "decimals", "figures", "expected"),
    [
        ("6.2375", None, None, "6.2375"),
        ("53", 2, None, "53.00"),
        ("53.004", 2, None, "53.004"),  # more than its 2 places: all of it is shown
        ("0.025", None, 3, "0.0250"),
        ("2/3", None, None, "0.666666…"),
        ("200000/3", None, None, "66666.6…"),
        ("1/3000", None, None, "0.000333333…"),
        ("-1/3", None, None, "−0.333333…"),
        ("1/10000000", None, None, "0.0000001"),
        ("12345678", None, None, "12345678"),
        ("0", None, None, "0"),
    ],
)
def test_numbers(value, decimals, figures, expected):
    assert number_text(Quantity(Fraction(value), PLAIN, decimals, figures)) == expected


@settings(max_examples=100, deadline=None)
@given(st.fractions(min_value=-(10**6), max_value=10**6))
def test_what_is_shown_is_the_value_or_its_beginning(value):
    text = number_text(Quantity(value)).replace("−", "-")
    if text.endswith("…"):
        shown = Fraction(text[:-1])
        places = len(text[:-1].partition(".")[2])
        assert 0 <= abs(value) - abs(shown) < Fraction(1, 10**places)
    else:
        assert Fraction(text) == value


@pytest.mark.parametrize(
    ("value", "expected"),
    [("250", 3), ("1000", 4), ("999.9", 3), ("1", 1), ("0.25", 0), ("0.1", 0), ("0.0025", -2)],
)
def test_places_before_the_point(value, expected):
    assert places_before(Fraction(value)) == expected


def test_a_conversion_keeps_the_figures():
    dm3 = unit_of("dm3")
    assert dm3
    assert converted_text("25.0 cm3", Quantity(Fraction(25, 1000), dm3)) == "0.0250 dm3"
    assert converted_text("24.12 cm3", Quantity(Fraction(2412, 100000), dm3)) == "0.02412 dm3"
    # nobody can tell how many figures 40 has
    assert converted_text("40 cm3", Quantity(Fraction(4, 100), dm3)) == "0.04 dm3"
    third = Quantity(Fraction(1, 3000), dm3)
    assert converted_text("0.333333… cm3", third) == "0.000333333… dm3"
    assert amount_text(Quantity(Fraction(5), dm3)) == "5 dm3"
