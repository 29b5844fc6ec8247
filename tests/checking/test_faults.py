"""Each fault an author can make is found, and the message says what and where."""

from __future__ import annotations

import pytest

from tests.checking.proving import GOOD, problems

SEEN = "(seed 0; 60 of 60 seeds) Look at the text and at what fills it."


def edited(*changes: tuple[str, str]) -> str:
    text = GOOD
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    return text


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        (
            "Take the basin away.",
            "Take  the basin away.",
            '16: a slip of part a has two spaces together: "Take  the basin awa".',
        ),
        (
            "Take the basin away.",
            "Take the basin away .",
            '16: a slip of part a has a space before a stop: " the basin away .".',
        ),
        (
            "The basin is {basin}.",
            "It is an basin of {basin}.",
            '13: the question of part a has the wrong article: "an basin".',
        ),
    ],
)
def test_texts(tmp_path, old, new, expected):
    assert problems(tmp_path, edited((old, new))) == [f"{expected} {SEEN}"]


def test_a_slip_near_the_answer(tmp_path):
    text = edited(('gives = "total"', 'gives = "crystals + 0.004"'))
    (found,) = problems(tmp_path, text)
    assert found.startswith('16: the slip "not-subtracted" cannot be told from the answer: ')
    assert found.endswith("(seed 0; 10 of 10 seeds) Add a requirement or a when, or drop the slip.")


def test_a_slip_that_is_the_answer_in_another_form(tmp_path):
    (found,) = problems(tmp_path, edited(('gives = "total"', 'gives = "total - basin"')))
    assert 'the slip "not-subtracted" cannot be told from the answer: ' in found


def test_a_slip_the_marker_takes_for_right(tmp_path):
    """Between bounds everything is right, a slip too."""
    bounds = 'between = ["0.9 * crystals", "1.1 * crystals"]'
    text = edited(
        ('gives = "total"', 'gives = "crystals + 0.05"'),
        ("decimals = 2\n[[", f"decimals = 2\n{bounds}\n[["),
    )
    (found,) = problems(tmp_path, text)
    assert found.startswith('17: the slip "not-subtracted" of part a, typed as ')
    assert "is not recognised: Right" in found


def test_a_slip_that_earns_more_than_it_can(tmp_path):
    text = edited(('says = "Take', 'earns = 1\nsays = "Take')).replace(
        "decimals = 2\n[[", "decimals = 2\naward = { value = 1, figures = 1 }\n[["
    )
    (found,) = problems(tmp_path, text)
    assert "earns 0, not 2." in found
    assert found.endswith("A slip earns method marks, and of the value's marks all but one.")


def test_a_requirement_nothing_meets(tmp_path):
    text = GOOD.replace("[work]", '[require]\n"it is heavy" = "crystals > 7"\n[work]')
    (found,) = problems(tmp_path, text, 3)
    assert found == (
        '10: the requirement "it is heavy" does not hold. (seed 0; 3 of 3 seeds) '
        "Widen a draw or the requirement."
    )


def test_numbers_that_are_not_printed(tmp_path):
    (found,) = problems(tmp_path, edited(("The basin is {basin}. ", "")), 4)
    assert found == (
        "13: the printed numbers do not lead to the answer of part a. (seed 0; 4 of 4 seeds) "
        'Print what is needed, or write worked = "…".'
    )


def test_a_printed_number_that_was_rounded(tmp_path):
    """A pupil reads 3.3 g; the key works with 3.3333… g and asks for four figures."""
    text = """\
format = 1
title = "Thirds"
skills = ["calc.test"]
command_word = "calculate"
course = ["combined foundation"]
[draw]
whole = { from = 10, to = 99, step = 1, unit = "g" }
[work]
third = { is = "whole / 3", unit = "g", decimals = 1 }
six = { is = "6 * third", unit = "g" }
[require]
"it does not come out" = "round(third, 1) != third"
[[part]]
kind = "number"
ask = "Each third is {third}. Calculate six thirds."
answer = "six"
decimals = 2
"""
    (found,) = problems(tmp_path, text)
    assert found.startswith("9: third is printed as ")
    assert ", and part a is worked from it" in found
    assert found.endswith("Write round(…, 1).")
    endless = text.replace(", decimals = 1 }", " }").replace("decimals = 2", "figures = 2")
    (found,) = problems(tmp_path, endless)
    assert found.startswith('9: "third" is printed as ')
    assert found.endswith("Give it decimals or figures, or round it.")


def test_a_model_answer_that_earns_nothing(tmp_path):
    text = """\
format = 1
title = "Why"
skills = ["salts.excess"]
command_word = "explain"
course = ["combined foundation"]
[[part]]
kind = "written"
ask = "Why is the base in excess?"
model_answer = "Because it looks nice."
[[part.point]]
id = "acid"
says = "all the acid reacts"
accept = [["all", "acid", "reacts"]]
"""
    found = problems(tmp_path, text)
    unproven, model = sorted(found)
    assert model.startswith('9: the model answer "Because it looks nice." of part a earns 0 of 1: ')
    assert unproven == (
        "6: part a is unproven: 0 sample answers, 35 are wanted. "
        "Write them in question.answers.jsonl."
    )


# ------------------------------------------------------------ variety


DRAWN = """\
format = 1
title = "Naming"
skills = ["calc.test"]
command_word = "name"
course = ["combined foundation"]
[draw]
{draw}
[[part]]
kind = "name"
ask = "Name it{slot}."
accept = ["x"]
"""


def naming(draw: str, slot: str) -> str:
    return DRAWN.replace("{draw}", draw).replace("{slot}", slot)


@pytest.mark.parametrize(
    ("draw", "slot", "distinct"),
    [
        ("x = { from = 1, to = 1000, step = 1 }", "", 1),  # drawn and never shown
        ("x = { person = true }", ", {x}", 1),  # another name is no other question
        ("x = { one_of = [1, 2, 3] }", " {x}", 3),
    ],
)
def test_draws_that_change_nothing(tmp_path, draw, slot, distinct):
    (found,) = problems(tmp_path, naming(draw, slot))
    assert found.startswith(f"7: the draws make only {distinct} different questions in 60 seeds.")


@pytest.mark.parametrize(
    "draw", ["x = { one_of = [1, 2, 3, 4] }", "x = { from = 1, to = 30, step = 1 }"]
)
def test_draws_that_change_enough(tmp_path, draw):
    assert problems(tmp_path, naming(draw, " {x}")) == []


def test_few_seeds_cannot_show_many_questions(tmp_path):
    assert problems(tmp_path, naming("x = { from = 1, to = 300, step = 1 }", " {x}"), 3) == []


def test_a_mass_below_zero_every_time_is_a_note(tmp_path):
    total = 'total = { is = "basin + crystals", unit = "g", decimals = 2 }\n'
    lost = 'lost = { is = "basin - total", unit = "g", decimals = 2 }\n'
    text = edited((total, total + lost), ('answer = "crystals"', 'answer = "lost"'))
    (found,) = [one for one in problems(tmp_path, text) if "below zero" in one]
    assert "the answer of part a is -" in found
    assert found.endswith("Is the difference the right way round?")


def test_a_mass_now_and_then_below_zero_is_none(tmp_path):
    text = edited(
        ("from = 2.00, to = 6.00", "from = -2.00, to = 6.00"), ("Calculate the mass", "Give")
    )
    assert not [one for one in problems(tmp_path, text) if "below zero" in one]


def test_a_quantity_without_unit(tmp_path):
    """Numbers with their unit as text only: "6.24 g" would be refused beside an empty unit."""
    text = edited(
        (', unit = "g" }', " }"),
        ('unit = "g", decimals', "decimals"),
        ("basin is {basin}. With", "basin is {basin} g. With"),
    )
    assert any(
        "part a has no unit, and the question prints g" in one for one in problems(tmp_path, text)
    )
