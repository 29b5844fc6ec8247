"""What stands round a right name and only leads up to it or explains it never costs it."""

from __future__ import annotations

import random
from itertools import product

import pytest

from drill.frozen import replace
from drill.marking import mark
from tests.marking.making import name

OPENINGS = (
    "you could use a {}", "it must be {}", "I think it's {}", "they should use {}",
    "the answer is {}", "letter C = {}", "that would be {}", "use a {}", "some {}", "I'd say {}",
    "my guess is the {}", "we call it a {}", "that's a {}", "the part labelled C is the {}",
    "ans: {}", "I would go for {}", "hmm, {}", "the correct name is {}", "not sure but {}",
    "what is in the picture is a {}", "you put it in a {}", "{}",
)  # fmt: skip
TAILS = (
    "{}, it has a scale", "{} - it's used for measuring", "{}: used in the lab", "{} cos it fits",
    "{} (used for measuring)", "{} as it fits best", "{} so it is exact", "{} which holds liquid",
    "{} that didn't react", "{} its the long one", "{} for titrations", "{} w/ a hole",
    "{} between the two", "{} going from A to D", "{} that's lit", "{}, because of the shape",
    "{} is made, and something else", "{}, which is long", "{} measures it", "{} obviously",
    "{}, I am fairly sure", "{} not sure tho", "{}, long and thin", "{} isn't it",
)  # fmt: skip
BURETTE = name("burette", alike={"measuring cylinder": "m", "pipette": "p", "gas syringe": "g"})
OXIDE = replace(
    name("copper oxide", "CuO", alike={"copper sulfate": "s", "copper": "m", "sulfuric acid": "a"}),
    ask="Copper sulfate is made from copper oxide and sulfuric acid. Name the residue.",
)
ACID = replace(
    name("hydrochloric acid", "HCl", alike={"sulfuric acid": "s", "chloride": "c"}),
    ask="Copper chloride is made from copper oxide and a dilute acid. Name the acid.",
)
ION = name("aluminium", "aluminium ion", "Al3+", alike={"calcium": "c", "iron(III)": "i"})
KIT = {"burette": BURETTE, "copper oxide": OXIDE, "hydrochloric acid": ACID, "aluminium": ION}


@pytest.mark.parametrize("right", KIT)
def test_openings_and_explanations_are_set_aside(right):
    drawn = random.Random(5).sample(list(product(OPENINGS, TAILS)), 150)
    ways = {(o, "{}") for o in OPENINGS} | {("{}", t) for t in TAILS} | set(drawn)
    typed = [tail.format(opening.format(right)) for opening, tail in sorted(ways)]
    assert [one for one in typed if mark(KIT[right], one).marks != 1] == []


OTHERS = (
    "{r} or {w}", "{r}, {w}", "{r} and {w}", "{r} (or {w})", "{r} - {w}", "{r}, maybe a {w}",
    "{r}, it is a {w}", "{w} because it fits", "{w} as it is better than a {r}", "{r} so {w}",
    "you could use a {w}", "{r} which is a {w}", "{r} with a {w}", "{r} no wait {w}", "{w} ({r})",
    "not a {r}, a {w}", "{w}: used in the lab", "{r} because it is a {w}",
)  # fmt: skip


@pytest.mark.parametrize(("right", "form"), list(product(("burette", "aluminium"), OTHERS)))
def test_a_look_alike_that_could_be_meant_is_never_passed_over(right, form):
    for other in KIT[right].key.look_alikes:
        assert mark(KIT[right], form.format(r=right, w=other)).marks == 0, other


@pytest.mark.parametrize(
    ("part", "typed"),
    [(BURETTE, "burette because a pipette has only one volume"),
     (BURETTE, "a burette, more exact than a measuring cylinder"),
     (ACID, "hydrochloric acid as the salt is a chloride"),
     (ACID, "hydrochloric acid because it's a chloride"),
     (BURETTE, "burette; a flask sits below it"), (BURETTE, "a two-legged tall burette"),
     (BURETTE, "burette, a long glass tube with a tap"),
     (OXIDE, "copper oxide that didn't react with the sulfuric acid"),
     (OXIDE, "the left over copper oxide"), (OXIDE, "the metal oxide is copper oxide, CuO"),
     (ION, "the metal ion is aluminium, Al3+"), (ION, "aluminium, unlike calcium it dissolves")],
)  # fmt: skip
def test_a_reason_may_name_another_thing(part, typed):
    assert mark(part, typed).marks == 1


@pytest.mark.parametrize(
    ("part", "typed"),
    [(ION, "aluminium, Al2+"), (ION, "aluminium (Al+)"), (ACID, "hydrochloric acid, H2SO4"),
     (OXIDE, "copper oxide (Cu2O)"), (OXIDE, "copper oxide CuSO4"), (BURETTE, "gas burette"),
     (BURETTE, "burette clamp"), (BURETTE, "burette, flask, tongs"), (BURETTE, "burette is wrong"),
     (OXIDE, "iron copper oxide"), (BURETTE, "tap on a burette"), (BURETTE, "burette, beaker")],
)  # fmt: skip
def test_another_formula_thing_or_part_is_never_passed_over(part, typed):
    assert mark(part, typed).marks == 0


@pytest.mark.parametrize(
    ("right", "typed"),
    [("measuring cylinder", "measureing cylinder"), ("beehive shelf", "bee hive shelf"),
     ("measuring cylinder", "mesuring cylindre"), ("electrolyte", "the electrolite"),
     ("evaporating basin", "evaporateing basin"), ("boiling tube", "boileing tube")],
)  # fmt: skip
def test_a_misspelt_word_of_a_name_is_no_other_word(right, typed):
    assert mark(name(right), typed).marks == 1
