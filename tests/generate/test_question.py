"""A template and a seed: the same question for ever, and never one that breaks a requirement."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drill.generate import generate
from drill.marking import mark
from drill.model import NumberKey, Question
from drill.quantities import evaluate, run_steps
from tests.generate.making import NAMES, problem, question, template, written

SEEDS = st.integers(0, 10**12)


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(NAMES), SEEDS)
def test_the_same_seed_gives_the_same_question(name, seed):
    assert generate(template(name), seed) == generate(template(name), seed)


@settings(max_examples=60, deadline=None)
@given(SEEDS)
def test_every_instance_meets_its_requirements(seed):
    of = template("salts/percentage-yield")
    key = question(of, seed).parts[1].key
    assert isinstance(key, NumberKey)
    values = run_steps(key.chain.steps, key.chain.givens)
    assert isinstance(values, dict)
    assert all(evaluate(requirement.is_, values) is True for requirement in of.requirements)
    assert 35 < key.value < 85


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(NAMES), SEEDS)
def test_the_model_answer_earns_full_marks(name, seed):
    for part in question(template(name), seed).parts:
        if part.kind != "levels":
            assert mark(part, part.model_answer).marks == part.marks


@settings(max_examples=40, deadline=None)
@given(SEEDS)
def test_no_two_slips_of_a_part_look_alike(seed):
    for part in question(template("energy/temperature-change"), seed).parts:
        texts = [part.model_answer, *(slip.text for slip in part.key.slips)]
        assert len(set(texts)) == len(texts)


def test_other_seeds_give_other_questions():
    of = template("salts/percentage-yield")
    assert len({question(of, seed).parts[0].ask for seed in range(50)}) == 50


def test_a_requirement_that_cannot_be_met_is_named():
    text = """
[draw]
x = { from = 1, to = 9, step = 1 }
[require]
"x is even smaller" = "x < 8"
"x is at least ten" = "x > 9"
[[part]]
kind = "name"
ask = "{x}"
accept = ["x"]
"""
    assert problem(text, 7) == (
        '11: the requirement "x is at least ten" does not hold (seed 7, 200 tries). '
        "Widen a draw or the requirement."
    )


def test_other_numbers_are_drawn_until_the_requirement_holds():
    text = """
[draw]
x = { from = 1, to = 40, step = 1 }
[require]
"x is one of forty" = "x == 7"
[[part]]
kind = "name"
ask = "{x}"
accept = ["x"]
"""
    of = written(text)
    made = [generate(of, seed) for seed in range(30)]
    asks = [one.parts[0].ask for one in made if isinstance(one, Question)]
    assert set(asks) == {"7"}
    # (39/40)^200 is below 1 in 150, so nearly every seed finds it
    assert len(asks) >= 28


def test_numbers_where_a_slip_gives_the_right_answer_are_drawn_again():
    """2 x 2 is 2 + 2: a student who adds could not be told from one who is right."""
    text = """
[draw]
x = { from = 1, to = 4, step = 1 }
y = { from = 1, to = 4, step = 1 }
[[part]]
kind = "number"
ask = "{x} times {y}?"
answer = "x * y"
[[part.slip]]
id = "added"
gives = "x + y"
says = "You added."
[[part.slip]]
id = "squared"
gives = "x * x"
says = "You squared."
"""
    of = written(text)
    asked = {question(of, seed).parts[0].ask for seed in range(300)}
    alike = {(x, y) for x in range(1, 5) for y in range(1, 5) if len({x * y, x + y, x * x}) < 3}
    every = {f"{x} times {y}?" for x in range(1, 5) for y in range(1, 5) if (x, y) not in alike}
    assert (2, 2) in alike
    assert asked == every


def test_work_that_goes_wrong_is_named():
    text = """
[draw]
x = { from = 0, to = 0, step = 1 }
[work]
y = { is = "1 / x" }
[[part]]
kind = "number"
ask = "{x}"
answer = "y"
"""
    assert problem(text) == (
        '10: "y" cannot be worked out: cannot divide by zero (seed 0, 200 tries). '
    )


def test_a_question_without_draws_is_made_once():
    text = """
[work]
y = { is = "1 / (2 - 2)" }
[[part]]
kind = "number"
ask = "?"
answer = "y"
"""
    assert problem(text) == '8: "y" cannot be worked out: cannot divide by zero. '


def test_every_part_has_its_letter_and_skill():
    parts = question(template("salts/percentage-yield"), 0).parts
    assert [part.id for part in parts] == ["a", "b"]
    assert [part.skill for part in parts] == ["calc.mass-by-difference", "calc.percentage-yield"]


def test_seed_0_takes_the_authors_values():
    made = question(template("salts/percentage-yield"), 0)
    assert "The empty basin has a mass of 48.90 g." in made.parts[0].ask
    assert "25.0 cm3 of 1.00 mol/dm3 sulfuric acid" in made.parts[1].ask


def test_the_safety_line_is_the_authors():
    made = question(template("salts/percentage-yield"), 0)
    assert made.safety.endswith("Follow your school's own risk assessment.")


@pytest.mark.parametrize("seed", [-1, 0, 2**63, 10**30])
def test_any_whole_number_is_a_seed(seed):
    assert isinstance(generate(template("rates/gradient"), seed), Question)
