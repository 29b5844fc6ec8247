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
    assert verdict(BURETTE, "pipette").says == (
        "Not pipette: a pipette gives one fixed volume. The name wanted is burette."
    )
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
    assert verdict(ZINC, "iron").says == "The name wanted is zinc oxide."


SALT = name("copper chloride", "copper(II) chloride", alike={"copper sulfate": "not that acid."})


@pytest.mark.parametrize(
    "typed",
    ["coper chlorid solution", "copper II chloride", "copper chlorid", "copper chloride soln",
     "Copper-II-chloride", "copper chloride (aq)", "solid copper chloride",
     "the excess copper chloride", "unreacted copper chloride powder", "left over copper chloride"],
)  # fmt: skip
def test_words_beside_the_name_are_neutral(typed):
    assert marks(SALT, typed) == 1


def test_words_beside_a_look_alike_leave_it_one():
    assert verdict(SALT, "dilute copper sulfate solution").slip == "copper sulfate"
    assert marks(SALT, "excess") == marks(SALT, "the solution") == marks(SALT, "powder") == 0


def test_a_word_the_question_turns_on_is_not_neutral():
    solid = name("zinc sulfate", alike={"zinc sulfate solution": "that has run through."})
    assert verdict(solid, "zinc sulfate soln").slip == "zinc sulfate solution"
    assert marks(solid, "excess zinc sulfate") == 1
    filtrate = name("zinc sulfate", "zinc sulfate solution")
    assert marks(filtrate, "solid zinc sulfate") == marks(filtrate, "zinc sulfate powder") == 0
    assert marks(name("zinc sulfate crystals"), "zinc sulfate") == 0


def test_neutral_words_are_no_misspelling():
    assert verdict(SALT, "excess copper chloride").says == "Right: copper chloride."


@pytest.mark.parametrize("typed", ["CuCl2", "CuCl₂", "CuCl2."])
def test_a_formula_where_the_name_is_asked(typed):
    assert verdict(SALT, typed).says == (
        "That is a formula; the name is asked for. A right name is copper chloride."
    )
    assert marks(SALT, typed) == 0
    assert marks(name("copper chloride", "CuCl2"), typed) == 1


def test_and_in_signs():
    skull = name("skull and crossbones")
    for typed in ("skull & crossbones", "skull&crossbones", "skull + crossbones"):
        assert marks(skull, typed) == 1
