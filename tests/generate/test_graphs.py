"""The graph of a question: points worked out one by one, lines, and answers read off it."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drill.generate.keys.read_off import bounds
from drill.generate.pictures.curves import smooth
from drill.model import Graph, NumberKey, Question
from tests.generate.making import problem, question, written

DRAWS = """\
[draw]
slope = { from = 0.4, to = 0.7, step = 0.02, unit = "cm3/s" }
off = { readings = 5, centre = 20, spread = 1, step = 0.5, unit = "cm3", anomaly = true }
[work]
x1 = { is = "10 in s", unit = "s" }
x2 = { is = "90 in s", unit = "s" }
y1 = { is = "slope * x1", unit = "cm3" }
y2 = { is = "slope * x2", unit = "cm3" }
rate = { is = "(y2 - y1) / (x2 - x1)", unit = "cm3/s", called = "gradient" }
"""
AXES = """\
[graph]
title = "Gas at {slope}"
x = { quantity = "time", unit = "s" }
y = { quantity = "volume of gas", unit = "cm3" }
"""
POINTS = 'points = { x = "[20, 40, 60, 80, 100]", y = "slope * x + off - (20 in cm3)" }\n'
LINE = '[[graph.line]]\ny = "slope * x"\nfrom = "0"\nto = "100"\n'
PART = """\
[[part]]
kind = "number"
ask = "Determine the rate."
answer = "rate"
figures = 2
read_off = { y1 = "y", y2 = "y", x1 = "x", x2 = "x" }
"""
SLIP = '[[part.slip]]\nid = "it"\nsays = "No."\ngives = '
SEEDS = range(12)


def text(graph: str = POINTS + LINE, part: str = PART) -> str:
    return DRAWS + AXES + graph + part


def made(graph: str = POINTS + LINE, part: str = PART, seed: int = 0) -> tuple[Question, Graph]:
    whole = question(written(text(graph, part)), seed)
    assert whole.graph is not None
    return whole, whole.graph


def key_of(whole: Question) -> NumberKey:
    key = whole.parts[0].key
    assert isinstance(key, NumberKey)
    return key


def test_the_same_seed_gives_the_same_graph() -> None:
    assert made(seed=3) == made(seed=3)
    assert made(seed=3)[1] != made(seed=4)[1]


@pytest.mark.parametrize("seed", SEEDS)
def test_a_list_stands_for_its_item_point_by_point(seed: int) -> None:
    whole, graph = made(seed=seed)
    givens = key_of(whole).chain.givens
    off, slope = givens["off"], givens["slope"]
    assert isinstance(off, tuple)
    for (x, y), one in zip(graph.points, off, strict=True):
        assert y == slope.value * x + one.value - 20  # type: ignore[union-attr]


@pytest.mark.parametrize("seed", SEEDS)
def test_the_anomaly_lies_furthest_from_the_line(seed: int) -> None:
    whole, graph = made(seed=seed)
    off = key_of(whole).chain.givens["off"]
    assert isinstance(off, tuple)
    away = [abs(one.value - 20) for one in off]  # type: ignore[union-attr]
    (x1, y1), (x2, y2) = graph.lines[0].path
    slope = (y2 - y1) / (x2 - x1)
    from_line = [abs(y - y1 - slope * (x - x1)) for x, y in graph.points]
    furthest = from_line.index(max(from_line))
    assert furthest == away.index(max(away))
    rest = [far for place, far in enumerate(from_line) if place != furthest]
    assert from_line[furthest] >= 4 * max(rest)


@pytest.mark.parametrize("seed", SEEDS)
def test_everything_drawn_lies_inside_the_axes(seed: int) -> None:
    graph = made(seed=seed)[1]
    for x, y in [*graph.points, *(point for line in graph.lines for point in line.path)]:
        assert graph.x.low <= x <= graph.x.high
        assert graph.y.low <= y <= graph.y.high


def test_titles_hold_values() -> None:
    assert "cm3/s" in made()[1].title


def test_straight_lines_have_two_points_and_curves_many() -> None:
    curve = '[[graph.line]]\ny = "(x / (1 in s)) ^ 2 * (0.01 in cm3)"\nfrom = "0"\nto = "100"\n'
    graph = made(LINE + curve)[1]
    assert [line.straight for line in graph.lines] == [True, False]
    assert [len(line.path) for line in graph.lines] == [2, 65]


def test_an_upright_line_is_as_long_as_the_axis() -> None:
    graph = made(POINTS + '[[graph.line]]\nat = "30"\ndashed = true\n')[1]
    assert graph.lines[0].path == ((30, graph.y.low), (30, graph.y.high))


def test_an_axis_reaches_where_the_author_wants() -> None:
    wanted = text().replace('"time", unit = "s"', '"time", unit = "s", to = "160"')
    graph = question(written(wanted)).graph
    assert graph is not None
    assert graph.x.high >= 160


@pytest.mark.parametrize(
    ("graph", "says"),
    [
        ('points = { x = "20", y = "x" }\n', "no list of 1 to 40"),
        ('points = { x = "[20, 20]", y = "slope * x" }\n', "the same place along the bottom"),
        ('points = { x = "[20, 30]", y = "x * slope * slope" }\n', "the height of the graph"),
        ('points = { x = "[20, 30]", y = "off" }\n', "the height of the graph"),
        ('points = { x = "[20, 30]", y = "5" }\n', "volume of gas: an axis needs two different"),
        ('[[graph.line]]\ny = "x"\nfrom = "5"\nto = "5"\n', "ends where it begins"),
        ('[[graph.line]]\nat = "5"\n', "nothing is drawn but upright lines"),
        ('[[graph.line]]\ny = "1 / x"\nfrom = "0"\nto = "5"\n', "the height of the graph"),
    ],
)
def test_what_cannot_be_drawn_is_said(graph: str, says: str) -> None:
    assert says in problem(text(graph))


# ------------------------------------------------------------------ read off


@pytest.mark.parametrize("seed", SEEDS)
def test_the_room_of_a_gradient_is_that_of_its_four_readings(seed: int) -> None:
    whole, graph = made(seed=seed)
    key = key_of(whole)
    assert key.low is not None
    assert key.high is not None
    rise, run = key.value * 80, Fraction(80)
    least = (rise - graph.y.division) / (run + graph.x.division)
    most = (rise + graph.y.division) / (run - graph.x.division)
    assert key.low <= least < key.value < most <= key.high
    assert key.high - key.low < (most - least) * Fraction(11, 10)


def test_one_reading_has_half_a_small_division_to_both_sides() -> None:
    part = PART.replace('answer = "rate"', 'answer = "y2"').replace(
        'y1 = "y", y2 = "y", x1 = "x", x2 = "x"', 'y2 = "y"'
    )
    whole, graph = made(part=part)
    key = key_of(whole)
    assert key.low is not None
    assert key.high is not None
    assert key.low <= key.value - graph.y.half
    assert key.value + graph.y.half <= key.high
    assert key.high - key.low <= graph.y.division * Fraction(11, 10)


def test_what_is_read_counts_as_known_in_the_worked_answer() -> None:
    assert "gradient = (" in made()[0].parts[0].worked


def test_slips_have_their_own_room() -> None:
    part = PART + SLIP + '"(x2 - x1) / (y2 - y1)"\n'
    slip = key_of(made(part=part)[0]).slips[0]
    assert slip.low is not None
    assert slip.high is not None
    assert slip.low < slip.value < slip.high


def test_a_slip_inside_the_room_is_refused() -> None:
    part = PART + SLIP + '"(y2 - y1 + 1) / (x2 - x1)"\n'
    assert "which reading a graph may give too" in problem(text(part=part))


def test_an_answer_that_hangs_on_no_reading_is_refused() -> None:
    part = PART.replace('answer = "rate"', 'answer = "slope"')
    assert "does not hang on what is read off" in problem(text(part=part))


@given(
    st.fractions(0, 1000, max_denominator=999),
    st.lists(st.fractions(0, 1000, max_denominator=999), min_size=1, max_size=5),
)
def test_bounds_hold_every_value_and_little_more(value: Fraction, others: list[Fraction]) -> None:
    low, high = bounds(value, others)
    every = [value, *others]
    assert low <= min(every)
    assert max(every) <= high
    assert high - low <= (max(every) - min(every)) * Fraction(6, 5)


# ------------------------------------------------------------------ smooth curves

PLACES = st.lists(st.integers(0, 50), min_size=3, max_size=8, unique=True).map(sorted)


@given(PLACES, st.data())
def test_a_smooth_curve_goes_through_its_points_and_turns_only_there(
    places: list[int], data: st.DataObject
) -> None:
    heights = [data.draw(st.integers(-50, 50)) for _ in places]
    points = tuple((Fraction(x), Fraction(y)) for x, y in zip(places, heights, strict=True))
    path = smooth(points, 64)
    assert set(points) <= set(path)
    assert [x for x, _ in path] == sorted({x for x, _ in path})
    for (x1, y1), (x2, y2) in pairwise(points):
        piece = [y for x, y in path if x1 <= x <= x2]
        assert piece == sorted(piece, reverse=y2 < y1)


def test_a_smooth_curve_through_a_line_is_the_line() -> None:
    points = tuple((Fraction(x), Fraction(2 * x)) for x in range(5))
    assert all(y == 2 * x for x, y in smooth(points, 64))
