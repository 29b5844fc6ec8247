"""Names: misspelt is right, another real name is not."""

from __future__ import annotations

import pytest

from tests.marking.making import marks, name, verdict

OXIDE = name(
    "copper oxide",
    "copper(II) oxide",
    alike={"copper": "the metal does not react.", "copper sulfate": "that is the salt."},
)
BURETTE = name("burette", alike={"pipette": "a pipette gives one fixed volume."})
SULFATE = name("zinc sulfate", "zinc sulphate", alike={"zinc sulfide": "-ide has no oxygen in it."})
IRON = name("iron(III) chloride", alike={"iron(II) chloride": "the charge on iron is 3+ here."})


@pytest.mark.parametrize(
    "typed",
    ["copper oxide", "Copper Oxide", "COPPER OXIDE.", " copper  oxide ", "coper oxide",
     "copper oxidde",
     "copper(II) oxide", "copper (ii) oxide", "it is copper oxide", "copper-oxide", "coppper oxide",
     "copperoxide", "the copper oxide"],
)  # fmt: skip
def test_any_spelling_of_the_right_name(typed):
    assert marks(OXIDE, typed) == 1


@pytest.mark.parametrize(
    "typed",
    [
        "burette because it is exact",
        "a burette (50 cm3)",
        "burett",
        "burete",
        "beurette",
        "Burette",
        "a burette",
        "burrette",
    ],
)
def test_misspelt_apparatus(typed):
    assert marks(BURETTE, typed) == 1


def test_a_look_alike_gets_the_difference_that_decides():
    assert verdict(BURETTE, "pipette").says == "Not pipette: a pipette gives one fixed volume."
    assert verdict(BURETTE, "a pipete").slip == "pipette"
    assert verdict(OXIDE, "copper").slip == "copper"


@pytest.mark.parametrize(
    "typed", ["barrette", "copper", "bureau", "pipette", "beaker", "silhouette"]
)
def test_a_real_word_is_never_taken_for_another(typed):
    assert marks(BURETTE, typed) == 0


@pytest.mark.parametrize("typed", ["zinc sulfide", "zinc sulfite", "zinc sulphide", "zink sulfide"])
def test_endings_that_name_another_substance_are_exact(typed):
    assert marks(SULFATE, typed) == 0


@pytest.mark.parametrize("typed", ["zinc sulfate", "zinc sulphate", "zinc sulfat", "zinc sulfhate"])
def test_spellings_of_the_right_ending(typed):
    assert marks(SULFATE, typed) == (0 if typed == "zinc sulfat" else 1)


def test_the_numeral_is_exact():
    assert marks(IRON, "iron(III) chloride") == 1
    assert marks(IRON, "iron (iii) chloride") == 1
    assert marks(IRON, "iron(II) chloride") == 0
    assert marks(IRON, "iron chloride") == 0


def test_two_names_are_not_one():
    assert marks(BURETTE, "burette or pipette") == 0
