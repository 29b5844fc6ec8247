"""Drawings for a page are well-formed, safe, true to the drawing, and keep their words."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drill.drawings import Drawing, Picture, load_picture, picture_as_svg, scale_as_svg
from drill.drawings.page import HIGHEST, WIDEST
from drill.drawings.shapes import Area, Words, box
from drill.frozen import replace
from drill.places import bank_dir
from drill.quantities import FactsRow
from tests.drawings.making import rows, scale_from

FOLDER = bank_dir() / "drawings"
NAMES = sorted(path.stem for path in FOLDER.glob("*.svg"))
SVG = "{http://www.w3.org/2000/svg}"
SQUARE = Drawing(40, 40, (box(0, 0, 40, 40),), (Area((box(10, 10, 30, 30),), solid=False),))


def _texts(svg: str) -> list[str]:
    return ["".join(found.itertext()) for found in ElementTree.fromstring(svg).iter(f"{SVG}text")]


def _numbers(path: str) -> list[float]:
    return [float(found) for found in re.findall(r"-?\d+(?:\.\d+)?", path)]


@pytest.mark.parametrize("name", NAMES)
def test_a_picture_is_one_svg_element_with_all_its_words_inside_its_box(name: str) -> None:
    picture = load_picture(name, FOLDER)
    root = ElementTree.fromstring(svg := picture_as_svg(picture))
    assert root.tag == f"{SVG}svg"
    assert _texts(svg) == [word.text for word in picture.drawing.words]
    assert root.findtext(f"{SVG}desc") == picture.words
    left, top, wide, high = map(float, root.attrib["viewBox"].split())
    for path in root.iter(f"{SVG}path"):
        found = _numbers(path.attrib["d"])
        assert all(left <= x <= left + wide for x in found[::2])
        assert all(top <= y <= top + high for y in found[1::2])


def test_it_is_as_large_as_the_page_allows_and_keeps_its_shape() -> None:
    for name in NAMES:
        drawing = load_picture(name, FOLDER).drawing
        root = ElementTree.fromstring(picture_as_svg(load_picture(name, FOLDER)))
        ends = [_numbers(path.attrib["d"]) for path in root.iter(f"{SVG}path")]
        points = [p for path in drawing.lines for p in path]
        drawn = max(y for one in ends for y in one[1::2]) - min(
            y for one in ends for y in one[1::2]
        )
        meant = max(y for _, y in points) - min(y for _, y in points)
        size = min(WIDEST / drawing.width, HIGHEST / drawing.height)
        assert drawn == pytest.approx(meant * size, abs=0.02 + 4 * size)


@pytest.mark.parametrize("row", rows(), ids=lambda row: row.id)
def test_a_scale_has_all_its_numbers(row: FactsRow) -> None:
    scale = scale_from(row)
    scale = replace(scale, reading=scale.low + 45 * scale.division / 2)
    texts = _texts(scale_as_svg(scale))
    assert scale.unit in texts
    assert len(texts) >= (1 if scale.shape == "display" else 3)


def test_a_liquid_is_level_lines_inside_its_area() -> None:
    root = ElementTree.fromstring(picture_as_svg(Picture(SQUARE, "A square.")))
    dashes = _numbers(next(root.iter(f"{SVG}path")).attrib["d"])
    size = HIGHEST / 40
    assert len(dashes) >= 8 * 4
    assert all(10 * size <= x <= 30 * size for x in dashes[::2])
    assert all(10 * size <= y <= 30 * size for y in dashes[1::2])
    assert dashes[1::4] == dashes[3::4]


@given(st.text(max_size=40))
def test_words_of_a_drawing_are_text_and_nothing_else(text: str) -> None:
    words = Words(1, 1, text + "</text><script>alert(1)</script>&\x1b[2J")
    root = ElementTree.fromstring(picture_as_svg(Picture(replace(SQUARE, words=(words,)), text)))
    tags = {element.tag.removeprefix(SVG) for element in root.iter()}
    assert tags <= {"svg", "desc", "defs", "path", "text"}
