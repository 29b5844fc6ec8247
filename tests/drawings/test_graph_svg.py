"""The same graph as vectors: well formed, nothing loaded or run, every point where it belongs."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from fractions import Fraction

import pytest
from hypothesis import given, settings

from drill.drawings import graph_as_svg, graph_in_words
from drill.model import Graph
from tests.drawings.graphs import graph, graphs, number, straight

SVG = "{http://www.w3.org/2000/svg}"
GAS = graph(
    [(Fraction(x), Fraction(y)) for x, y in ((10, 14), (20, 25), (50, 50))],
    (straight((0, 3), (50, 51)), straight((30, 10), (50, 20), dashed=True, label="B")),
    "Gas made",
)


def texts(root: ET.Element) -> list[tuple[float, float, str]]:
    found = root.iter(f"{SVG}text")
    return [(float(e.get("x", "0")), float(e.get("y", "0")), e.text or "") for e in found]


def ends(element: ET.Element) -> list[tuple[float, float]]:
    numbers = element.get("d", "").replace("M", " ").replace("L", " ").split()
    return [(float(x), float(y)) for x, y in (pair.split(",") for pair in numbers)]


@settings(max_examples=40, deadline=None)
@given(graphs())
def test_a_point_is_read_off_the_page(made: Graph) -> None:
    """From the numbers along both axes alone, to a tenth of a small division."""
    root = ET.fromstring(graph_as_svg(made))
    cross = [ends(e) for e in root.iter(f"{SVG}path")][-2:]
    (x1, y1), (x2, y2) = cross[0]
    middle = (x1 + x2) / 2, (y1 + y2) / 2
    along = [(x, number(t)) for x, _, t in texts(root)[: len(made.x.numbered())]]
    up_from = len(made.x.numbered())
    up = [(y, number(t)) for _, y, t in texts(root)[up_from : up_from + len(made.y.numbered())]]
    for place, marks, axis, true in (
        (middle[0], along, made.x, made.points[0][0]),
        (middle[1] + 3.2 * 0.35, up, made.y, made.points[0][1]),
    ):
        (d1, v1), (d2, v2) = marks[0], marks[-1]
        seen = float(v1) + float(v2 - v1) * (place - d1) / (d2 - d1)
        assert abs(seen - float(true)) < float(axis.division) / 10


def test_it_holds_words_labels_and_a_dashed_line() -> None:
    text = graph_as_svg(GAS)
    root = ET.fromstring(text)
    assert root.find(f"{SVG}title").text == "Gas made"  # type: ignore[union-attr]
    assert root.find(f"{SVG}desc").text == graph_in_words(GAS)  # type: ignore[union-attr]
    shown = [one for _, _, one in texts(root)]
    assert {"time / s", "volume of gas / cm3", "Gas made", "B", "60"} <= set(shown)
    dashed = [e for e in root.iter(f"{SVG}path") if e.get("stroke-dasharray")]
    assert len(dashed) == 1


def test_it_is_the_same_every_time() -> None:
    assert graph_as_svg(GAS) == graph_as_svg(GAS)


@pytest.mark.parametrize(
    "hostile",
    [
        "</title><script>alert(1)</script>",
        "a & b < c",
        '"><image href="x"/>',
        "\x1b[31m\x00",
        "]]>",
    ],
)
def test_hostile_texts_stay_text(hostile: str) -> None:
    line = GAS.lines[0]._replace(label=hostile)
    made = GAS._replace(
        title=hostile, x=GAS.x._replace(quantity=hostile), lines=(line, *GAS.lines[1:])
    )
    root = ET.fromstring(graph_as_svg(made))
    tags = {element.tag.removeprefix(SVG) for element in root.iter()}
    assert tags == {"svg", "defs", "title", "desc", "path", "text"}


def test_it_names_no_other_file() -> None:
    root = ET.fromstring(graph_as_svg(GAS))
    names = {name for element in root.iter() for name in element.attrib}
    assert not any("href" in name or name.startswith("on") for name in names)
