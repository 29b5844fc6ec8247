"""A row or choice that no question can be made of is told, and why."""

from __future__ import annotations

from tests.checking.proving import GOOD, problems

CHOICE = GOOD.replace(
    'crystals = { from = 2.00, to = 6.00, step = 0.01, unit = "g" }',
    'crystals = { from = 2.00, to = 6.00, step = 0.01, unit = "g" }\nextra = { one_of = [0, 1] }',
)


def test_a_choice_that_a_slip_rules_out_is_an_error(tmp_path):
    text = CHOICE.replace('gives = "total"', 'gives = "crystals + extra"')
    assert problems(tmp_path, text) == [
        (
            '9: the choice "0" can never be drawn for "extra": the slip "not-subtracted" cannot be '
            "told from the answer: 4.98 g and 4.98 g. Leave it out, or mend what rules it out."
        )
    ]


def test_a_choice_that_a_requirement_rules_out_is_a_note(tmp_path):
    text = CHOICE.replace("[[part]]\n", '[require]\n"some" = "extra > 0"\n[[part]]\n', 1)
    assert problems(tmp_path, text) == [
        (
            '9: the choice "0" can never be drawn for "extra": the requirement "some" does not '
            "hold. Leave it out, or mend what rules it out."
        )
    ]


def test_choices_that_can_all_be_drawn_are_not_spoken_of(tmp_path):
    assert problems(tmp_path, CHOICE) == []
