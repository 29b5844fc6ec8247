"""Spellings of two countries are one word, in names, written answers and word equations."""

from __future__ import annotations

import pytest

from drill.typed.variants import one_spelling
from tests.marking.making import equation, marks, point, written

PAIRS = [("colour", "color"), ("vapour", "vapor"), ("crystallise", "crystallize"),
         ("neutralisation", "neutralization"), ("ionised", "ionized"), ("oxidising", "oxidizing"),
         ("vaporise", "vaporize"), ("litres", "liters"), ("centre", "center"), ("grey", "gray"),
         ("electrolyse", "electrolyze"), ("sulfuric", "sulphuric"),
         ("propan1ol", "propan-1-ol"), ("butan2amine", "butan-2-amine"),
         ("colourless", "colorless"), ("centimetre", "centimeter")]  # fmt: skip


@pytest.mark.parametrize(("british", "american"), PAIRS)
def test_two_spellings_are_one(british, american):
    assert one_spelling(british) == one_spelling(american)


@pytest.mark.parametrize(
    "word", ["size", "prize", "thermometer", "calorimeter", "order", "correct"]
)
def test_other_words_stay_as_they_are(word):
    assert one_spelling(word) == word


@pytest.mark.parametrize(("british", "american"), PAIRS)
def test_a_pattern_hears_both(british, american):
    assert marks(written(point("p", [british])), f"it is {american} now") == 1
    assert marks(written(point("p", [american])), f"it is {british} now") == 1


def test_a_word_equation_hears_both():
    made = equation("aluminium + sulfuric acid -> aluminium sulfate + hydrogen", award={"value": 1})
    assert marks(made, "aluminum + sulphuric acid -> aluminum sulphate + hydrogen") == 1
