"""Every drawing of the bank loads, stays in its box and has words; each one asked is there."""

from __future__ import annotations

import re
from pathlib import Path
from time import process_time

import pytest

from drill.drawings import Drawing, cells, load_picture
from drill.errors import DrillError
from drill.generate import generate
from drill.model import Question, Template
from drill.places import bank_dir
from tests.common.shipped import template, templates

FOLDER = bank_dir() / "drawings"
NAMES = sorted(path.stem for path in FOLDER.glob("*.svg"))
FAULTS = ("wrong", "fault", "mistake", "should", "must")
PIECES = (
    "salts/name-from-drawing",
    "measure/name-from-drawing",
    "measure/name-more-from-drawing",
    "measure/name-vessel-from-drawing",
    "measure/name-warm-kit-from-drawing",
    "measure/name-small-kit-from-drawing",
    "measure/name-joining-kit-from-drawing",
    "electrolysis/name-from-drawing",
)
FAULTY = (
    "salts/fault-in-filtering",
    "salts/fault-in-heating",
    "salts/fault-in-crystallising",
    "salts/fault-in-strong-heating",
    "water/fault-in-drawing",
    "rates/fault-in-drawing",
    "rates/fault-in-syringe",
    "energy/fault-in-drawing",
    "titration/fault-in-drawing",
    "chromatography/fault-in-drawing",
    "electrolysis/fault-in-drawing",
)
LETTERED = (
    "salts/label-the-parts",
    "salts/label-strong-heating",
    "titration/label-the-parts",
    "water/label-the-parts",
    "rates/label-the-parts",
    "electrolysis/label-the-parts",
)


def _points(drawing: Drawing) -> list[tuple[float, float]]:
    paths = [*drawing.lines, *(path for area in drawing.areas for path in area.outline)]
    return [point for path in paths for point in path]


@pytest.mark.parametrize("name", NAMES)
def test_it_loads_and_stays_in_its_box(name: str) -> None:
    drawing = load_picture(name, FOLDER).drawing
    for x, y in _points(drawing):
        assert 0 <= x <= drawing.width, (x, y)
        assert 0 <= y <= drawing.height, (x, y)
    for word in drawing.words:
        assert 0 <= word.x <= drawing.width
        assert 0 <= word.y <= drawing.height


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("size", [(80, 17), (60, 12), (200, 50)])
def test_it_fits_its_window_and_loses_no_word(name: str, size: tuple[int, int]) -> None:
    drawing = load_picture(name, FOLDER).drawing
    rows = cells(drawing, *size)
    assert 0 < len(rows) <= size[1]
    assert max(map(len, rows)) <= size[0]
    if size[0] >= 80:
        printed = "\n".join(rows)
        assert all(word.text in printed for word in drawing.words)


@pytest.mark.parametrize("name", NAMES)
def test_its_words_judge_nothing(name: str) -> None:
    words = load_picture(name, FOLDER).words.lower()
    assert not [word for word in FAULTS if f" {word}" in words]


def test_no_words_of_a_single_piece_name_it() -> None:
    for id_ in PIECES:
        for row in template(id_).draws[0].rows:
            name = str(row.cells["name"])
            assert name.lower() not in load_picture(name, FOLDER).words.lower(), name


def test_set_ups_of_one_kind_differ_to_the_eye_and_to_the_ear() -> None:
    for id_ in FAULTY:
        rows = template(id_).draws[0].rows
        pictures = [load_picture(str(row.cells["drawing"]), FOLDER) for row in rows]
        assert len(pictures) >= 4
        assert len({picture.words for picture in pictures}) == len(pictures)
        assert len({cells(picture.drawing, 80, 17) for picture in pictures}) == len(pictures)


def _drawings_of(one: Template) -> set[str]:
    """The drawings that some row of its draw shows."""
    ((_, column),) = re.findall(r"\{(\w+)\.(\w+)\}", one.picture)
    rows = one.draws[0].rows
    filled = (re.sub(r"\{.*\}", str(row.cells[column]), one.picture) for row in rows)
    return {name.lower().replace(" ", "-") for name in filled}


def test_at_least_45_pieces_are_asked_and_every_drawing_is_used() -> None:
    pieces: set[str] = set()
    used: set[str] = set()
    for one in templates():
        if one.picture:
            used |= _drawings_of(one)
            pieces |= _drawings_of(one) if one.id in PIECES else set()
    assert len(pieces) >= 45
    assert used == set(NAMES)


def test_the_words_of_a_hazard_symbol_do_not_name_it() -> None:
    rows = template("safety/name-the-drawn-symbol").draws[0].rows
    assert len(rows) == 9
    for row in rows:
        words = load_picture(f"hazard-{row.cells['name']}", FOLDER).words.lower()
        for name in str(row.cells["name"]).split():
            assert name in ("over", "and", "gas") or name not in words, name


@pytest.mark.parametrize("id_", LETTERED)
def test_each_letter_is_drawn_and_told_without_naming_its_part(id_: str) -> None:
    for row in template(id_).draws[0].rows:
        letter, name = str(row.cells["letter"]), str(row.cells["name"])
        picture = load_picture(str(row.cells["drawing"]), FOLDER)
        assert [word.text for word in picture.drawing.words].count(letter) == 1
        assert f" {letter}: " in picture.words
        assert name.lower() not in picture.words.lower(), name


def test_each_question_with_a_picture_finds_its_drawing() -> None:
    asked = 0
    for one in templates():
        for seed in range(8) if one.picture else ():
            question = generate(one, seed)
            assert isinstance(question, Question)
            assert load_picture(question.picture, FOLDER).words
            asked += 1
    assert asked >= 8 * 11


@pytest.mark.parametrize("name", ["../passed", "/etc/passwd", "a\x00b", "", "no-such-thing", "é"])
def test_a_name_leads_nowhere_else(name: str) -> None:
    with pytest.raises(DrillError):
        load_picture(name, FOLDER)


def test_a_picture_takes_less_than_60_ms(tmp_path: Path) -> None:
    for name in NAMES:
        start = process_time()
        for _ in range(3):
            cells(load_picture(name, FOLDER).drawing, 80, 17)
        assert (process_time() - start) / 3 < 0.060, name
