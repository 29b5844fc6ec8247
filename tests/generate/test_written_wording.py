"""Seed 0 of the 24 written questions that every marker is compared on: their wording stays."""

from __future__ import annotations

import pytest

from drill.generate import generate
from drill.model import Question, Template
from tests.common.shipped import shipped_bank

BANK = shipped_bank()
ASKS = {
    "salts/why-excess": (
        "A student adds zinc oxide to warm dilute sulfuric acid until some of the solid is "
        "left over. Explain why the zinc oxide is added in excess."
    ),
    "salts/why-warm-acid": ("Explain why the acid is warmed before the solid base is added."),
    "salts/why-filter": (
        "After the reaction the mixture is filtered. Explain what the filtering achieves and "
        "where the salt is afterwards."
    ),
    "salts/why-water-bath": (
        "Explain why the salt solution is heated over a beaker of boiling water and not "
        "directly with a Bunsen flame."
    ),
    "salts/when-to-stop-heating": (
        "Describe how you know when to stop heating the salt solution so that good crystals "
        "form on cooling."
    ),
    "salts/why-cool-slowly": (
        "Explain why the concentrated solution is left to cool slowly and stand for several "
        "days instead of being cooled quickly."
    ),
    "salts/why-not-dryness": (
        "A student boils the hydrated salt solution until it is completely dry. Explain two "
        "things that are wrong with the product or the method."
    ),
    "salts/yield-over-100": (
        "A student calculates a percentage yield of 112 % for their crystals. Suggest why, "
        "and say what they should do about it."
    ),
    "salts/yield-under-100": (
        "Give two reasons why the percentage yield of crystals is less than 100 % even when "
        "no mistake is made."
    ),
    "measure/eye-level": (
        "Describe how to read the volume of a liquid in a measuring cylinder accurately."
    ),
    "safety/acid-hazard": (
        "Dilute sulfuric acid at 1 mol/dm3 is used. Give one hazard of it and one precaution "
        "that matches the hazard."
    ),
    "safety/hot-apparatus": (
        "Describe two precautions when heating an evaporating basin with a Bunsen burner, and"
        " say what each prevents."
    ),
    "salts/why-not-copper-metal": (
        "A student suggests making copper(II) sulfate by adding copper metal to dilute "
        "sulfuric acid. Explain why this does not work and name a substance that would."
    ),
    "titration/white-tile-and-swirl": (
        "In a titration the flask stands on a white tile and is swirled. Explain why each is done."
    ),
    "titration/concordant": (
        "Explain why a titration is repeated and which results are used for the mean."
    ),
    "titration/pipette-not-cylinder": (
        "Explain why a pipette is used instead of a measuring cylinder to measure 25.0 cm3 of"
        " alkali for a titration."
    ),
    "rates/cotton-wool": (
        "Marble chips react with acid in a conical flask on a balance, with cotton wool in "
        "the neck. Explain the purpose of the cotton wool and why the mass falls."
    ),
    "rates/control-variables": (
        "Rate is measured at different acid concentrations. Name two variables that must be "
        "kept the same and say why they are kept the same."
    ),
    "rates/why-curve-flattens": (
        "Explain why the graph of gas volume against time is steep at first and then becomes level."
    ),
    "chromatography/pencil-line": (
        "Explain why the start line in paper chromatography is drawn in pencil and drawn "
        "above the level of the solvent."
    ),
    "chromatography/spot-stays": (
        "One ink spot stays on the start line during chromatography. Explain why, and suggest"
        " what the student could change."
    ),
    "energy/polystyrene-cup": (
        "A temperature change is measured in a polystyrene cup with a lid. Explain why the "
        "cup and the lid are used and what happens to the measured temperature change without"
        " them."
    ),
    "electrolysis/hydrogen-test": (
        "Describe how you would collect and test the gas formed at the negative electrode in "
        "the electrolysis of sodium chloride solution, and give the result."
    ),
    "water/distil-vs-filter": (
        "Explain why filtering alone cannot make sea water safe to drink and name a method "
        "that can remove the salt."
    ),
}


@pytest.mark.parametrize("id_", ASKS)
def test_seed_0_asks_it_word_for_word(id_: str) -> None:
    template = BANK.template(id_)
    assert isinstance(template, Template)
    made = generate(template, 0)
    assert isinstance(made, Question)
    assert made.text == ""
    assert made.parts[0].id == "a"
    assert made.parts[0].ask == ASKS[id_]


def test_there_are_24() -> None:
    assert len(ASKS) == 24
