"""Nobody who hears the screen is asked to look: rules, and every text of the shipped bank."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest

from drill.app.ask import question_of
from drill.app.context import open_bank
from drill.cli.feedback import show_says, show_told, told
from drill.cli.screen import Screen
from drill.cli.views import show_part
from drill.cli.without_eyes import said, without_eyes
from drill.documents.tables import plain_rows
from drill.marking import mark
from drill.places import bank_dir
from drill.plaintext import listed
from tests.common.desk import drill

_ASKED = re.compile(
    r"(?:^|[.:;?!] |, so |, and )look (?!up|down|like|the same|straight|for the first)",
    re.IGNORECASE,
)
"""Looking that is asked of the reader; no step of practical work, as "look down on it"."""
_TOLD = ("ask", "text", "stem", "hint", "says", "title", "safety", "model_answer")


@pytest.mark.parametrize(
    ("text", "heard"),
    [
        ("Look at the lid and at the bulb.", "Check the lid and the bulb."),
        ("Steam must leave. Look where it ends.", "Steam must leave. Check where it ends."),
        ("A fault: look into the flask and into the tube.",
         "A fault: check inside the flask and inside the tube."),
        ("Look closely at the drawing.", "Check the drawing."),
        ("It was lower, so look which is which.", "It was lower, so check which is which."),
        ("Look for water.", "Check for water."),
        ("What does it look like?", "What does it look like?"),
        ("Look down on the cross.", "Look down on the cross."),
        ("Never look at the flame.", "Never look at the flame."),
    ],
)  # fmt: skip
def test_looking_becomes_checking(text: str, heard: str) -> None:
    assert without_eyes(text) == heard
    assert said(Screen(plain=True), text) == heard
    assert said(Screen(plain=False), text) == text


def texts(found: object, name: str = "") -> Iterator[tuple[str, str]]:
    if isinstance(found, dict):
        for key, one in found.items():
            yield from texts(one, key)
    elif isinstance(found, list):
        for one in found:
            yield from texts(one, name)
    elif isinstance(found, str):
        yield name, found


def files() -> list[Path]:
    bank = bank_dir()
    return [*sorted(bank.glob("*/*.toml")), bank / "slips.toml", bank / "results.toml"]


def test_no_text_of_the_bank_asks_a_listener_to_look() -> None:
    found = [
        (path.name, text)
        for path in files()
        for name, text in texts(tomllib.loads(path.read_text(encoding="utf-8")))
        if name in _TOLD
    ]
    assert len(found) > 2000
    asked = [one for one in found if _ASKED.search(one[1])]
    assert len(asked) > 30  # the rule has something to do
    assert [one for one in asked if _ASKED.search(without_eyes(one[1]))] == []


def test_what_is_asked_never_says_to_look_at_the_drawing() -> None:
    for path in files():
        for name, text in texts(tomllib.loads(path.read_text(encoding="utf-8"))):
            if name in ("ask", "stem", "hint"):
                heard = without_eyes(text)
                assert not re.search(
                    r"\b(look|see)\b[^.?]*\b(drawing|picture|graph)", heard, re.I
                ), text


def test_empty_cells_are_said_and_not_drawn() -> None:
    screen = Screen(plain=True)
    with screen.console.capture() as caught:
        for part in question_of(open_bank(), "chromatography/rf-table", 3).parts:
            show_part(screen, part, alone=False)
    assert "to fill in" in caught.get()
    assert "__" not in caught.get()


def test_no_cell_is_named_twice() -> None:
    for path in bank_dir().glob("*/*.toml"):
        text = path.read_text(encoding="utf-8")
        if 'kind = "table"' not in text:
            continue
        question = question_of(open_bank(), f"{path.parent.name}/{path.stem}", 3)
        for part in question.parts:
            assert not re.search(r"^(.+): \1 = ", part.worked, re.MULTILINE), path


def test_the_letters_of_an_order_stand_apart() -> None:
    question = question_of(open_bank(), "cross/order-the-method", 3)
    part = next(part for part in question.parts if part.kind == "order")
    assert told(part).answer == " ".join(part.model_answer)


def test_a_reason_is_told_once() -> None:
    """Every option of these carries the reason of the right one."""
    part = question_of(open_bank(), "titration/slip-and-titre", 3).parts[0]
    right = part.model_answer
    for letter in sorted({"A", "B", "C"} - {right}):
        marked, screen = mark(part, letter, {}), Screen(plain=True)
        with screen.console.capture() as caught:
            show_says(screen, part, marked)
            show_told(screen, part, marked, False, ())
        shown = " ".join(caught.get().split())
        assert f"answer: {right}: " in shown
        assert shown.count(marked.says) == 1


def test_names_with_commas_are_kept_apart() -> None:
    assert listed(("mass", "volume")) == "mass, volume"
    assert listed(("hazard, risk and control", "mass")) == "hazard, risk and control; mass"
    assert plain_rows(("skill", "now"), [("mean, range", "held")]) == [
        "skill mean, range; now held"
    ]


def test_the_question_and_its_drawing_are_told_again_on_a_word() -> None:
    arguments = ("sit", "electrolysis", "--learner", "ada", "--plain", "--seed", "5")
    once = drill(*arguments, typed=["stop"]).stdout
    asked = next(line for line in once.splitlines() if re.search(r"\[\d marks?\]$", line))
    again = drill(*arguments, typed=["question", "drawing", "stop"]).stdout
    assert again.count(asked) == 2
    words = once.split("The drawing in words: ")[1][:40]
    assert once.count(words) == 1
    assert again.count(words) == 2


def test_bare_drill_has_no_columns_for_who_wants_plain_screens() -> None:
    assert "   " in drill().stdout
    drill("sit", "titration", "--learner", "ada", "--plain", typed=["stop"])
    told = drill().stdout
    assert "  " not in told
    assert "Tutor: drill weak: where marks are lost, and why" in told.splitlines()
    drill("sit", "titration", "--learner", "ada", "--no-plain", typed=["stop"])
    assert "   " in drill().stdout
