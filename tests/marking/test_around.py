"""What the sentence around a statement denies, and what it does not."""

from __future__ import annotations

import pytest

from drill.model import Pattern
from tests.marking.making import marks, point, verdict, written

ACID = written(
    point("used", ["acid", "used up"], Pattern(("=no|not ~2 acid ~2 left",), polarity="any")),
)


@pytest.mark.parametrize(
    "typed",
    ["it is impossible that the acid is all used up", "it's a myth that the acid is used up",
     "nobody believes the acid is used up", "i dont think the acid gets used up",
     "I do not think that there is no acid left", "we disagree that the acid is used up",
     "they are wrong to say the acid is used up", "few people think that the acid is used up",
     "it filters well and it is false that the acid is used up",
     "the acid is used up, which is not true", "the acid is used up but that is a lie",
     "the acid is used up. It spits but that is not true",
     "I doubt that it is hot so the acid is used up",
     "The acid is used up. This is wrong.", "Nobody has ever said how the acid is used up"],
)  # fmt: skip
def test_what_is_denied_earns_nothing_and_is_looked_at(typed):
    got = verdict(ACID, typed)
    assert (got.marks, got.unsure) == (0, ("used",))


@pytest.mark.parametrize(
    "typed",
    ["there is no doubt that the acid is used up", "it is not wrong that the acid is used up",
     "nobody denies that the acid is used up", "a few people think that the acid is used up",
     "it is not true that it is hot, but the acid is used up",
     "it is not true that it stays. The acid is used up", "so there is no acid left",
     "I think that the acid is used up", "I don't think it matters because the acid is used up",
     "there is no solid that is hot when the acid is used up",
     "the acid is used up. It spits, which is not true",
     "I don't think it is hot so the acid is used up",
     "the acid is used up, which is true", "the acid is used up, this is not wrong",
     "the reading is wrong so the acid is used up", "it is wrong because the acid is used up"],
)  # fmt: skip
def test_what_is_not_denied_earns_its_mark(typed):
    assert marks(ACID, typed) == 1


def test_a_gap_does_not_cross_a_sentence_and_a_reject_no_comma():
    made = written(point("a", ["filter ~3 oxide"], reject=[["acid ~4 left"]]))
    assert marks(made, "filter it. oxide") == 0
    assert marks(made, "filter out the oxide, no acid, none left") == 1
    assert marks(made, "filter out the oxide, acid is left") == 0


def test_orders_that_were_seen_and_no_others():
    made = written(point("a", Pattern(("acid", "gone", "not solid"), orders=((2, 1),))))
    assert marks(made, "gone is the acid") == 1
    assert marks(made, "the acid is gone") == 0
