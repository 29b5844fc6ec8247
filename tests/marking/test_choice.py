"""Choices: letters, words, several letters."""

from __future__ import annotations

import pytest

from tests.marking.making import choice, marks, points_of, verdict

GLASS = choice(
    ("a beaker", False, "The marks on a beaker are only a rough guide."),
    ("a measuring cylinder", True, ""),
    ("a test tube", False, ""),
)
BOTH = choice(
    ("tongs", True, ""), ("bare hands", False, ""), ("goggles", True, ""), ("none", False, ""),
    several=True,
)  # fmt: skip


@pytest.mark.parametrize(
    "typed",
    ["B", "b", " b ", "B.", "(b)", "Answer: B", "option b", "the answer is B",
     "a measuring cylinder", "measuring cylinder", "The Measuring Cylinder.",
     "B a measuring cylinder", "b because it has a scale"],
)  # fmt: skip
def test_the_right_option_is_known_however_it_is_given(typed):
    assert marks(GLASS, typed) == 1


def test_a_wrong_option_gets_its_own_words():
    assert verdict(GLASS, "A").says == "The marks on a beaker are only a rough guide."
    assert verdict(GLASS, "a beaker").slip == "A"


def test_a_wrong_option_without_words_names_the_right_one():
    assert verdict(GLASS, "c").says == "The right one is B: a measuring cylinder."


def test_two_letters_where_one_is_asked_for_earn_nothing():
    assert marks(GLASS, "A or B") == 0
    assert marks(GLASS, "B, C") == 0


@pytest.mark.parametrize("typed", ["Z", "dunno", "12", "!?", "because it is"])
def test_what_is_no_letter_may_be_typed_again(typed):
    assert verdict(GLASS, typed).readable is False


@pytest.mark.parametrize("typed", ["A,C", "ac", "C A", "a and c", "A & C", "AC."])
def test_several_letters_in_any_order(typed):
    assert marks(BOTH, typed) == 2


def test_each_wrong_letter_cancels_a_right_one():
    assert marks(BOTH, "A,B,C") == 1
    assert marks(BOTH, "ABCD") == 0
    assert marks(BOTH, "A") == 1
    assert marks(BOTH, "B") == 0
    assert points_of(BOTH, "a") == {"A": 1, "C": 0}
