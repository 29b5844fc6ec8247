"""A student's screens at 60 and 80 columns by 24 rows and 120 by 40, in colour and plain: kept.

`python -m tests.cli.test_screens` writes them anew; look at each before keeping it.
"""

from __future__ import annotations

import io
import os
import re
from collections.abc import Callable
from itertools import product
from pathlib import Path

import pytest
from rich.console import Console

from drill.app.context import open_bank
from drill.cli import feedback, views
from drill.cli.screen import Screen
from drill.generate import generate
from drill.marking import mark
from drill.model import Part, Question
from tests.common import scenes

FOLDER = Path(__file__).resolve().parents[1] / "golden" / "screens"
SIZES = (60, 80, 120)
ROWS = {60: 24, 80: 24, 120: 40}
_ESCAPE = re.compile(r"\x1b\[([0-9;]*)m")
_TEXT = """
format = 1
title = "Crystals from a basin"
skills = ["calc.mass-by-difference"]
command_word = "calculate"
course = ["combined higher"]
safety = "Acids harm eyes. Your school's own risk assessment decides."
stem = "Crystals are made from 25.0 cm3 of sulfuric acid of concentration 0.80 mol/dm3."
[draw]
basin = { one_of = [57.23], unit = "g", decimals = 2 }
mass = { one_of = [2.87], unit = "g", decimals = 2 }
[work]
total = { is = "basin + mass", unit = "g", decimals = 2 }
crystals = { is = "total - basin", unit = "g", decimals = 2, called = "mass of crystals" }
[[part]]
kind = "number"
ask = "Empty basin: {basin}. Basin and dry crystals: {total}.\\nCalculate the mass of the crystals."
hint = "The basin was on the balance both times."
answer = "crystals"
decimals = 2
award = { method = 1, value = 1 }
[[part.slip]]
id = "added"
gives = "total + basin"
says = "You added the basin: take it away."
earns = 1
[[part]]
kind = "choice"
ask = "Which vessel measures 25.0 cm3 of acid best?"
[[part.option]]
text = "a pipette with a filler"
right = true
says = "It is made for one volume, to 0.06 cm3."
[[part.option]]
text = "a beaker"
says = "The lines on a beaker are only a rough guide."
[[part.option]]
text = "a measuring cylinder"
says = "It reads to 0.5 cm3 only."
[[part.option]]
text = "a conical flask"
says = "It holds, it does not measure."
"""


def question() -> Question:
    template = open_bank().template_from(_TEXT, "measure/only-here")
    assert not isinstance(template, tuple), template
    made = generate(template, 1)
    assert isinstance(made, Question), made
    return made


def name_of(scene: str, width: int, plain: bool) -> str:
    return f"{scene}-{width}-{'plain' if plain else 'colour'}"


def drawn(scene: str, width: int, plain: bool) -> str:
    file = io.StringIO()
    console = Console(
        file=file, width=width, height=ROWS[width], force_terminal=not plain,
        color_system="standard", highlight=False, markup=False, emoji=False, soft_wrap=True,
        no_color=plain, legacy_windows=False,
    )  # fmt: skip
    SCENES[scene](Screen(plain, console))
    return file.getvalue()


def the_question(screen: Screen) -> None:
    asked = question()
    views.show_question(screen, asked, "question 3 · about 6 min left · 4 of 6 marks so far")
    number, choice = asked.parts
    views.show_part(screen, number, alone=False)
    for typed in ("2.87", "117.33", "5", "idk"):
        _answered(screen, number, typed, (choice,))
    views.show_part(screen, choice, alone=False)
    wrong = next(option.letter for option in choice.key.options if option.text == "a beaker")
    right = next(option.letter for option in choice.key.options if option.right)
    for typed in (wrong, right, "idk"):
        _answered(screen, choice, typed, ())


SCENES: dict[str, Callable[[Screen], None]] = {
    "question": the_question,
    "graph": lambda screen: scenes.the_graph(screen, question()),
    "end": scenes.the_end,
    "plan": scenes.the_plan,
    "answers": scenes.the_answers,
    "results": scenes.the_results,
    "start": scenes.the_start,
    "greeting": scenes.the_greeting,
    "opening": lambda screen: scenes.the_paper_opens(screen, question()),
    "paper": lambda screen: scenes.the_paper(screen, question()),
}


def _answered(screen: Screen, part: Part, typed: str, waiting: tuple[Part, ...]) -> None:
    passed = typed == "idk"
    found = mark(part, "" if passed else typed, {})
    screen.line(f"> {typed}")
    if not passed:
        feedback.show_word(screen, found)
        feedback.show_says(screen, part, found)
        feedback.show_points(screen, part, found)
    for line in feedback.show_told(screen, part, found, passed, waiting):
        screen.item("", f"(more) {line}")
    screen.line()


@pytest.fixture(autouse=True)
def seen(monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("COLUMNS", "LINES", "NO_COLOR"):
        monkeypatch.delenv(name, raising=False)


@pytest.mark.parametrize("plain", [False, True], ids=["colour", "plain"])
@pytest.mark.parametrize("width", SIZES)
@pytest.mark.parametrize("scene", SCENES)
def test_a_screen_is_as_it_was_looked_at(scene: str, width: int, plain: bool) -> None:
    kept = (FOLDER / f"{name_of(scene, width, plain)}.txt").read_text(encoding="utf-8")
    assert drawn(scene, width, plain) == kept, "see the first lines of this file"


def test_nothing_is_kept_that_is_no_screen() -> None:
    names = {name_of(*one) for one in product(SCENES, SIZES, (False, True))}
    assert {path.stem for path in FOLDER.glob("*.txt")} == names


def test_colour_is_never_alone() -> None:
    """Without its escapes the coloured screen says the same words as it says in colour."""
    coloured = drawn("question", 80, False)
    words = _ESCAPE.sub("", coloured)
    assert {"Right: 2 of 2 marks", "Part right: 1 of 2 marks", "Not right: 0 of 2 marks"} <= {
        line.strip() for line in words.splitlines()
    }
    assert "\x1b[31m" not in coloured
    assert "\x1b[32m" not in coloured  # no traffic lights


@pytest.mark.parametrize("width", SIZES)
@pytest.mark.parametrize("scene", SCENES)
def test_plain_has_no_lines_no_escapes_and_stays_in_its_width(scene: str, width: int) -> None:
    plain = drawn(scene, width, True)
    assert not set(plain) & set("─│●·\x1b")
    assert not any("\u2800" <= sign <= "\u28ff" for sign in plain)  # no dots of a drawing
    assert max(map(len, plain.splitlines())) <= width


@pytest.mark.parametrize("width", SIZES)
@pytest.mark.parametrize("scene", SCENES)
def test_in_colour_it_stays_in_its_width_and_shows_no_traffic_light(scene: str, width: int) -> None:
    shown = drawn(scene, width, False)
    codes = {code for found in _ESCAPE.findall(shown) for code in found.split(";")}
    assert not codes & {"31", "32", "33", "41", "42", "43"}
    assert max(map(len, _ESCAPE.sub("", shown).splitlines())) <= width


def write() -> None:
    """Write every screen anew."""
    FOLDER.mkdir(parents=True, exist_ok=True)
    for path in FOLDER.glob("*.txt"):
        path.unlink()
    for name in ("COLUMNS", "LINES", "NO_COLOR"):
        os.environ.pop(name, None)
    for scene, width, plain in product(SCENES, SIZES, (False, True)):
        path = FOLDER / f"{name_of(scene, width, plain)}.txt"
        path.write_text(drawn(scene, width, plain), encoding="utf-8")


if __name__ == "__main__":
    write()
