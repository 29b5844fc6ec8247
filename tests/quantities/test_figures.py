"""Rounding is exact, on ties as schools do it, and numbers are shown as they would be written."""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drill.quantities import (
    Quantity,
    decimals_of,
    figures_between,
    figures_of,
    half_even,
    half_up,
    show,
    show_decimals,
    show_figures,
    to_figures,
)
from drill.quantities.figures import exponent_of
from tests.quantities.helpers import bounded, unit

DECIMALS = st.decimals(-(10**6), 10**6, allow_nan=False, places=6)
PLACES = st.integers(0, 6)


@bounded
@given(DECIMALS, PLACES)
def test_rounding_agrees_with_the_decimal_module(value: Decimal, places: int) -> None:
    step = Decimal(1).scaleb(-places)
    exact = Fraction(value)
    assert half_up(exact, places) == Fraction(value.quantize(step, ROUND_HALF_UP))
    assert half_even(exact, places) == Fraction(value.quantize(step, ROUND_HALF_EVEN))


def test_a_tie_goes_up_in_size_or_to_the_even_digit() -> None:
    assert half_up(Fraction("2.675"), 2) == Fraction("2.68")
    assert half_up(Fraction("-2.5"), 0) == -3
    assert half_even(Fraction("0.125"), 2) == Fraction("0.12")
    assert half_up(Fraction(1250), -2) == 1300


@bounded
@given(st.fractions().filter(bool), st.integers(1, 8))
def test_figures_leave_at_most_half_a_step(value: Fraction, figures: int) -> None:
    rounded = to_figures(value, figures)
    step = Fraction(10) ** (exponent_of(value) - figures + 1)
    assert abs(rounded - value) <= step / 2
    assert (rounded / step).denominator == 1


@bounded
@given(st.fractions().filter(bool))
def test_the_exponent_is_that_of_the_first_digit(value: Fraction) -> None:
    power = Fraction(10) ** exponent_of(value)
    assert power <= abs(value) < 10 * power


@pytest.mark.parametrize(
    ("value", "figures", "text"),
    [
        ("66", 3, "66.0"),
        ("0.025", 3, "0.0250"),
        ("9.996", 3, "10.0"),
        ("1234", 2, "1200"),
        ("0.00009876", 2, "9.9 × 10^-5"),
        ("0.0001", 1, "0.0001"),
        ("9999999", 3, "1.00 × 10^7"),
        ("12345678", 3, "1.23 × 10^7"),
        ("-0.5", 1, "-0.5"),
        ("0", 3, "0.00"),
    ],
)
def test_figures_are_shown(value: str, figures: int, text: str) -> None:
    assert show_figures(Fraction(value), figures) == text


def test_places_are_shown() -> None:
    assert show_decimals(Fraction("12.4"), 2) == "12.40"
    assert show_decimals(Fraction("-0.004"), 2) == "0.00"
    assert show_decimals(Fraction("0.05"), 1) == "0.1"
    assert show_decimals(Fraction("-12.5"), 0) == "-13"


@bounded
@given(DECIMALS, PLACES)
def test_what_is_shown_in_places_reads_back_rounded(value: Decimal, places: int) -> None:
    text = show_decimals(Fraction(value), places)
    assert Fraction(text) == half_up(Fraction(value), places)
    assert decimals_of(text) == places


@bounded
@given(st.fractions(Fraction(1, 10**4), 10**6), st.integers(1, 6))
def test_what_is_shown_to_figures_reads_back_rounded(value: Fraction, figures: int) -> None:
    text = show_figures(value, figures)
    assert Fraction(text) == to_figures(value, figures)
    between = figures_between(text)
    assert between is not None
    assert between[0] <= figures <= max(between[1], figures)
    assert figures_of(text) in (figures, None)


def test_a_quantity_is_shown_with_its_unit() -> None:
    assert show(Quantity(Fraction("12.4"), unit("g"), 2)) == "12.40 g"
    assert show(Quantity(Fraction("12.4"), unit("g"), 2), unit=False) == "12.40"
    assert show(Quantity(Fraction(2, 3), unit("%"), figures=3)) == "0.667 %"
    assert show(Quantity(Fraction("0.0125"), unit("mol"))) == "0.0125 mol"
    assert show(Quantity(Fraction(2, 3))) == "0.6667"
    assert show(Quantity(Fraction(1, 10**7))) == "1.000 × 10^-7"
    assert show(Quantity(Fraction(65300), unit("N/m"))) == "65300 N/m"


@pytest.mark.parametrize(
    ("text", "figures", "between", "decimals"),
    [
        ("0.0250", 3, (3, 3), 4),
        ("1500", None, (2, 4), 0),
        ("1500.", 4, (4, 4), 0),
        ("12.40", 4, (4, 4), 2),
        ("1.20e-3", 3, (3, 3), 5),
        ("-7", 1, (1, 1), 0),
        (".5", 1, (1, 1), 1),
        ("0", None, None, 0),
        ("0.00", None, None, 2),
        ("1e", None, None, 0),
        ("twelve", None, None, 0),
        ("", None, None, 0),
        ("١٢", None, None, 0),
    ],
)
def test_figures_of_typed_numbers(
    text: str, figures: int | None, between: tuple[int, int] | None, decimals: int
) -> None:
    assert figures_of(text) == figures
    assert figures_between(text) == between
    assert decimals_of(text) == decimals


@bounded
@given(st.text(max_size=30))
def test_counting_figures_never_raises(text: str) -> None:
    figures_of(text)
    assert decimals_of(text) >= 0
