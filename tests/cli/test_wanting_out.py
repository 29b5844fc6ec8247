"""Words for wanting out or wanting help, and words that only seem to mean an option."""

from __future__ import annotations

from pathlib import Path

import pytest

from drill.cli.desk_words import likely_word, word_in
from drill.store import Store
from tests.common.desk import drill
from tests.common.history import only_question

AT = ("--at", "2027-01-12T17:00", "--seed", "5", "--learner", "ada")


def texts(home: Path) -> list[str]:
    with Store.open(home / "drill.db") as store:
        (learner,) = store.learners()
        return [one.text for asking in store.askings(learner) for one in asking.answers]


@pytest.fixture
def letters(home: Path) -> str:
    return only_question(home, "rates/risk-and-way")


@pytest.mark.parametrize("said", ["quit", "Exit", "bye", "stop please", "please quit!", "STOP now"])
def test_wanting_out_is_understood_wherever_it_is_typed(said: str) -> None:
    assert word_in(said)[0] == "stop"


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ("q", "stop"), ("can I stop now", "stop"), ("let me out of here", "stop"), ("done", "stop"),
        ("how do i quit", "stop"), ("h", "?"), ("give me a hint", "?"), ("i need help", "help"),
        ("stop the clock", ""), ("beaker", ""), ("A", ""), ("", ""), ("41.0", ""),
    ],
)  # fmt: skip
def test_where_a_letter_is_waited_for_more_is_understood(said: str, meant: str) -> None:
    assert likely_word(said) == meant


@pytest.mark.parametrize(
    "said", ["leave it to cool", "stop the reaction", "H", "q", "a stop clock"]
)
def test_what_may_be_an_answer_in_words_is_none_of_them(said: str) -> None:
    assert word_in(said)[0] == ""


def sat(deck: str, *typed: str) -> str:
    return drill("sit", deck, *AT, typed=typed).output


def test_wanting_out_at_a_letter_costs_nothing(home: Path, letters: str) -> None:
    assert "Nothing answered this time" in sat(letters, "quit")
    assert "Nothing answered this time" in sat(letters, "can I leave please", "yes")
    assert texts(home) == []


def test_what_is_no_letter_is_no_answer_however_often_it_is_typed(letters: str) -> None:
    screen = sat(letters, "blah", "get lost", "no way", "pass", "stop")
    assert screen.count("Type it again; or ? for a hint, pass, or stop.") == 3
    assert "Left out: 0 of 1 mark" in screen


def test_loose_words_are_asked_about_before_they_are_marked(home: Path, letters: str) -> None:
    loose = "it could shoot out at you"
    screen = sat(letters, loose, "no", loose, "A", "stop")
    assert screen.count("C? Enter: yes; or type the letter you mean > ") == 2
    assert texts(home) == ["A"]


def test_a_letter_and_an_options_own_words_are_not_asked_about(home: Path, letters: str) -> None:
    own = "the bung or the plunger shooting out"
    assert "Enter: yes" not in sat(letters, own, "stop")
    assert texts(home) == [own]


def test_the_form_asked_for_is_told_where_no_mark_hangs_on_it(home: Path) -> None:
    screen = sat(only_question(home, "chromatography/run-needed"), "6 cm", "stop")
    assert "Right: 2 of 2 marks" in screen
    assert "Asked for to 2 significant figures, 6.0: an exam may take a mark" in screen
