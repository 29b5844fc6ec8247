"""Numbers read off a graph: any careful reading is right, and a wrong route is still told."""

from __future__ import annotations

from fractions import Fraction

import pytest

from drill.bank import read_template
from drill.generate import generate
from drill.marking import mark
from drill.model import NumberKey, Part, Question, Template
from drill.places import bank_dir
from drill.quantities import half_up


def part(seed: int, template: str = "rates/rate-from-a-tangent") -> tuple[Part, NumberKey]:
    read = read_template(bank_dir() / f"{template}.toml", bank_dir())
    assert isinstance(read, Template)
    question = generate(read, seed)
    assert isinstance(question, Question)
    first = question.parts[0]
    assert isinstance(first.key, NumberKey)
    return first, first.key


def typed(value: Fraction) -> str:
    return f"{float(half_up(value, 2)):.2f}"


@pytest.mark.parametrize("seed", range(8))
def test_every_careful_reading_earns_all_marks(seed: int) -> None:
    one, key = part(seed)
    assert key.low is not None
    assert key.high is not None
    for share in (1, 3, 5, 7, 9):
        value = key.low + (key.high - key.low) * Fraction(share, 10)
        assert mark(one, typed(value)).marks == one.marks


@pytest.mark.parametrize("seed", range(8))
def test_beyond_the_room_it_is_not_right(seed: int) -> None:
    one, key = part(seed)
    assert key.low is not None
    assert key.high is not None
    for value in (key.low - Fraction(3, 100), key.high + Fraction(3, 100)):
        assert mark(one, typed(value)).marks < one.marks


@pytest.mark.parametrize("seed", range(8))
def test_a_wrong_route_on_one_s_own_readings_is_told(seed: int) -> None:
    """Inverted, but with readings a little off: not the author's value, still that route."""
    one, key = part(seed)
    slip = next(slip for slip in key.slips if slip.id == "inverted")
    assert slip.low is not None
    assert slip.high is not None
    for end in (slip.low, slip.high):
        value = (slip.value + 2 * end) / 3
        found = mark(one, typed(value))
        assert found.slip == "inverted"
        assert found.marks == 0


def test_of_two_routes_the_nearer_one_is_told() -> None:
    one, key = part(2)
    for slip in key.slips:
        assert mark(one, slip.text).slip == slip.id


@pytest.mark.parametrize("seed", range(6))
def test_a_wrong_reading_is_carried_forward(seed: int) -> None:
    """A part worked rightly from an own reading earns its marks, as anywhere else."""
    template = read_template(bank_dir() / "energy" / "temperature-at-mixing.toml", bank_dir())
    assert isinstance(template, Template)
    question = generate(template, seed)
    assert isinstance(question, Question)
    first, second = question.parts
    assert isinstance(first.key, NumberKey)
    assert isinstance(second.key, NumberKey)
    own = first.key.value - 4
    assert mark(first, typed(own)).marks == 0
    rise = second.key.value - 4
    carried = mark(second, typed(rise), {"a": own})
    assert carried.marks == second.marks
    assert carried.carried
    assert mark(second, typed(rise), {}).marks == 0
