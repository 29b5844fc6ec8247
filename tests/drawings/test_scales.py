"""A drawn scale can be read off its dots and off its words, at every half division."""

from __future__ import annotations

import re
from fractions import Fraction
from time import process_time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drill.drawings import cells, scale_drawing, scale_in_words
from drill.drawings.window import window
from drill.frozen import replace
from drill.model import Scale
from drill.quantities import FactsRow
from tests.drawings.making import dots_of, rows, scale_from

ROWS = rows()
READ_BY_LINES = [row for row in ROWS if row.cells["shape"] != "display"]
UPRIGHT = [row for row in ROWS if row.cells["shape"] in ("cylinder", "burette")]


def ids(row: FactsRow) -> str:
    return row.id


def _at(row: FactsRow, halves: int) -> Scale:
    """The instrument at a number of half divisions above its lowest line."""
    scale = scale_from(row)
    most = int(2 * (scale.high - scale.low) / scale.division)
    return replace(scale, reading=scale.low + min(halves, most) * scale.division / 2)


def _read_words(text: str) -> Fraction:
    """What a listener works out from the words alone."""
    text = text.replace("\N{MINUS SIGN}", "-")
    level = re.search(r"level with the line at (-?[\d.]+)\.", text)
    if level:
        return Fraction(level[1])
    between = re.search(r"From (-?[\d.]+) to (-?[\d.]+) there are (\d+)", text)
    count = re.search(r"is (?:(half)|(\d+)( and a half)?) (?:a )?small division", text)
    start = re.search(r"the line at (-?[\d.]+)\.", text)
    assert between
    assert count
    assert start
    division = (Fraction(between[2]) - Fraction(between[1])) / int(between[3])
    divisions = Fraction(1, 2) if count[1] else int(count[2]) + Fraction(1 if count[3] else 0, 2)
    return Fraction(start[1]) + divisions * division


@pytest.mark.parametrize("row", READ_BY_LINES, ids=ids)
@settings(max_examples=60, deadline=None)
@given(halves=st.integers(0, 1000))
def test_the_words_carry_the_reading_and_do_not_say_it(row: FactsRow, halves: int) -> None:
    scale = _at(row, halves)
    text = scale_in_words(scale)
    assert _read_words(text) == scale.reading
    # in the first stretch from 0 on, one division of 1 above 0 is the reading, and is the task
    if "level with" not in text and not text.endswith("the line at 0."):
        shown = f"{float(scale.reading):g}"
        assert shown not in re.findall(r"[\d.]*\d", text.replace(scale.name, "").split("is ")[-1])


@pytest.mark.parametrize("row", ROWS, ids=ids)
@settings(max_examples=60, deadline=None)
@given(halves=st.integers(0, 1000))
def test_it_fits_a_screen_of_80_by_24_and_shows_two_numbers(row: FactsRow, halves: int) -> None:
    scale = _at(row, halves)
    made = cells(scale_drawing(scale), 80, 17)
    assert len(made) <= 15
    assert max(map(len, made)) <= 80
    if scale.shape == "display":
        return
    lines = window(scale, 14).lines
    numbers = [line.number for line in lines if line.number]
    assert len(numbers) >= 2
    assert lines[0].value <= scale.reading <= lines[-1].value
    printed = " ".join(made)
    assert all(re.search(rf"(?<!\d){re.escape(number)}(?!\d)", printed) for number in numbers)


def _read_dots(scale: Scale) -> Fraction:
    """The reading taken off the dots of a tube.

    Its lines start at the left wall (x = 20); the bottom of the surface is the dots across the
    middle of the tube; what the lines are worth comes from the numbers printed beside them.
    """
    made = cells(scale_drawing(scale), 80, 17)
    dots = dots_of(made)
    right = max(x for x, _ in dots)
    middle = (20 + right) // 2
    span = range(middle - 4, middle + 5)
    level = next(y for y in range(60) if all((x, y) in dots for x in span))
    numbered = [
        (4 * row + 1, Fraction(match[1]))
        for row, text in enumerate(made)
        if (match := re.match(r"\s*(\d+(?:\.\d+)?)\s", text))
    ]
    (y1, v1), (y2, v2) = numbered[:2]
    assert (22, y1) in dots
    assert (22, y2) in dots
    return v1 + (v2 - v1) * Fraction(level - y1, y2 - y1)


@pytest.mark.parametrize("row", UPRIGHT, ids=ids)
@settings(max_examples=60, deadline=None)
@given(halves=st.integers(1, 999))
def test_the_dots_of_a_tube_give_the_reading_exactly(row: FactsRow, halves: int) -> None:
    scale = _at(row, halves)
    assert _read_dots(scale) == scale.reading


def test_a_burette_s_numbers_grow_downwards_and_a_cylinder_s_upwards() -> None:
    for row in UPRIGHT:
        scale = _at(row, 61)
        made = cells(scale_drawing(scale), 80, 17)
        found = [match[1] for text in made if (match := re.match(r"\s*(\d+)\s", text))]
        values = [int(number) for number in found]
        assert values == sorted(values, reverse=scale.shape == "cylinder")


def test_the_curve_touches_the_glass_one_division_above_its_bottom() -> None:
    """So that the slip "top of the curve" is one whole division."""
    scale = _at(UPRIGHT[0], 61)
    drawing = scale_drawing(scale)
    surface = drawing.lines[-1]
    ys = [y for _, y in surface]
    assert max(ys) - min(ys) == 4
    assert surface[0][1] == min(ys)


def test_a_picture_takes_less_than_60_ms() -> None:
    for row in ROWS:
        scale = _at(row, 41)
        cells(scale_drawing(scale), 80, 17)
        start = process_time()
        for _ in range(5):
            cells(scale_drawing(scale), 80, 17)
        assert (process_time() - start) / 5 < 0.060
