"""Sums as pupils type them: every writing of the same working earns the same method marks."""

from __future__ import annotations

from itertools import product

import pytest

from drill.marking import mark
from tests.marking.making import chain, number, number_key, points_of, verdict

LINKS = chain(
    {"conc": ("0.8", "mol/dm3"), "vol": ("40", "cm3"), "M": ("79.5", "g/mol"), "r": ("1.35", "")},
    {"n": ("conc * (vol in dm3)", "mol"), "m": ("n * M", "g"), "end": ("m * r", "g")},
)
PART = number(
    number_key(LINKS, "end", "g", award={"method": 3, "value": 1}, slips=[("inverted", "m / r", 0)])
)
TIMES = ("x", " x ", "X", "×", " * ", "*", "·", " times ", "✕")
GIVES = ("=", " = ", " is ")
BREAKS = ("; ", ", ", ",", "\n", " so ", " therefore ", " -> ", ". Then ")


@pytest.mark.parametrize(("times", "gives", "between"), list(product(TIMES, GIVES, BREAKS)))
def test_every_writing_of_the_same_working_earns_the_same(times, gives, between):
    steps = (
        f"0.8{times}0.04{gives}0.032",
        f"0.032{times}79.5{gives}2.544",
        f"2.544{times}1.35{gives}3.34",
    )
    assert points_of(PART, between.join(steps)) == {"method": 3, "value": 0}


@pytest.mark.parametrize(
    "typed",
    [
        "0.8 mol/dm3 x 0.04 dm3 = 0.032 mol, 0.032 mol x 79.5 g/mol = 2.544 g, then 9 g",
        "0.8 x 0.04 = 0.032 x 79.5 = 2.544 so the answer is 9",
        "moles = 0.032, mass of oxide 2.54 g, answer 9",
        "n=0.032\nm=2.54\n9",
        "(0.8)(0.04) = 0.032 then 0.032(79.5) = 2.544 so 9",
    ],
)
def test_values_on_the_way_earn_one_mark_each(typed):
    assert points_of(PART, typed) == {"method": 2, "value": 0}


def test_a_slip_on_the_way_costs_no_later_step():
    assert points_of(PART, "0.8x0.04=0.32, 0.32x79.5=25.4, 25.4x1.35=34.3")["method"] == 3


@pytest.mark.parametrize("typed", ["2.544/1.35 = 1.88", "79.5/0.8 = 99.4", "40 x 79.5 = 3180"])
def test_a_wrong_method_earns_nothing(typed):
    assert points_of(PART, typed) == {"method": 0, "value": 0}


@pytest.mark.parametrize("typed", ["0.8x0.04x79.5x1.35", "(0.8 * 0.04) * 79.5 * 1.35 ="])
def test_a_sum_without_its_result_is_asked_for_it_and_keeps_its_method(typed):
    got = verdict(PART, typed)
    assert (got.readable, got.marks) == (False, 3)


def test_figures_alone_are_worth_nothing():
    key = number_key(LINKS, "end", "g", award={"value": 1, "figures": 1}, figures=3)
    assert points_of(number(key), "123") == {"value": 0, "figures": 0}
    assert points_of(number(key), "3.43") == {"value": 1, "figures": 1}


UNCERTAIN = number(number_key(chain({"u": ("3.3", "%")}, {"v": ("u * 1", "%")}), "v", "%"))


@pytest.mark.parametrize("sign", ["±", "+/-", "+/- ", "+-", "+ / - ", "plus or minus ", "± "])
def test_plus_or_minus_as_people_type_it(sign):
    assert mark(UNCERTAIN, f"{sign}3.3").marks == 1


RATE = number(number_key(chain({"k": ("0.0125", "1/s")}, {"v": ("k * 1", "1/s")}), "v", "1/s"))
HEAT = number(
    number_key(chain({"c": ("4200", "J/(kg °C)")}, {"v": ("c * 1", "J/(kg °C)")}), "v", "J/(kg °C)")
)


@pytest.mark.parametrize(
    "unit", ["1/s", "/s", "s-1", "s^-1", "s⁻¹", "per second", "per s", "1 / s"]
)
def test_one_over_a_second_in_every_spelling(unit):
    assert mark(RATE, f"0.0125 {unit}").marks == 1


@pytest.mark.parametrize(
    "unit", ["J/(kg °C)", "J/kg/°C", "J kg-1 °C-1", "J/kg°C", "J per kg per °C", "j/(kg °C)"]
)
def test_a_compound_unit_in_every_spelling(unit):
    assert mark(HEAT, f"4200 {unit}").marks == mark(HEAT, f"4200{unit}").marks == 1
    assert mark(HEAT, f"4.2 k{unit}").marks == 1
    assert mark(HEAT, f"4200 {unit.replace('kg', 'g')}").marks == 0


COUNT = number(number_key(chain({"n": ("7", "")}, {"x": ("n * 1", "")}), "x", award={"method": 1, "value": 1}, decimals=0))  # fmt: skip  # noqa: E501


@pytest.mark.parametrize("typed", ["7", "x = 7", "MgSO4.7H2O", "MgSO4·7H2O", "seven", "7.0"])
def test_a_whole_number_in_a_formula_or_a_word(typed):
    assert mark(COUNT, typed).marks == 2


@pytest.mark.parametrize("typed", ["6.99", "7.01", "7.04"])
def test_beside_a_whole_number_the_method_stays(typed):
    got = mark(COUNT, typed)
    assert (got.marks, got.slip) == (1, "not-whole")


@pytest.mark.parametrize(
    ("typed", "meant"), [("O.25", "0.25"), ("1O.5", "10.5"), ("2.O", "2.0"), ("5O g", "50")]
)
def test_a_letter_o_is_told_and_not_guessed(typed, meant):
    got = mark(PART, typed)
    assert not got.readable
    assert f"Did you mean {meant}?" in got.says


@pytest.mark.parametrize("typed", ["25oC", "2 x O2 = 64", "CO2 44"])
def test_an_o_that_is_no_nought(typed):
    assert "letter O" not in mark(PART, typed).says


@pytest.mark.parametrize(
    "typed", ["2 and a half", "2.5", "two and a half", "2½", "2 1/2", "2 and a half g", "5/2"]
)
def test_a_half_in_words_or_signs(typed):
    part = number(number_key(chain({"a": ("2.5", "g")}, {"v": ("a * 1", "g")}), "v", "g"))
    assert mark(part, typed).marks == 1


def test_the_exact_slip_goes_before_the_rounded_one():
    links = chain({"a": ("34.7", "cm3"), "b": ("34.66", "cm3")}, {"v": ("b * 2", "cm3")})
    key = number_key(links, "v", "cm3", slips=[("rounded", "b", 0), ("exact", "a", 0)])
    assert mark(number(key), "34.7").slip == "exact"
