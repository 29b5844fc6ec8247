"""Steps in order: which one is out of place, and why."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.marking.making import marks, order, verdict

STEPS = order("ABCD", "CABD", {"step A": "Filtering needs the solid still there."}, marks=3)


@pytest.mark.parametrize(
    "typed", ["CABD", "cabd", "C A B D", "c, a, b, d", "C > A > B > D", "C-A-B-D", "order: CABD"]
)
def test_the_right_order_however_it_is_typed(typed):
    assert marks(STEPS, typed) == 3


@pytest.mark.parametrize("typed", ["CAB", "CABDD", "CABE", "first C", "1234", "AABB"])
def test_a_letter_missing_or_twice_may_be_typed_again(typed):
    mark = verdict(STEPS, typed)
    assert (mark.marks, mark.readable) == (0, False)
    assert mark.says == "Each letter once, please: A B C D in your order."


def test_the_step_out_of_place_is_named_with_its_reason():
    mark = verdict(STEPS, "CBDA")
    assert mark.marks == 2
    assert mark.says == (
        'Step A is out of place: "step A" comes straight after "step C". '
        "Filtering needs the solid still there."
    )


def test_several_steps_out_of_place_are_counted():
    mark = verdict(STEPS, "DBAC")
    assert mark.marks == 0
    assert mark.says.endswith("In all, 3 steps have to be moved.")


def test_a_step_that_comes_first():
    assert verdict(STEPS, "ABDC").says.startswith('Step C is out of place: "step C" comes first.')


@settings(max_examples=60, deadline=None)
@given(st.permutations("ABCDEF"))
def test_one_mark_is_lost_for_each_step_that_must_be_moved(given_order):
    shown = order("ABCDEF", "ABCDEF", marks=5)
    longest = max(
        len(run) for run in _subsequences("".join(given_order)) if list(run) == sorted(run)
    )
    assert marks(shown, "".join(given_order)) == max(0, 5 - (6 - longest))


def _subsequences(text):
    runs = [""]
    for letter in text:
        runs += [run + letter for run in runs]
    return runs
