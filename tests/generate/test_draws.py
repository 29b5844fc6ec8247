"""Each kind of draw gives what the author asked for."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drill.generate import PEOPLE
from tests.generate.making import only_part, problem, question, value_of, written


def values(draw: str, seeds: int = 200, before: str = "") -> list[str]:
    return [value_of(draw, "x", seed, before) for seed in range(seeds)]


def test_a_range_reaches_both_ends_and_keeps_its_decimals():
    seen = set(values('{ from = 1.00, to = 1.20, step = 0.05, unit = "g" }'))
    assert seen == {"1.00 g", "1.05 g", "1.10 g", "1.15 g", "1.20 g"}


def test_a_range_never_goes_past_its_end():
    assert set(values("{ from = 1, to = 10, step = 4 }")) == {"1", "5", "9"}


def test_a_range_may_hang_on_an_earlier_draw():
    before = 'low = { one_of = [3, 5], unit = "cm3" }'
    draw = '{ from = "low", to = "low + low", step = 1, unit = "cm3" }'
    assert set(values(draw, before=before)) == {f"{n} cm3" for n in range(3, 11)}


def test_the_ends_of_a_range_are_turned_into_its_unit():
    before = 'low = { one_of = [20], unit = "cm3" }'
    draw = '{ from = "low", to = "low", step = 0.001, unit = "dm3", decimals = 4 }'
    assert set(values(draw, 3, before)) == {"0.0200 dm3"}


@settings(max_examples=50, deadline=None)
@given(st.integers(0, 10**9), st.integers(-50, 50), st.integers(0, 60), st.integers(1, 9))
def test_a_range_holds_only_whole_steps(seed, start, length, step):
    text = f"{{ from = {start}, to = {start + length}, step = {step} }}"
    shown = int(value_of(text, "x", seed))
    assert start <= shown <= start + length
    assert (shown - start) % step == 0


def test_each_choice_comes_about():
    assert set(values('{ one_of = ["zinc", "iron"] }')) == {"zinc", "iron"}
    assert set(values('{ one_of = [25.0, 50.0], unit = "cm3" }')) == {"25.0 cm3", "50.0 cm3"}


def test_a_choice_may_name_an_earlier_draw():
    before = 'acid = { one_of = ["nitric acid"] }'
    assert value_of('{ one_of = ["dilute {acid}"] }', "x", 1, before) == "dilute nitric acid"


def test_rows_are_drawn_whole():
    text = """
[draw]
route = { row_of = "salts", where = { acid = "sulfuric acid" } }
[[part]]
kind = "name"
ask = "{route.base_name} and {route.M_crystals}"
accept = ["x"]
"""
    seen = {only_part(text, seed).ask for seed in range(60)}
    assert seen == {
        "copper(II) oxide and 249.5 g/mol",
        "zinc oxide and 287.4 g/mol",
        "magnesium oxide and 246 g/mol",
        "copper(II) carbonate and 249.5 g/mol",
    }


def test_people_have_different_names():
    text = """
[draw]
one = { person = true }
two = { person = true }
[[part]]
kind = "name"
ask = "{one} {two}"
accept = ["x"]
"""
    for seed in range(100):
        one, two = only_part(text, seed).ask.split()
        assert one != two
        assert {one, two} <= set(PEOPLE)


def test_shuffling_and_picking():
    assert set(values('{ shuffle = ["a", "b", "c"] }')) == {
        "a, b and c", "a, c and b", "b, a and c", "b, c and a", "c, a and b", "c, b and a",
    }  # fmt: skip
    picked = set(values('{ pick = 2, of = ["a", "b", "c"] }'))
    assert picked == {"a and b", "b and a", "a and c", "c and a", "b and c", "c and b"}


def test_an_item_of_a_list_can_be_printed():
    text = """
[draw]
two = { pick = 2, of = ["zinc", "iron", "copper"] }
[[part]]
kind = "name"
ask = "{two.1} then {two.2}"
accept = ["x"]
"""
    first, second = only_part(text, 3).ask.split(" then ")
    assert first != second


def test_readings_lie_within_their_spread_at_the_scale():
    seen = values('{ readings = 4, centre = 24.10, spread = 0.10, step = 0.05, unit = "cm3" }')
    for text in seen:
        numbers = re.findall(r"\d+\.\d+", text)
        assert len(numbers) == 4
        assert set(numbers) <= {"24.00", "24.05", "24.10", "24.15", "24.20"}


def test_an_anomaly_is_alone_and_far_away():
    draw = '{ readings = 5, centre = 40, spread = 2, step = 1, unit = "s", anomaly = true }'
    for text in values(draw, 100):
        numbers = [int(number) for number in re.findall(r"\d+", text)]
        far = [number for number in numbers if abs(number - 40) > 2]
        assert len(far) == 1
        assert 10 <= abs(far[0] - 40) <= 18


def test_seed_0_takes_what_the_author_put_first():
    draw = '{ from = 20, to = 40, step = 5, unit = "cm3", first = 35 }'
    assert value_of(draw, "x", 0) == "35 cm3"
    assert len(set(values(draw, 40))) == 5
    assert value_of('{ one_of = ["a", "b", "c"], first = "b" }', "x", 0) == "b"


def test_a_draw_added_later_disturbs_no_other():
    one = written(
        "[draw]\nx = { from = 1, to = 1000, step = 1 }\n"
        '[[part]]\nkind = "name"\nask = "{x}"\naccept = ["x"]\n'
    )
    two = written(
        "[draw]\ny = { from = 1, to = 9, step = 1 }\nx = { from = 1, to = 1000, step = 1 }\n"
        '[[part]]\nkind = "name"\nask = "{x}"\naccept = ["x"]\n'
    )
    for seed in range(20):
        assert question(one, seed).parts[0].ask == question(two, seed).parts[0].ask


ENDS = "from is the lower end, to the higher one, and step is above 0."


@pytest.mark.parametrize(
    ("draw", "expected"),
    [
        (
            '{ from = "3 + 2", to = 1, step = 1 }',
            '7: the draw "x": nothing to draw from 5 to 1 in steps of 1 (seed 0, 200 tries). '
            + ENDS,
        ),
        (
            '{ from = 1, to = 5, step = "1 - 1" }',
            '7: the draw "x": nothing to draw from 1 to 5 in steps of 0 (seed 0, 200 tries). '
            + ENDS,
        ),
    ],
)
def test_a_draw_that_cannot_be_made_says_so(draw, expected):
    text = f'[draw]\nx = {draw}\n[[part]]\nkind = "name"\nask = "{{x}}"\naccept = ["x"]\n'
    assert problem(text) == expected
