"""Long screens wait for a key; words and sentences say only what is true where they stand."""

from __future__ import annotations

import io
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from types import SimpleNamespace
from typing import Any, cast

import pytest
from rich.console import Console

from drill.app.coming_days import coming_days
from drill.app.sitting_summary import _first_met
from drill.cli.loose_words import meant
from drill.cli.paper_sitting import PaperConversation
from drill.cli.screen import Screen
from drill.sitting import Sitting
from tests.common.desk import drill
from tests.common.history import only_question

AT = ("--learner", "ada", "--seed", "5", "--at")
NOW = "2027-01-12T17:00"
ROWS = 24


class Typed(Screen):
    """A screen of 24 rows at which the given lines are typed; each is noted with its place."""

    def __init__(self, *replies: str, seen: bool = True) -> None:
        self.file = io.StringIO()
        super().__init__(console=Console(
            file=self.file, width=80, height=ROWS, force_terminal=seen, soft_wrap=True,
            color_system=None, legacy_windows=False,
        ))  # fmt: skip
        self.replies: Iterator[str] = iter(replies)
        self.asked: list[tuple[str, int]] = []

    @property
    def is_typed_at(self) -> bool:
        return True

    def ask(self, prompt: str) -> str:
        self.asked.append((prompt, len(self.file.getvalue().splitlines())))
        return next(self.replies)


def shown(screen: Typed, lines: int) -> list[str]:
    with screen.by_windows():
        for number in range(lines):
            screen.line(f"line {number}")
    return screen.file.getvalue().splitlines()


def test_what_is_longer_than_the_window_waits_for_enter() -> None:
    screen = Typed("", "")
    assert shown(screen, 60) == [f"line {number}" for number in range(60)]
    assert screen.asked == [("Enter for the rest > ", 22), ("Enter for the rest > ", 44)]


@pytest.mark.parametrize(("lines", "seen"), [(22, True), (60, False)])
def test_what_fits_or_goes_into_a_file_does_not_wait(lines: int, seen: bool) -> None:
    screen = Typed(seen=seen)
    assert len(shown(screen, lines)) == lines
    assert screen.asked == []


@pytest.mark.parametrize(
    ("reply", "means"), [("", "the bung"), ("Yes", "the bung"), ("c", "the bung"),
                         ("no", None), ("B", "B")],
)  # fmt: skip
def test_the_reply_about_loose_words(reply: str, means: str | None) -> None:
    assert meant("the bung", "C", reply) == means


def test_loose_words_are_asked_about_on_a_paper_too() -> None:
    screen = Typed("it might shoot out", "no", "it might shoot out", "b")
    sitting = SimpleNamespace(taken_up=(), guessed=lambda part, text: "C" if " " in text else "")
    now = datetime(2027, 1, 12, tzinfo=UTC)
    desk = PaperConversation(screen, cast("Sitting", sitting), lambda: now, [], 0)
    part = cast("Any", SimpleNamespace(kind="choice", marks=1))
    assert desk._typed("letter > ", cast("Any", None), part) == "b"
    assert [prompt[:9] for prompt, _ in screen.asked] == ["letter > ", "C? Enter:"] * 2


def test_a_sitting_on_one_thing_that_is_closed_is_told_of(home: Path) -> None:
    drill("sit", "rates", *AT, NOW, typed=["?"])
    later = drill("sit", *AT, "2027-01-12T17:20", typed=["stop"]).output
    assert "The sitting you broke off (rates) ends here; its answers are kept." in later
    assert "broke off" not in drill("sit", *AT, "2027-01-12T17:30", typed=["stop"]).output


def test_a_part_that_was_passed_has_no_mark_to_contest(home: Path) -> None:
    deck = only_question(home, "rates/risk-and-way")
    said = drill("sit", deck, *AT, NOW, typed=["pass", "appeal", "stop"]).output
    assert "Nothing was answered: there is no mark to contest." in said
    assert "earn more" not in said


def test_help_names_no_word_for_a_drawing_where_there_is_none(home: Path) -> None:
    deck = only_question(home, "rates/risk-and-way")
    said = drill("sit", deck, *AT, NOW, typed=["help", "stop"]).output
    assert "a calculator" in said
    assert "larger" not in said


@pytest.mark.parametrize(("answers", "told"), [(0.0, []), (1.0, ["salts.naming"]), (2.0, [])])
def test_a_skill_that_was_only_shown_is_not_told_as_met(answers: float, told: list[str]) -> None:
    """Else the next line would say that no skill was met."""
    asked = SimpleNamespace(question=SimpleNamespace(parts=[SimpleNamespace(skill="salts.naming")]))
    memory = SimpleNamespace(last={"salts.naming": SimpleNamespace(answers=answers)})
    sitting = SimpleNamespace(done=[asked], planner=SimpleNamespace(memory=memory))
    assert _first_met(cast("Sitting", sitting)) == told


def test_no_practice_is_planned_for_days_after_the_exam() -> None:
    exam = datetime(2027, 1, 14, tzinfo=UTC)
    planner = SimpleNamespace(
        exam=exam, minutes_per_day=10.0, skills={}, choose=lambda day: None,
        past=SimpleNamespace(spent=lambda day: 0.0),
    )  # fmt: skip
    days = coming_days(cast("Any", planner), datetime(2027, 1, 12, tzinfo=UTC), str, str)
    assert [row.day for row in days] == ["2027-01-12", "2027-01-13", "2027-01-14"]
