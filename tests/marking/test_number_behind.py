"""A value first and its working behind; a number of the question behind "in" or "per"."""

from __future__ import annotations

import pytest

from drill.frozen import replace
from drill.marking import mark
from tests.marking.making import chain, number_key, part

WEIGHED = chain({"a": ("4.94", "g"), "b": ("1.36", "g")}, {"m": ("a - b", "g")})
MASS = replace(
    part("number", number_key(WEIGHED, "m", "g", decimals=2), {"value": 1}),
    ask="A basin and crystals are 4.94 g. The basin is 1.36 g. Calculate the mass of the crystals.",
)
DISSOLVED = chain({"s": ("18.5", "g")}, {"m": ("s * 2", "g")})
SOLUBLE = replace(
    part("number", number_key(DISSOLVED, "m", "g"), {"value": 1}),
    ask="18.5 g dissolve in 50 g of water. Calculate how much dissolves in 100 g of water.",
)
LINKS = (
    "coz you do", "because", "as", "since", "from", "cos it's", "cuz", "bc you do", "by doing",
    "when you do", "which is", "using", "through", ", you do", ", I did", ":", ".", "because it is",
)  # fmt: skip
SUMS = ("4.94-1.36", "4.94 - 1.36", "4.94 minus 1.36", "4.94 take away 1.36")


@pytest.mark.parametrize("link", LINKS)
@pytest.mark.parametrize("sum_", SUMS)
@pytest.mark.parametrize("value", ["3.58", "3.58 g", "3.58g"])
def test_the_value_stands_before_its_working(value, link, sum_):
    assert mark(MASS, f"{value} {link} {sum_}".replace(" ,", ",").replace(" :", ":")).marks == 1


@pytest.mark.parametrize("link", LINKS[:8])
def test_a_wrong_value_stays_wrong_whatever_is_behind(link):
    for wrong in ("6.30", "4.94", "1.36", "3.85"):
        assert mark(MASS, f"{wrong} g {link} 4.94-1.36").marks == 0
        assert mark(MASS, f"{wrong} {link} 3.58").marks == 0


@pytest.mark.parametrize(
    "typed",
    ["3.58 (4.94-1.36)", "3.58g of the 4.94g", "3.58 is the difference between 4.94 and 1.36",
     "4.94-1.36=3.58", "4.94 - 1.36 so 3.58"],
)  # fmt: skip
def test_other_ways_with_the_given_numbers(typed):
    assert mark(MASS, typed).marks == 1


@pytest.mark.parametrize(
    "typed", ["3.58 or 1.36", "3.58 and 4.94", "4.94-1.36", "1.36 (4.94-1.36)"]
)
def test_two_values_or_a_bare_sum_are_no_answer(typed):
    assert mark(MASS, typed).marks == 0


@pytest.mark.parametrize("value", ["37 g", "37g", "37 grams"])
@pytest.mark.parametrize(
    "basis",
    ["in 100 g of water", "per 100 g", "/100 g", "for every 100 g", "in 100g water", "per 100",
     "of salt in 100 g", "out of 100 g"],
)  # fmt: skip
def test_the_basis_of_the_question_is_no_rival(value, basis):
    assert mark(SOLUBLE, f"{value} {basis}").marks == 1
    assert mark(SOLUBLE, f"18.5 {basis}").marks == 0


@pytest.mark.parametrize("typed", ["37 g in 50 g", "37 or 100", "37 and 100 g", "100 g in 37 g"])
def test_another_basis_or_two_values(typed):
    assert mark(SOLUBLE, typed).marks == 0
