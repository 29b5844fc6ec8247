"""Worked answers, as a student reads them."""

from __future__ import annotations

import pytest

from tests.generate.making import NAMES, only_part, question, template


def worked(name: str, part: int, seed: int = 0) -> list[str]:
    return question(template(name), seed).parts[part].worked.splitlines()


def test_an_answer_is_worked_from_what_is_printed():
    """The author starts from a hidden yield; the pupil has two masses."""
    assert worked("salts/percentage-yield", 0) == ["mass of crystals = 53.02 g − 48.90 g = 4.12 g"]


def test_only_what_was_not_worked_before_is_worked():
    assert worked("salts/percentage-yield", 1) == [
        "25.0 cm3 = 0.0250 dm3",
        "theoretical mass of crystals = 1.00 mol/dm3 × 0.0250 dm3 × 1 × 249.5 g/mol = 6.2375 g",
        "percentage yield = 100 × 4.12 g ÷ 6.2375 g = 66.0521… %",
        "To 3 significant figures: 66.1 %",
    ]


def test_the_authors_words_come_first():
    assert worked("salts/water-in-crystals", 0) == [
        "Add up the relative atomic masses of the crystals, then of the water alone.",
        "mass of the water in one formula = 5 × (2 × 1 + 16) = 90 g/mol",
        "relative formula mass of the crystals = 63.5 + 32 + 9 × 16 + 10 × 1 = 249.5 g/mol",
        "percentage of water = 90 g/mol ÷ 249.5 g/mol × 100 = 36.0721… %",
        "To 3 significant figures: 36.1 %",
    ]


def test_an_order_says_why():
    lines = worked("salts/order-steps", 0)
    assert lines[2].endswith("must be out before the solution is evaporated.")
    assert lines[2].startswith("3. ")
    assert lines[-1].startswith("Order: ")


def test_a_choice_says_why_and_why_not():
    lines = worked("measure/choose-kit", 0)
    assert lines[0].startswith("B: a measuring cylinder. It is quick")
    assert [line[:6] for line in lines[1:3]] == ["Not A:", "Not C:"]
    assert lines[-1] == "Answer: B"


def test_another_unit_is_reached_at_the_end():
    assert worked("energy/temperature-change", 0)[-2].endswith(" J = 2.66475 kJ")


@pytest.mark.parametrize("name", NAMES)
def test_the_last_line_ends_in_the_model_answer(name):
    for seed in range(40):
        for part in question(template(name), seed).parts:
            assert part.worked.endswith(part.model_answer)


NUMBERS = """
[draw]
before = { from = 20, to = 30, step = 1, unit = "g", first = 20 }
lost = { from = 2, to = 9, step = 1, unit = "g", first = 3 }
[work]
after = { is = "before - lost", unit = "g" }
percent = { is = "100 * lost / before", unit = "%", called = "percentage lost" }
"""


def part_of(ask: str, answer: str, more: str = "") -> list[str]:
    text = f'{NUMBERS}[[part]]\nkind = "number"\nask = "{ask}"\nanswer = "{answer}"\n{more}'
    return only_part(text, 0).worked.splitlines()


def test_a_drawn_value_is_found_backwards():
    lines = part_of("It goes from {before} to {after}. What mass is lost?", "lost")
    assert lines == ["lost = 20 g − 17 g = 3 g"]


def test_backwards_then_forwards():
    lines = part_of("It goes from {before} to {after}. Calculate the percentage.", "percent")
    assert lines == ["lost = 20 g − 17 g = 3 g", "percentage lost = 100 × 3 g ÷ 20 g = 15 %"]


def test_what_was_not_printed_cannot_be_used():
    assert part_of("It has a mass of {before}. Calculate the percentage.", "percent") == ["15 %"]


def test_a_formula_may_be_the_answer():
    lines = part_of("{before} and {lost}?", "before + 2 * lost", 'decimals = 1\nunit = "g"')
    assert lines == ["answer = 20 g + 2 × 3 g = 26 g", "To 1 decimal place: 26.0 g"]


def test_a_whole_formula_may_be_turned_into_another_unit():
    text = """
[draw]
amount = { from = 0.024, to = 0.048, step = 0.001, unit = "mol", first = 0.024 }
conc = { from = 0.90, to = 1.00, step = 0.10, unit = "mol/dm3", first = 0.90 }
[work]
volume = { is = "(amount / conc) in cm3", called = "volume of acid", unit = "cm3" }
[[part]]
kind = "number"
ask = "{amount} at {conc}?"
answer = "volume"
figures = 3
"""
    assert only_part(text).worked.splitlines() == [
        "volume of acid = 0.024 mol ÷ 0.90 mol/dm3 = 0.0266666… dm3 = 26.6666… cm3",
        "To 3 significant figures: 26.7 cm3",
    ]


def test_rounding_alone_needs_no_formula():
    text = """
[draw]
water = { from = 7.02, to = 7.04, step = 0.01, first = 7.03 }
[work]
x = { is = "round(water, 0)" }
[[part]]
kind = "number"
ask = "{water}?"
answer = "x"
"""
    assert only_part(text).worked.splitlines() == ["x, to the nearest whole number: 7"]
