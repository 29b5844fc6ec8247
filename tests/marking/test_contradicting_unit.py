"""A unit that contradicts the answer costs the value's mark; the method keeps its own."""

from __future__ import annotations

import pytest

from drill.marking import mark
from tests.marking.making import chain, number_key, part

LINKS = chain({"x": ("4", ""), "m": ("1.55", "g")}, {})
AWARD = {"method": 1, "value": 1}
COUNT = part("number", number_key(LINKS, "x", award=AWARD), AWARD)
MASS = part("number", number_key(LINKS, "m", "g", award=AWARD), AWARD)


@pytest.mark.parametrize("typed", ["4 mol", "x = 4 mol"])
def test_a_unit_where_none_belongs_loses_the_value_alone(typed: str) -> None:
    got = mark(COUNT, typed)
    assert (got.marks, got.slip) == (1, "unit")
    assert "Type the number alone." in got.says


def test_a_unit_of_another_kind_loses_the_value_alone() -> None:
    assert mark(MASS, "1.55 cm3").marks == 1


@pytest.mark.parametrize("typed", ["7 mol", "7.1 cm"])
def test_a_wrong_number_with_a_wrong_unit_earns_nothing(typed: str) -> None:
    assert mark(COUNT, typed).marks == 0
    assert mark(MASS, typed).marks == 0
