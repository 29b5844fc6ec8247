"""Tables: each cell reads its own value, however the cells are set apart."""

from __future__ import annotations

import pytest

from drill.marking import mark
from drill.marking.numeric.cells import cells_of
from drill.model import TableKey
from tests.marking.making import chain, number_key, part

LINKS = chain({"w": ("0.110", "mol"), "s": ("0.0183", "mol")}, {})
AWARD = {"value": 1}
CELLS = {
    "water": number_key(LINKS, "w", "mol", award=AWARD),
    "salt": number_key(LINKS, "s", "mol", award=AWARD),
}
TABLE = part("table", TableKey(CELLS), {"water": 1, "salt": 1})


@pytest.mark.parametrize(
    "typed",
    [
        "water = 0.110, salt = 0.0183",
        "water = 0.110,salt = 0.0183",
        "water: 0.110, salt: 0.0183",
        "water = 0.110 mol, salt = 0.0183 mol",
        "water = 0.110; salt = 0.0183",
        "salt = 0.0183 water = 0.110",
        "salt = 0.0183 and water = 0.110",
        "moles of water = 0.110, moles of salt = 0.0183",
        "moles of water = 0.110 mol moles of salt = 0.0183 mol",
        "Water = 0.110 mol, and the number of moles of salt = 0.0183 mol",
        "0.110, 0.0183",
        "0.110 mol and 0.0183 mol",
        "0.110 and 0.0183",
        "0.110 0.0183",
        "0.110 mol 0.0183 mol",
        "0.110\n0.0183",
    ],
)
def test_each_cell_reads_its_own_value(typed: str) -> None:
    got = mark(TABLE, typed)
    assert (got.marks, got.readable) == (2, True), got.says


def test_values_in_the_wrong_cells_earn_nothing() -> None:
    assert mark(TABLE, "water = 0.0183, salt = 0.110").marks == 0
    assert mark(TABLE, "0.0183 0.110").marks == 0


def test_a_cell_left_out_is_empty_and_the_other_keeps_its_mark() -> None:
    got = mark(TABLE, "salt = 0.0183")
    assert got.marks == 1
    assert "water: left empty." in got.says


@pytest.mark.parametrize(
    ("typed", "found"), [("0.110", "one number"), ("no idea", "no numbers"), ("1,5", "")]
)
def test_another_number_of_values_than_cells_is_to_be_typed_again(typed: str, found: str) -> None:
    got = mark(TABLE, typed)
    assert not got.readable
    assert found in got.says
    assert "two are wanted: water = …, salt = …" in got.says


def test_a_decimal_comma_is_not_the_end_of_a_cell() -> None:
    assert "0.110" in mark(TABLE, "water = 0,110, salt = 0.0183").says


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ("3.6, 6.8, mean 5.2", {"run 1": "3.6", "run 2": "6.8", "mean": "5.2"}),
        ("mean 5.2, 3.6, 6.8", {"run 1": "3.6", "run 2": "6.8", "mean": "5.2"}),
        ("3.6, mean 5.2", {"mean": "5.2"}),
        ("3.6, 6.8 so mean 5.2", {"mean": "5.2"}),
    ],
)
def test_only_one_cell_is_named(typed, expected):
    assert cells_of(("run 1", "run 2", "mean"), typed) == expected
