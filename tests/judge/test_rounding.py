"""Rounding and figures against the decimal module."""

from __future__ import annotations

from decimal import ROUND_DOWN, ROUND_HALF_EVEN, ROUND_HALF_UP, Context, Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drill.judge.rounding import (
    cut_off,
    first_digit,
    half_even,
    half_up,
    to_figures,
    with_figures,
    with_places,
    written,
)

DECIMALS = st.decimals(-(10**6), 10**6, allow_nan=False, places=6)
RULES = {half_up: ROUND_HALF_UP, half_even: ROUND_HALF_EVEN, cut_off: ROUND_DOWN}


@given(DECIMALS, st.integers(0, 5), st.sampled_from(list(RULES)))
def test_places(value, places, rule):
    expected = value.quantize(Decimal(1).scaleb(-places), rounding=RULES[rule])
    assert rule(Fraction(value), places) == Fraction(expected)


@given(DECIMALS, st.integers(1, 6))
def test_figures(value, figures):
    context = Context(prec=figures, rounding=ROUND_HALF_UP)
    assert to_figures(Fraction(value), figures) == Fraction(context.plus(value))


@given(DECIMALS.filter(bool))
def test_the_first_digit(value):
    assert first_digit(Fraction(value)) == value.adjusted()


@given(DECIMALS, st.integers(0, 5))
def test_written_with_places(value, places):
    expected = value.quantize(Decimal(1).scaleb(-places), rounding=ROUND_HALF_UP)
    assert with_places(Fraction(value), places) == f"{expected if expected else abs(expected):f}"


@pytest.mark.parametrize(
    ("value", "figures", "text"),
    [("0.025", 3, "0.0250"), ("66.04", 3, "66.0"), ("2090", 2, "2100"), ("0.0000123", 2,
     "1.2 × 10^-5"), ("0.99996", 3, "1.00"), ("12345678", 3, "1.23 × 10^7"), ("0", 2, "0.0")],
)  # fmt: skip
def test_written_with_figures(value, figures, text):
    assert with_figures(Fraction(value), figures) == text


@pytest.mark.parametrize(
    ("value", "text"), [("1/8", "0.125"), ("1/3", "0.3333"), ("5", "5"), ("1/128", "0.007813")]
)
def test_written_as_short_as_is_exact(value, text):
    assert written(Fraction(value)) == text
