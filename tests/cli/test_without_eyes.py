"""Nobody who hears the screen is asked to look: rules, and every text of the shipped bank."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest

from drill.cli.screen import Screen
from drill.cli.without_eyes import said, without_eyes
from drill.places import bank_dir

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
    told = [
        (path.name, text)
        for path in files()
        for name, text in texts(tomllib.loads(path.read_text(encoding="utf-8")))
        if name in _TOLD
    ]
    assert len(told) > 2000
    asked = [one for one in told if _ASKED.search(one[1])]
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
