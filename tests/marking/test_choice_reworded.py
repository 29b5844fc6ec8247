"""An option in a learner's own words: read where it is clearly one, else asked about."""

from __future__ import annotations

import pytest

from drill.frozen import replace
from drill.marking import mark
from tests.marking.making import choice

BUBBLES = choice(
    ("all of the powder has disappeared", False, ""), ("the solution has turned blue", False, ""),
    ("the beaker feels warm outside", False, ""), ("more powder makes no more bubbles", True, ""),
)  # fmt: skip
SPIT = choice(
    ("the basin may crack", False, ""), ("hot liquid may spit out of the basin", True, ""),
    ("the crystals may turn black", False, ""), ("the flame may go out", False, ""),
)  # fmt: skip
RINSED = choice(
    ("the burette was not rinsed with acid", True, ""), ("the flask was rinsed", False, ""),
    ("the tap was left open", False, ""), ("the zero of the scale is at the top", False, ""),
)  # fmt: skip
HOLDS = choice(
    ("The colouring may hold this dye", False, ""), ("It holds only this dye", False, ""),
    ("The colouring does not hold this dye", True, ""), ("Nothing can be told", False, ""),
)  # fmt: skip
RIGHT = {
    "bubbles": (BUBBLES, ["no more bubbles", "when there are no bubbles any more",
                "it stops bubbling when powder is added", "more powder doesn't bubble"]),
    "spit": (SPIT, ["spitting out of the basin", "spitting", "the liquid spits at you",
             "it might spit"]),
    "rinsed": (RINSED, ["the burette not being rinsed", "not rinsing the burette",
               "burette wasnt rinsed", "they didn't rinse the burette first"]),
    "holds": (HOLDS, ["it doesn't hold this dye", "the colouring does not hold the dye"]),
}  # fmt: skip


@pytest.mark.parametrize(
    ("part", "typed"), [(part, one) for part, typed in RIGHT.values() for one in typed]
)
def test_the_option_in_other_words(part, typed):
    assert mark(part, typed).marks == 1


@pytest.mark.parametrize(
    ("part", "typed"),
    [(BUBBLES, "more powder makes more bubbles"), (BUBBLES, "bubbles"), (BUBBLES, "it went blue"),
     (SPIT, "the basin cracks"), (SPIT, "no liquid spits out"), (SPIT, "the crystals go black"),
     (RINSED, "the burette was rinsed with acid"), (RINSED, "it was not rinsed in the flask"),
     (RINSED, "the burette has its zero at the bottom"), (HOLDS, "the colouring holds this dye"),
     (SPIT, "no idea")],
)  # fmt: skip
def test_the_contrary_or_another_option_is_never_the_right_one(part, typed):
    assert mark(part, typed).marks == 0


KEPT = replace(
    choice(
        ("the volume of gas in the first minute", False, ""),
        ("the size of the marble chips", True, ""), ("the concentration of the acid", False, ""),
        ("the mass of the stopper", False, ""), ("the temperature of the acid", True, ""),
        several=True,
    ),
    ask="Identify the two variables that must be kept the same.",
)  # fmt: skip


@pytest.mark.parametrize("joint", [" and ", ", ", " & ", "; ", "\n", " and the "])
@pytest.mark.parametrize("size", ["chip size", "size of the chips", "size of the marble chips"])
@pytest.mark.parametrize("heat", ["temperature", "acid temperature", "temp of the acid"])
def test_each_of_several_is_read_however_they_are_joined(size, heat, joint):
    assert mark(KEPT, f"{size}{joint}{heat}").marks == 2
    assert mark(KEPT, f"the {heat}{joint}{size}").marks == 2
    assert mark(KEPT, f"{heat}{joint}concentration of the acid").marks == 1


def test_an_option_with_an_article_or_a_unit_in_it_is_no_letter():
    part = choice(
        ("it burns skin", True, ""), ("it irritates for a while", False, ""),
        ("it keeps the water below 60 °C", False, ""), ("x", False, ""),
    )  # fmt: skip
    assert mark(part, "I think it irritates for a while").slip == "B"
    assert mark(part, "keeps the water at 60 °C").slip == "C"
