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
    assert marks(SULFATE, typed) == 1


def test_the_numeral_is_exact():
    assert marks(IRON, "iron(III) chloride") == 1
    assert marks(IRON, "iron (iii) chloride") == 1
    assert marks(IRON, "iron(II) chloride") == 0
    assert marks(IRON, "iron chloride") == 0


def test_two_names_are_not_one():
    assert marks(BURETTE, "burette or pipette") == 0


ZINC = name("zinc oxide", alike={"zinc hydroxide": "hydroxides hold OH."})


@pytest.mark.parametrize("typed", ["zinc oxid", "zinc oxyde", "zink oxid", "zinc oxied"])
def test_an_ending_written_as_heard(typed):
    assert marks(ZINC, typed) == 1


@pytest.mark.parametrize(
    "typed", ["zinc hydroxid", "zinc oxat", "zinc ox", "zinc hydroxied", "zinc oxygen"]
)
def test_an_ending_of_another_term(typed):
    assert marks(ZINC, typed) == 0


def test_nitrate_is_never_heard_as_nitrite():
    nitrate = name("zinc nitrate")
    assert marks(nitrate, "zinc nitrat") == marks(nitrate, "zinc nitrait") == 1
    assert marks(nitrate, "zinc nitrit") == marks(nitrate, "zinc nitrid") == 0
    assert marks(name("ethane"), "ethan") == 0  # ethanol as well


@pytest.mark.parametrize(
    ("wanted", "typed"),
    [("zinc sulfate", "zinc sulphate"), ("sulfuric acid", "Sulphuric acid"),
     ("sulfur", "sulphur"), ("aluminium oxide", "aluminum oxide"),
     ("caesium chloride", "cesium chloride"), ("zinc sulfate", "zinc sulphat"),
     ("metre rule", "meter rule")],
)  # fmt: skip
def test_british_and_american_spellings(wanted, typed):
    assert marks(name(wanted), typed) == 1
    assert marks(name(typed), wanted) == 1 or "sulphat" in typed


def test_a_wrong_name_is_told_what_is_wanted():
    assert verdict(ZINC, "iron").says == "The name wanted here: zinc oxide."
