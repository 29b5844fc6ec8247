"""A graph can be read off its dots and off its words, to half a small division and no worse."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from drill.drawings import graph_grid, graph_in_words, graph_rows
from drill.drawings.graph_layout import layout
from drill.model import Graph, GraphLine
from tests.drawings.graphs import crosses, graph, graphs, number, scales, straight
from tests.drawings.making import dots_of

SIZES = st.sampled_from([(80, 17), (120, 33), (100, 24)])

GAS = graph(
    [(Fraction(x), Fraction(y)) for x, y in ((10, 14), (20, 25), (30, 30), (40, 44), (50, 50))],
    (straight((0, 3), (50, 51)), straight((30, 10), (50, 20), dashed=True, label="B")),
    "Gas made",
)

GOLDEN = """\
volume of gas / cm3                                           Gas made
60 ⠒⡆ ⠐  ⠂ ⠐  ⠂ ⠐  ⠂ ⠐  ⠂ ⠐  ⠂ ⠐  ⠂ ⠐  ⠂ ⠐  ⠂ ⠐  ⠂ ⠐  ⠂ ⠐  ⠂ ⠐  ⠂ ⠐
   ⠐⡇           ⠐            ⠂           ⠐            ⠂          ⢀⠐⢀
50 ⠒⡇ ⠐  ⠂ ⠐  ⠂ ⠐  ⠂ ⠐  ⠂ ⠐  ⠂ ⠐  ⠂ ⠐  ⠂ ⠐  ⠂ ⠐  ⠂ ⠐  ⠂ ⠐  ⠂ ⣀⡠⠤⠔⢒⠝⢅
   ⠐⡇           ⠐            ⠂           ⠐           ⢑⢔⣁⡠⠤⠒⠊⠉     ⠐
40 ⠒⡇ ⠐  ⠂ ⠐  ⠂ ⠐  ⠂ ⠐  ⠂ ⠐  ⠂ ⠐  ⠂ ⠐  ⠂ ⠐  ⠂ ⠐ ⢀⣀⠤⠔⠒⠉⠁⠁⠐  ⠂ ⠐  ⠂ ⠐
   ⠐⡇           ⠐            ⠂          ⢀⠐⣀⡠⠤⠒⠊⠉⠁     ⠂           ⠐
30 ⠒⡇ ⠐  ⠂ ⠐  ⠂ ⠐  ⠂ ⠐  ⠂ ⠐ ⡀⠂⡀⠐  ⠂⢀⣀⠤⠔⠒⢊⠝⢅ ⠂ ⠐  ⠂ ⠐  ⠂ ⠐  ⠂ ⠐  ⠂ ⠐
   ⠐⡇           ⠐           ⡨⣪⡠⠤⠔⠒⠉⠁     ⠐            ⠂           ⠐
20 ⠒⡇ ⠐  ⠂ ⠐  ⠂ ⠐  ⠂ ⠐⢀⣀⡠⠤⠒⠊⠉⠂ ⠐  ⠂ ⠐  ⠂ ⠐  ⠂ ⠐  ⠂ ⠐  ⠂ ⠐  ⢀⣀⡀ ⠠⠤⠒⠐ B
   ⠐⡇          ⠈⣢⣊⠤⠔⠒⠉⠁      ⠂           ⠐    ⢀⣀⡀ ⠠⠤⠤ ⠂⠒⠉⠁        ⠐
10 ⠒⡇ ⠐  ⠂⣀⡠⠤⠒⠊⠉⠁⠈ ⠂ ⠐  ⠂ ⠐  ⠂ ⠐  ⠂ ⠐  ⠂ ⠐⠒⠊⠂ ⠁  ⠂ ⠐  ⠂ ⠐  ⠂ ⠐  ⠂ ⠐
   ⠐⣇⠤⠔⠒⠊⠉      ⠐            ⠂           ⠐            ⠂           ⠐
 0 ⠒⡗⠒⠲⠒⠒⠖⠒⠲⠒⠒⠖⠒⢲⠒⠒⠖⠒⠲⠒⠒⠖⠒⠲⠒⠒⡖⠒⠲⠒⠒⠖⠒⠲⠒⠒⠖⠒⢲⠒⠒⠖⠒⠲⠒⠒⠖⠒⠲⠒⠒⡖⠒⠲⠒⠒⠖⠒⠲⠒⠒⠖⠒⢲
    0           10           20          30           40          50
                                                              time / s
"""


def test_golden() -> None:
    assert "\n".join(graph_rows(GAS, 80, 17) or ()) + "\n" == GOLDEN


@settings(max_examples=40, deadline=None, report_multiple_bugs=False)
@given(graphs(), SIZES)
def test_a_point_is_read_off_the_dots_to_half_a_small_division(
    made: Graph, size: tuple[int, int]
) -> None:
    rows = graph_rows(made, *size)
    assert rows is not None
    assert len(rows) <= size[1]
    assert max(map(len, rows)) <= size[0]
    bare = graph_rows(made._replace(points=()), *size)
    assert bare is not None
    found = crosses(rows)
    assume(len(found) == 1)  # a cross at an axis does not stand free
    ((x_dot, y_dot),) = found
    across, up = scales(bare)
    ((x, y),) = made.points
    assert abs(across.value(x_dot) - x) <= made.x.half
    assert abs(up.value(y_dot) - y) <= made.y.half


def test_most_crosses_stand_free() -> None:
    """The test above looks at the greater part of its graphs."""
    free = 0
    for i in range(1, 20):
        points = [(Fraction(0), Fraction(0)), (Fraction(100), Fraction(50))]
        made = graph(points)._replace(points=((Fraction(5 * i), Fraction(50 - 2 * i)),))
        rows = graph_rows(made, 80, 17)
        assert rows is not None
        free += len(crosses(rows))
    assert free > 14


@settings(max_examples=60, deadline=None)
@given(graphs(), SIZES)
def test_the_numbers_stand_at_their_marks(made: Graph, size: tuple[int, int]) -> None:
    rows = graph_rows(made._replace(points=()), *size)
    assert rows is not None
    across, up = scales(rows)
    assert across.first[1] == made.x.low
    assert up.first[1] == made.y.low
    assert [number(text) for text in rows[-2].split()] == list(made.x.numbered())


@settings(max_examples=60, deadline=None)
@given(graphs())
def test_a_larger_screen_shows_it_at_least_as_large(made: Graph) -> None:
    small, large = layout(made, 80, 17), layout(made, 120, 33)
    assert small is not None
    assert large is not None
    assert small.across <= large.across
    assert small.up <= large.up
    assert (small.across, small.up) < (large.across, large.up)


def test_a_straight_line_runs_through_its_ends() -> None:
    made = graph([], (straight((0, 0), (100, 50)),))
    rows = graph_rows(made, 80, 17)
    assert rows is not None
    across, up = scales(rows)
    dots = dots_of(rows)
    for x, y in ((20, 10), (50, 25), (84, 42)):
        near = [
            (dx, dy)
            for dx, dy in dots
            if abs(across.value(dx) - x) <= 1 and abs(up.value(dy) - y) <= 1
        ]
        assert near, (x, y)


def test_a_dashed_line_has_gaps_and_a_solid_one_has_none() -> None:
    """Across the row of dots where a level line lies, grid dots left out."""
    for dashed in (False, True):
        line = straight((0, 25), (100, 25), dashed=dashed)
        made = graph([(Fraction(0), Fraction(0)), (Fraction(100), Fraction(50))], (line,))
        rows = graph_rows(made._replace(points=()), 80, 17)
        assert rows is not None
        _, up = scales(rows)
        level = {x for x, y in dots_of(rows) if up.value(y) == 25}
        steps = [b - a for a, b in pairwise(sorted(level))]
        assert (max(steps) > 1) is dashed


def test_crosses_can_be_told_from_a_line_without_colour() -> None:
    """Arms of two dots stick out on both sides of a line through the point."""
    points = [(Fraction(50), Fraction(25))]
    made = graph(points, (straight((0, 0), (100, 50)),))
    rows = graph_rows(made, 80, 17)
    without = graph_rows(made._replace(points=()), 80, 17)
    assert rows is not None
    assert without is not None
    assert len(dots_of(rows) - dots_of(without)) >= 4


@pytest.mark.parametrize("size", [(30, 17), (80, 8), (10, 3), (1, 1)])
def test_where_it_cannot_be_read_it_is_not_drawn(size: tuple[int, int]) -> None:
    assert graph_rows(GAS, *size) is None


@pytest.mark.parametrize(
    "title", ["x" * 4000, "\x1b[31mred\x07", "‮evil", "<b>&amp;</b>", "日本" * 60, "", "{}%s"]
)
def test_hostile_titles_and_labels_stay_in_their_rows(title: str) -> None:
    x = GAS.x._replace(quantity=title)
    y = GAS.y._replace(quantity=title)
    for made in (GAS._replace(title=title), GAS._replace(x=x), GAS._replace(y=y)):
        rows = graph_rows(made, 80, 17)
        assert rows is not None
        assert max(map(len, rows)) <= 80
        assert len(rows) <= 17
        assert graph_in_words(made)


# ------------------------------------------------------------------ in words


def test_the_words_of_a_graph() -> None:
    assert graph_in_words(GAS).splitlines() == [
        "Graph: Gas made.",
        "Along the bottom: time in s, from 0 to 50, numbered every 10, small divisions of 2.",
        "Up the side: volume of gas in cm3, from 0 to 60, numbered every 10, small divisions of 5.",
        "Values are read to half a small division.",
        "5 points are plotted:",
        "10 s: 15.0 cm3",
        "20 s: 25.0 cm3",
        "30 s: 30.0 cm3",
        "40 s: 45.0 cm3",
        "50 s: 50.0 cm3",
        "A straight line is drawn from 0 s to 50 s. Read on it:",
        "0 s: 2.5 cm3",
        "10 s: 12.5 cm3",
        "20 s: 22.5 cm3",
        "30 s: 32.5 cm3",
        "40 s: 42.5 cm3",
        "50 s: 50.0 cm3",
        "A dashed straight line B is drawn from 30 s to 50 s. Read on it:",
        "30 s: 10.0 cm3",
        "40 s: 15.0 cm3",
        "50 s: 20.0 cm3",
    ]


@pytest.mark.parametrize(("low", "told"), [(0, "0.0"), (10, "10.0")])
def test_a_line_is_read_at_both_ends_also_between_numbers(low: int, told: str) -> None:
    """Whether it runs through the origin is seen by whoever sees it."""
    made = graph([(Fraction(100), Fraction(50))], (straight((0, low), (45, 45)),))
    rows = graph_in_words(made).split("Read on it:\n")[1].splitlines()
    assert rows[0] == f"0 s: {told} cm3"
    assert rows[-1] == "45 s: 45.0 cm3"


def test_short_level_strokes_are_told_by_their_place() -> None:
    strokes = (((8, 40), (12, 40)), ((8, 10), (12, 10)), ((28, 25), (32, 25)))
    made = graph([], (*(straight(*one) for one in strokes), straight((0, 0), (50, 0))))
    assert graph_in_words(made).splitlines()[4:] == [
        "Time 10 s: short level bars at 10.0 and 40.0 cm3.",
        "Time 30 s: a short level bar at 25.0 cm3.",
        "A level line is drawn at 0.0 cm3, from 0 s to 50 s.",
    ]


def test_points_on_a_line_have_their_values_told_once() -> None:
    on, off = (Fraction(20), Fraction(20)), (Fraction(30), Fraction(45))
    line = straight((0, 0), (50, 50))
    words = graph_in_words(graph([on], (line,)))
    assert "1 point is plotted, on a line read below, at 20 s." in words
    assert words.count("20 s: 20.0 cm3") == 1
    assert "2 points are plotted:\n20 s: 20.0 cm3\n30 s: 45.0 cm3" in graph_in_words(
        graph([on, off], (line,))
    )


def test_an_upright_line_is_told_by_its_place() -> None:
    line = straight((20, 0), (20, 60), dashed=True)
    assert "A dashed upright line stands at 20 s." in graph_in_words(GAS._replace(lines=(line,)))


def _curve(most: int, ends: int, power: int) -> GraphLine:
    path = tuple(
        (Fraction(ends * i, 64), most * (1 - (1 - Fraction(i, 64)) ** power)) for i in range(65)
    )
    return GraphLine(path, False, False, "")


@settings(max_examples=60, deadline=None)
@given(st.integers(20, 100), st.integers(20, 200), st.integers(2, 4), st.fractions(0, 1))
def test_between_the_values_told_of_a_curve_a_ruler_is_good_enough(
    most: int, ends: int, power: int, share: Fraction
) -> None:
    """Who hears the values and takes the straight way between two is no further off than an eye."""
    line = _curve(most, ends, power)
    made = graph([], (line,))
    text = graph_in_words(made).split("Read on it:\n")[1]
    told = [(number(a), number(b)) for a, b in re.findall(r"([−\d.]+) s: ([−\d.]+) cm3", text)]
    at = told[0][0] + share * (told[-1][0] - told[0][0])
    (x1, y1), (x2, y2) = next(pair for pair in pairwise(told) if pair[0][0] <= at <= pair[1][0])
    heard = y1 + (y2 - y1) * (at - x1) / (x2 - x1)
    true = most * (1 - (1 - at / ends) ** power)
    assert abs(heard - true) <= made.y.half * Fraction(21, 20)


# ------------------------------------------------------------------ what is loaded


def test_nothing_that_draws_is_loaded_before_a_graph_is_shown() -> None:
    code = (
        "import sys; sys.argv = ['drill', 'ask', {!r}{}]\n"
        "from drill.cli import run\n"
        "try: run()\nexcept SystemExit: pass\n"
        "names = ('plotille', 'drawsvg', 'drill.drawings')\n"
        "print([name for name in names if name in sys.modules], file=sys.stderr)"
    )

    def loaded(template: str, more: str = "") -> str:
        done = subprocess.run(
            [sys.executable, "-c", code.format(template, more)],
            capture_output=True,
            text=True,
            env={**os.environ, "PYTHONIOENCODING": "utf-8", "PYTHONUTF8": "1"},
        )
        return done.stderr.strip()

    assert loaded("salts/why-excess") == "[]"
    assert "plotille" in loaded("rates/rate-from-a-tangent")
    assert "drawsvg" not in loaded("rates/rate-from-a-tangent")
    assert "plotille" not in loaded("rates/rate-from-a-tangent", ", '--json'")


@settings(max_examples=60, deadline=None)
@given(graphs(), SIZES)
def test_the_grid_gives_way_to_lines_and_is_told_apart(made: Graph, size: tuple[int, int]) -> None:
    rows, grid = graph_rows(made, *size), graph_grid(made, *size)
    assert rows is not None
    assert len(grid) == len(rows)
    cells = [
        (dots, row[at : at + 1])
        for row, faint in zip(rows, grid, strict=True)
        for at, dots in enumerate(faint)
        if dots != " "
    ]
    assert cells
    assert all(dots == shown for dots, shown in cells)  # nothing but grid is called grid
