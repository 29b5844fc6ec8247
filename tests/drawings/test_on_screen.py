"""A question's drawing on the screen, in words for a screen reader, and loaded only then."""

from __future__ import annotations

import io
import json
import subprocess
import sys

import pytest
from rich.console import Console

from drill.app.ask import question_of
from drill.app.context import open_bank
from drill.cli.screen import Screen
from drill.cli.views import show_part, show_question
from tests.common.desk import drill

WITH_PICTURE = ("measure/read-burette", "salts/fault-in-filtering")


def shown(template: str, plain: bool = False, width: int = 80, height: int = 24) -> str:
    out = io.TextIOWrapper(io.BytesIO(), "utf-8")
    console = Console(file=out, width=width, height=height, soft_wrap=True, markup=False)
    show_question(Screen(plain, console), question_of(open_bank(), template, 3), "")
    out.seek(0)
    return out.read()


def _has_dots(text: str) -> bool:
    return any(0x2800 < ord(sign) <= 0x28FF for sign in text)


@pytest.mark.parametrize("template", WITH_PICTURE)
def test_dots_on_a_screen_and_words_in_plain_mode(template: str) -> None:
    drawn, told = shown(template), shown(template, plain=True)
    assert _has_dots(drawn)
    assert not _has_dots(told)
    assert "in section" in told or "small divisions" in told
    assert len(drawn.splitlines()) <= 22


@pytest.mark.parametrize("template", [*WITH_PICTURE, "water/fault-in-drawing"])
@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
def test_the_whole_drawing_stays_on_the_screen_with_what_is_asked(
    template: str, size: tuple[int, int]
) -> None:
    width, height = size
    question = question_of(open_bank(), template, 3)
    out = io.TextIOWrapper(io.BytesIO(), "utf-8")
    console = Console(file=out, width=width, height=height, soft_wrap=True, markup=False)
    show_question(Screen(False, console), question, "")
    show_part(Screen(False, console), question.parts[0], alone=True)
    out.seek(0)
    rows = out.read().splitlines()
    drawn = [place for place, row in enumerate(rows) if _has_dots(row)]
    assert len(rows) - drawn[0] + 1 <= height  # one more for the answer


def test_a_larger_window_has_a_larger_drawing() -> None:
    def rows_drawn(width: int, height: int) -> int:
        text = shown("salts/fault-in-filtering", width=width, height=height)
        return sum(map(_has_dots, text.splitlines()))

    assert 12 <= rows_drawn(80, 24) < rows_drawn(120, 40) - 8


def test_a_scale_that_does_not_fit_is_told_in_words() -> None:
    assert "small divisions" in shown("measure/read-ruler", width=40)


@pytest.mark.parametrize("template", WITH_PICTURE)
def test_scripts_get_the_words(template: str) -> None:
    row = json.loads(drill("ask", template, "--seed", "3", "--json").stdout)
    assert len(row["picture"]) > 40


def test_a_question_without_a_picture_loads_no_drawings() -> None:
    code = (
        "import sys; sys.argv = ['drill', 'ask', 'salts/why-excess', '--json']\n"
        "from drill.cli import run\n"
        "try: run()\nexcept SystemExit: pass\n"
        "print('drill.drawings' in sys.modules, file=sys.stderr)"
    )
    result = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True)
    assert result.stderr.strip() == "False"
    assert '"picture": null' in result.stdout
