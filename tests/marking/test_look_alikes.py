"""Answers of the bank's own questions that look right, or wrong, by a word and are the other.

Each is judged by the question's scheme, by hand; "?" stands for: not sure, the learner decides.
"""

from __future__ import annotations

import pytest

from drill.marking import mark
from tests.marking.test_bank_answers import written_part

# question -> answer -> what each point earns, in the scheme's order
CASES = {
    # dilute acid does not spit, burn with a flame or oxidise; the label says irritant
    "safety/acid-hazard": {
        "dangerous as it spits": "00",
        "it spits so wear goggles": "01",
        "it is an oxidiser": "00",
        "it is oxidising so wear goggles": "00",
        "it is flammable, wear goggles": "00",
        "oxidising and corrosive, goggles": "00",
        "it is corrosive so wear gloves": "11",
        "it is not flammable but it is an irritant, goggles": "11",
        "not corrosive but irritant": "10",
        "it is not an irritant": "00",
        "it is dangerous so be careful": "00",
        "it is toxic, do not drink it": "00",
        "irritant so tie your hair back": "10",
    },
    # spitting tells that it was heated too long, not when to stop
    "salts/when-to-stop-heating": {
        "dangerous as it spits": "000",
        "when it starts spitting": "000",
        "when the crystals spit": "000",
        "when there are crystals at the edge, before it spits": "100",
        "when the first crystals form and half of the liquid is left": "110",
        "when no crystals form": "?00",
        "when all the water has gone": "000",
        "not when all the water has gone": "000",
    },
    "salts/why-water-bath": {
        "so that it does not spit": "010",
        "the flame would make it spit": "010",
        "the water bath makes it spit more": "000",
        "to stop it boiling over": "000",
        "because it is safer": "000",
        "so that it is heated gently": "100",
        "so that it is not heated gently": "000",
        "so that it is heated faster than with a bunsen": "000",
        "so that the crystals do not decompose": "001",
    },
    "salts/why-not-dryness": {
        "dangerous as it spits": "0100",
        "the crystals keep their water": "0000",
        "the crystals lose their water and it spits": "1100",
        "it would burn": "0000",
        "it will be oxidised": "0000",
    },
    "salts/why-excess": {
        "so that all the zinc oxide reacts": "00",
        "so that none of the acid is left": "10",
        "so that none of the zinc oxide is left": "00",
        "so that the acid is in excess": "00",
        "so that the salt has no acid in it": "01",
    },
    "titration/pipette-not-cylinder": {
        "a cylinder is less accurate": "1",
        "a pipette is less accurate": "0",
        "the uncertainty of a pipette is larger": "0",
        "the uncertainty of a cylinder is larger": "1",
    },
    "salts/why-cool-slowly": {"so that small crystals form": "000"},
}


def found(question: str, typed: str) -> str:
    points = mark(written_part(question), typed).points
    return "".join("?" if point.unsure else str(point.marks) for point in points)


@pytest.mark.parametrize(
    ("question", "typed", "deserved"),
    [(question, *pair) for question, answers in CASES.items() for pair in answers.items()],
)
def test_a_look_alike_is_told_apart(question, typed, deserved):
    assert found(question, typed) == deserved
