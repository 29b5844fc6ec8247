"""SVG of the closed kind is drawn as it says; everything else is refused with its line."""

from __future__ import annotations

from math import hypot

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drill.drawings import Picture, cells, read_svg
from drill.drawings.paths import path_lines
from drill.errors import Problem
from tests.drawings.making import HEAD, dots_of, svg

LINE = '<line x1="1" y1="1" x2="9" y2="9"/>'


def test_a_drawing_is_read() -> None:
    picture = svg(LINE + '<g><text x="2" y="20">cap</text></g>')
    assert isinstance(picture, Picture)
    assert picture.words == "A thing."
    assert picture.drawing.lines == (((1, 1), (9, 9)),)
    assert [word.text for word in picture.drawing.words] == ["cap"]
    assert any("cap" in row for row in cells(picture.drawing, 40, 20))


@pytest.mark.parametrize(
    ("body", "line", "message"),
    [
        ("<script>alert(1)</script>", 3, '"script" is not read'),
        ('<image href="http://x/y.png"/>', 3, '"image" is not read'),
        ("<style>path{}</style>", 3, '"style" is not read'),
        ("<foreignObject/>", 3, "is not read"),
        ('<use href="#a"/>', 3, "is not read"),
        ("<animate/>", 3, "is not read"),
        (f'{LINE}\n<line x1="1" y1="1" x2="9" y2="9" style="x"/>', 4, '"style"'),
        ('<line x1="1" y1="1" x2="9" y2="9" onload="x()"/>', 3, '"onload"'),
        ('<g transform="scale(9)"/>', 3, '"transform"'),
        ('<line x1="1e9" y1="1" x2="9" y2="9"/>', 3, "is no number"),
        ('<line x1="nan" y1="1" x2="9" y2="9"/>', 3, "is no number"),
        ('<line x1="1" y1="1" x2="9"/>', 3, "is no number"),
        ('<path d="M 1 1 l 2 2"/>', 3, '"l" is not read'),
        ('<path d="L 1 1"/>', 3, "begins with M"),
        ('<path d="M 1"/>', 3, "M needs 2 numbers"),
        ('<path d="M 1 1 L 2 ; 3"/>', 3, "is no number or letter"),
        ('<path d="M 1 1 Z 3 4"/>', 3, "a letter must"),
        ('<circle cx="3" cy="3" r="-1"/>', 3, "r must be above 0"),
        ('<rect x="1" y="1" width="2" height="2" fill="url(#a)"/>', 3, "fill is one of"),
        ("<g><g><g><g><g><g><g><g><g></g></g></g></g></g></g></g></g></g>", 3, "too many"),
        ("stray words", 3, "stands where nothing is drawn"),
        ("<desc>again</desc>" + LINE, 3, "one desc"),
        ('<text x="1" y="1"></text>', 3, "1 to 40 characters"),
        ("<g>", 4, "not XML"),
        ("&bomb;", 3, "not XML"),
        ("<?php x ?>", 3, "instruction"),
        ("", 4, "nothing is drawn"),
    ],
)
def test_what_is_not_ours_is_refused_with_its_line(body: str, line: int, message: str) -> None:
    problem = svg(body)
    assert isinstance(problem, Problem)
    assert message in problem.message
    assert problem.line == line


@pytest.mark.parametrize(
    "doctype",
    [
        '<!DOCTYPE svg [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;">]>',
        '<!DOCTYPE svg SYSTEM "file:///etc/passwd">',
        '<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/svg11.dtd">',
    ],
)
def test_a_document_type_is_refused_before_any_of_it_is_used(doctype: str) -> None:
    problem = svg(LINE, head=f"{doctype}\n{HEAD}")
    assert isinstance(problem, Problem)
    assert "document type" in problem.message
    assert problem.line == 1


@pytest.mark.parametrize("view", ["", "0 0 40", "1 1 40 40", "0 0 0 40", "0 0 99999 40", "a b c d"])
def test_a_view_box_must_be_sensible(view: str) -> None:
    problem = svg(LINE, head=f'<svg viewBox="{view}"><desc>A thing.</desc>')
    assert isinstance(problem, Problem)


def test_size_elements_and_points_are_bounded() -> None:
    assert isinstance(svg(" " * 70_000 + LINE), Problem)
    assert isinstance(svg(LINE * 1001), Problem)
    curves = '<path d="M 0 0' + " C 1 1 2 2 3 3" * 550 + '"/>'
    assert isinstance(svg(curves * 7), Problem)


@settings(max_examples=100, deadline=None)
@given(st.binary(max_size=300))
def test_no_bytes_crash_the_reader(data: bytes) -> None:
    assert isinstance(read_svg(data, "x.svg"), Problem | Picture)


@settings(max_examples=100, deadline=None)
@given(st.text("MLHVCAZ 0123456789.-,", max_size=80))
def test_no_path_crashes_the_reader(path: str) -> None:
    made = svg(f'<path d="{path}"/>')
    if isinstance(made, Picture):
        cells(made.drawing, 80, 17)


def test_an_arc_lies_on_its_circle() -> None:
    """Half a circle of radius 10 round (20, 20), clockwise on the screen: over the top."""
    (arc,) = path_lines("M 10 20 A 10 10 0 0 1 30 20")
    assert all(abs(hypot(x - 20, y - 20) - 10) < 1e-9 for x, y in arc)
    assert min(y for _, y in arc) == pytest.approx(10)
    (large,) = path_lines("M 20 10 A 10 10 0 1 0 30 20")
    assert min(x for x, _ in large) == pytest.approx(10, abs=0.1)


def test_a_cubic_curve_passes_its_known_middle() -> None:
    """At t = 1/2 the curve is at (p0 + 3 p1 + 3 p2 + p3) / 8."""
    (curve,) = path_lines("M 0 0 C 0 8 8 8 8 0")
    assert curve[8] == pytest.approx((4, 6))


def test_dots_stand_where_the_lines_are() -> None:
    picture = svg('<rect x="0" y="0" width="39" height="39"/>')
    assert isinstance(picture, Picture)
    dots = dots_of(cells(picture.drawing, 20, 10))
    edge = max(x for x, _ in dots)
    assert dots == {(x, y) for x in range(edge + 1) for y in range(edge + 1)
                    if x in (0, edge) or y in (0, edge)}  # fmt: skip
    assert edge >= 36
