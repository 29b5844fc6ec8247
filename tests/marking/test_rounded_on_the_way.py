"""A value on the way rounded to one or two figures: told by its name, one mark lost."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.marking.making import chain, marks, number, number_key, verdict

WORK = {
    "amount": ("mass / (246 in g/mol)", "mol"),
    "salt": ("amount * (120 in g/mol)", "g"),
    "share": ("100 * salt / mass", "%"),
}
CHAIN = chain({"mass": ("5.00", "g")}, WORK)
AWARD = {"method": 1, "value": 1}
PART = number(number_key(CHAIN, "salt", "g", award=AWARD))


def test_three_figures_on_the_way_are_right():
    assert marks(PART, "2.44 g") == 2
    assert marks(PART, "2.436") == 2  # 0.0203 mol x 120 g/mol


def test_two_figures_on_the_way_lose_the_value_and_keep_the_method():
    mark = verdict(PART, "2.40")  # 0.020 mol x 120 g/mol
    assert (mark.marks, mark.slip) == (1, "rounded-on-the-way")
    assert "It follows from amount rounded to 2 figures: keep 3 or more until the end." in mark.says


def test_two_figures_of_the_answer_tell_nothing_of_the_way():
    """2.4 is a correct rounding of 2.439, and 2.5 could come about in any way."""
    assert marks(PART, "2.4") == 2
    assert verdict(PART, "2.5").slip != "rounded-on-the-way"


@pytest.mark.parametrize("typed", ["2.31", "1.00", "3.999", "24.0"])
def test_what_does_not_follow_is_not_blamed_on_rounding(typed):
    assert verdict(PART, typed).slip != "rounded-on-the-way"


def test_a_value_carried_forward_is_rounded_on_the_way_too():
    after = chain({"mass": ("5.00", "g")}, WORK, {"a": "amount"})
    part = number(number_key(after, "share", "%", award=AWARD))
    # 0.0210 mol typed for (a): 2.52 g, 50.4 %; with the mass of salt as 2.5 g, 50.0 %
    mark = verdict(part, "50.0", {"a": Fraction("0.0210")})
    assert (mark.marks, mark.slip) == (1, "rounded-on-the-way")
