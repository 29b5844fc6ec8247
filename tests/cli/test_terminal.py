"""A sitting through a terminal: keys, paste, resize, Ctrl-C, a closed window, going on."""

from __future__ import annotations

import sqlite3
import time
from contextlib import closing
from pathlib import Path

import pytest

from tests.common.history import only_question
from tests.common.terminal import Terminal

AT = ("--at", "2027-01-12T17:00")
LATER = ("--at", "2027-01-12T17:20")
UP, LEFT, HOME, DELETE = "\x1b[A", "\x1b[D", "\x01", "\x7f"
pytest.importorskip("readline")


def begun(home: Path, template: str, *more: str) -> tuple[str, ...]:
    """A command that asks one template, by a learner who was greeted."""
    deck = only_question(home, template)
    with Terminal(home, "sit", deck, "--learner", "ada", "--seed", "5", *AT) as first:
        first.until(" > ")
        first.type("stop\r")
        first.wait()
    return ("sit", deck, "--learner", "ada", "--seed", "5", *more)


def typed(home: Path) -> list[tuple[str, str]]:
    with closing(sqlite3.connect(home / "drill.db")) as db:
        return db.execute('SELECT "kind", "text" FROM "answer" ORDER BY "key"').fetchall()


def test_a_paste_of_several_lines_is_one_answer(home: Path) -> None:
    command = begun(home, "salts/why-excess", *LATER)
    with Terminal(home, *command) as window:
        window.until("answer > ")
        window.paste("so that all the acid\nis used up\n")
        window.type("\r")
        window.until("Enter to go on > ")
    assert typed(home) == [("answer", "so that all the acid\nis used up")]


def test_an_extended_answer_is_typed_over_several_lines(home: Path) -> None:
    command = begun(home, "salts/whole-method", *LATER)
    lines = ["Warm the acid.", "Add the solid until some is left.", "Filter it."]
    with Terminal(home, *command) as window:
        window.answer("an empty line ends it > ", lines[0])
        for line in (*lines[1:], ""):
            window.answer("  > ", line)
        assert "exemplar" in window.until("Your mark, 0 to 6")
    assert typed(home) == [("answer", "\n".join(lines))]


def test_keys_correct_a_line_and_call_back_what_was_typed_for_this_question_only(
    home: Path,
) -> None:
    deck = only_question(home, "measure/mass-by-difference")
    with Terminal(home, "sit", deck, "--learner", "ada", *AT) as window:
        window.answer("question of your own > ", "zebra")
        window.answer("Enter goes on", "")
        window.until("answer in g > ")
        window.type(f"{UP}{UP}\r")  # nothing of before is called back
        assert "zeb" not in window.until("Type an answer")
        window.until("answer in g > ")
        window.type(f"zz12.5{HOME}\x1b[C\x1b[C{DELETE}{DELETE}\r")
        window.until("Enter to go on > ")
        window.type(f"{UP}{LEFT}7\r")  # called back and changed
        window.until("Not quite.")
    assert typed(home) == [("answer", "12.5")]
    every = [path for path in home.rglob("*") if path.is_file()]
    assert not [path for path in every if b"12.75" in path.read_bytes()]


def test_the_width_is_read_anew_for_each_question(home: Path) -> None:
    deck = only_question(home, "measure/mass-by-difference")
    with Terminal(home, "sit", deck, "--learner", "ada", *AT, columns=80) as window:
        assert "─" * 80 in window.until("question of your own > ")
        window.resize(60, 24)
        window.type("\r")
        after = window.until("answer in g > ")
        assert "─" * 60 in after
        assert max(map(len, after.splitlines())) <= 60


def test_ctrl_c_and_a_closed_window_lose_nothing_and_the_sitting_goes_on(home: Path) -> None:
    command = begun(home, "salts/percentage-yield")
    with Terminal(home, *command, "--at", "2027-01-12T17:20") as window:
        window.answer("(a) answer in g > ", "3.77")
        window.until("(b) answer in % > ")
        window.type("half an ans")
        window.until("half an ans")
        time.sleep(0.2)  # a person's pause: readline sees a Ctrl-C only while it waits for a key
        window.type("\x03")
        window.until("drill sit goes on from here.")
        assert window.wait() == 130
    with Terminal(home, *command, "--at", "2027-01-12T17:30") as window:
        window.until("Going on where you stopped")
        assert "(a)" not in window.answer("(b) answer in % > ", "12.5").split("─")[-1]
        window.until(" > ")
        window.hang_up()
    with Terminal(home, *command, "--at", "2027-01-12T17:40") as window:
        window.until("1 question, 0 of 5 marks")
    assert [text for kind, text in typed(home) if kind == "answer"] == ["3.77", "12.5"]
