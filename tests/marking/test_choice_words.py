"""Choices in sentences, orders as lists, cells of a table however they are set apart."""

from __future__ import annotations

from itertools import permutations

import pytest

from drill.frozen import replace
from drill.marking import mark
from drill.model import OrderKey, TableKey
from tests.marking.making import chain, choice, number_key, part

KIT = choice(
    ("a beaker", False, "x"),
    ("a measuring cylinder", True, ""),
    ("a volumetric pipette", False, ""),
    ("a burette with a tap", False, ""),
)
FAULT = replace(KIT, ask="Identify the one that is wrong here.")


@pytest.mark.parametrize(
    "typed",
    [
        "B because it has a scale", "i think it's B", "the measuring cylinder because it has marks",
        "not a, b", "b not a", "a is wrong so b", "measuring cylinder not beaker", "cylinder",
        "mesuring cylinder", "a... actually b", "it cant be a or c so its b",
        "b. a beaker is too rough", "I would say option B", "the answer is b) a measuring cylinder",
        "a measuring cylinder, not a beaker", "B, the others have no scale",
    ],
)  # fmt: skip
def test_the_option_meant_in_a_sentence(typed):
    assert mark(KIT, typed).marks == 1


@pytest.mark.parametrize(
    "typed", ["a because b is wrong", "use the beaker", "d with the tap", "A or B"]
)
def test_another_option_or_two(typed):
    assert mark(KIT, typed).marks == 0


def test_an_option_called_wrong_is_the_answer_only_where_the_wrong_one_is_asked_for():
    typed = "b is wrong because it is too high"
    assert mark(FAULT, typed).marks == 1
    assert (mark(KIT, typed).marks, mark(KIT, typed).readable) == (0, False)


TWO = replace(
    choice(("w", True, ""), ("x", False, ""), ("y", True, ""), ("z", False, ""), several=True),
    ask="Identify the TWO that are right.",
)


@pytest.mark.parametrize(
    ("typed", "marks"),
    [("AC", 2), ("A and B", 1), ("A", 1), ("ABC", 1), ("ABCD", 0), ("BD", 0), ("a, c", 2)],
)
def test_only_letters_beyond_the_number_asked_cancel(typed, marks):
    assert mark(TWO, typed).marks == marks


STEPS = {
    "A": "filter the mixture into a flask",
    "B": "heat the filtrate until crystals form on a cold glass rod",
    "C": "warm the acid in a beaker",
    "D": "add the oxide until some is left over",
}
RIGHT = "CDAB"
ORDER = part("order", OrderKey(tuple(STEPS.items()), RIGHT, {}), {"value": 3})
WAYS = (
    lambda o: ", ".join(o),
    lambda o: " -> ".join(o).lower(),
    lambda o: "\n".join(f"{n}. {one}" for n, one in enumerate(o, 1)),
    lambda o: " ".join(f"{n}){one}" for n, one in enumerate(o, 1)),
    lambda o: " ".join(f"{one}={o.index(one) + 1}" for one in sorted(o)),
    lambda o: "first " + " then ".join(o),
    lambda o: "\n".join(STEPS[one] for one in o),
    lambda o: ", then ".join(STEPS[one] for one in o),
    lambda o: "; ".join(f"{one} {STEPS[one]}" for one in o),
)


@pytest.mark.parametrize("way", WAYS)
def test_an_order_is_the_same_in_every_way_of_typing_it(way):
    for given in map("".join, permutations(RIGHT)):
        assert mark(ORDER, way(given)).marks == mark(ORDER, given).marks, way(given)


def test_numbers_beside_letters_say_the_order_and_are_asked_about_when_they_contradict():
    assert mark(ORDER, "2 C 1 D 3 A 4 B").marks == mark(ORDER, "DCAB").marks == 2
    assert not mark(ORDER, "1 C 3 D 3 A 2 B").readable


LINKS = chain(
    {"a": ("11.8", "°C"), "b": ("11.9", "°C"), "c": ("12.4", "°C")},
    {"m": ("(a + b + c) / 3", "°C"), "r": ("c - a", "°C")},
)
CELLS = {
    "mean": number_key(LINKS, "m", "°C", decimals=1),
    "range": number_key(LINKS, "r", "°C", decimals=1),
}
TABLE = part("table", TableKey(CELLS), {"mean": 1, "range": 1})


@pytest.mark.parametrize(
    "typed",
    [
        "mean = 12.0, range = 0.6", "mean 12.0 range 0.6", "mean: 12.0; range: 0.6",
        "12.0 mean, 0.6 range", "12.0 is the mean and 0.6 is the range", "12.0,0.6", "12.0 | 0.6",
        "average = 12.0, range=0.6", "mean = (11.8+11.9+12.4)/3 = 12.0, range = 12.4-11.8 = 0.6",
        "(11.8+11.9+12.4)/3 = 12.0, 12.4-11.8 = 0.6", "range is 0.6 and the mean is 12.0",
    ],
)  # fmt: skip
def test_cells_with_their_names_or_in_their_places(typed):
    assert mark(TABLE, typed).marks == 2


@pytest.mark.parametrize(
    "typed", ["mean = dunno, range = 0.6", "mean = 12,0, range = 0,6", "12.0/0.6"]
)
def test_a_cell_that_cannot_be_read_is_asked_about(typed):
    assert not mark(TABLE, typed).readable
