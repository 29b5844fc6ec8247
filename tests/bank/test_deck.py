"""Topic decks: what is filled in, and a starter that reads."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest

from drill.bank import Bank, deck_notes, new_deck, read_deck
from drill.errors import Problem
from drill.model import Deck, Paper, Topic

from .conftest import FILES


def deck(path: Path) -> Deck:
    found = read_deck(path)
    assert isinstance(found, Deck), found
    return found


def written(folder: Path, text: str) -> Path:
    path = folder / "our-deck.toml"
    path.write_text(text, encoding="utf-8")
    return path


def test_a_whole_deck() -> None:
    found = deck(FILES / "good" / "decks" / "whole.toml")
    assert (found.id, found.title, found.course) == (
        "autumn-salts", "Making salts", "separate higher",
    )  # fmt: skip
    assert found.minutes_a_day == 15
    assert found.papers == (Paper("first", "2027-05-18"), Paper("second", "2027-06-10"))
    assert found.topics == (
        Topic("salts", (), (), "second", "2027-01-11", Fraction("2.5"), 15),
        Topic("", ("calc.*",), ("salts/other-*",), "first", "", Fraction(1), 21),
    )
    assert found.bench == {
        "balance": "0.01",
        "risk_line": "Follow the risk assessment on the board.",
    }


def test_what_is_left_out() -> None:
    found = deck(FILES / "good" / "decks" / "shortest.toml")
    assert (found.id, found.minutes_a_day, found.papers, found.own) == ("shortest", 12, (), "")
    assert found.topics[0] == Topic("salts", (), (), "", "", Fraction(1), 4)


def test_own_questions_lie_beside_the_deck(tmp_path: Path) -> None:
    text = (FILES / "good" / "decks" / "shortest.toml").read_text(encoding="utf-8")
    path = written(tmp_path, text + '[own]\ntemplates = "ours"\n')
    assert isinstance(read_deck(path), tuple)
    (tmp_path / "ours").mkdir()
    assert deck(path).own == "ours"


def test_a_starter_reads(tmp_path: Path) -> None:
    text = new_deck(
        title='A "quoted" title \\ é',
        id="our-deck",
        courses=["combined foundation"],
        minutes=12,
        papers=["2027-05-18"],
        topics=[("salts", "", 1), ("measure", "2027-01-11", 1)],
    )
    found = deck(written(tmp_path, text))
    assert found.title == 'A "quoted" title \\ é'
    assert found.papers == (Paper("first", "2027-05-18"),)
    assert [topic.practical for topic in found.topics] == ["salts", "measure"]
    assert text.count("#") > 5


def test_a_starter_with_two_papers_and_one_without(tmp_path: Path) -> None:
    two = new_deck("T", "t", ["separate higher"], 9, ["2027-05-18", "2027-06-10"],
                   [("salts", "2027-01-11", 2)])  # fmt: skip
    found = deck(written(tmp_path, two))
    assert [paper.id for paper in found.papers] == ["first", "second"]
    assert (found.topics[0].paper, found.topics[0].taught) == ("second", "2027-01-11")
    none = new_deck("T", "t", ["separate higher"], 9, topics=[("salts", "", 1)])
    assert deck(written(tmp_path, none)).papers == ()


def test_a_starter_for_a_mixed_class_says_what_the_school_uses(tmp_path: Path) -> None:
    text = new_deck("T", "t", ["combined foundation", "separate higher"], 9, (), [("salts", "", 1)],
                    {"balance": "0.01", "risk_line": 'Ask "first".'})  # fmt: skip
    found = deck(written(tmp_path, text))
    assert (found.course, found.courses) == ("", ("combined foundation", "separate higher"))
    assert found.bench == {"balance": "0.01", "risk_line": 'Ask "first".'}


def test_a_mixed_class_is_asked_what_either_course_has_until_a_pupil_says_theirs(
    tmp_path: Path,
) -> None:
    text = new_deck("T", "t", ["combined foundation", "separate higher"], 9, (), [("x", "", 1)])
    found = deck(written(tmp_path, text))
    assert found.suits(("separate higher",))
    assert not found.suits(("combined higher",))
    mine = found.for_course("combined foundation")
    assert not mine.suits(("separate higher",))
    assert found.for_course("combined higher") == found


@pytest.mark.parametrize(
    "typed", ["2027-1-25", "25/01/2027", "25 January 2027", '"25.1.2027"', "2027-01-25 # a day"]
)
def test_dates_are_read_as_people_write_them(tmp_path: Path, typed: str) -> None:
    text = (FILES / "good" / "decks" / "shortest.toml").read_text(encoding="utf-8")
    path = written(tmp_path, text.replace("[[topic]]", f"[[topic]]\ntaught = {typed}"))
    assert deck(path).topics[0].taught == "2027-01-25"


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("25 Januar 20277", 'taught = "25 Januar 20277": That is no date.'),
        ("31/06/2027", 'taught = "31/06/2027": June has 30 days.'),
        ("1.2.1999", 'taught = "1.2.1999": That'),
        ("17:00:00", "taught must be a day, as 2027-05-18"),
    ],
)
def test_a_date_that_cannot_be_read_is_told_at_its_line(
    tmp_path: Path, typed: str, says: str
) -> None:
    text = (FILES / "good" / "decks" / "shortest.toml").read_text(encoding="utf-8")
    found = read_deck(written(tmp_path, text.replace("[[topic]]", f"[[topic]]\ntaught = {typed}")))
    assert isinstance(found, tuple)
    assert found[0].message.startswith(says)
    assert found[0].line == text[: text.index("[[topic]]")].count("\n") + 2


def test_what_a_teacher_should_know_of_the_dates(tmp_path: Path) -> None:
    text = new_deck("T", "t", ["separate higher"], 9, ["2027-05-18", "2027-06-10"],
                    [("salts", "2027-05-18", 1), ("measure", "2027-05-18", 2)])  # fmt: skip
    found = deck(written(tmp_path, text))
    notes = deck_notes(found, date(2027, 6, 1))
    assert [note.message for note in notes] == [
        "the exam of first was on 2027-05-18: it is over.",
        "taught on 2027-05-18, after its exam on 2027-05-18.",
    ]
    assert {note.level for note in notes} == {"note"}
    assert deck_notes(found, date(2027, 5, 18))[0].message.startswith("taught")


@pytest.mark.parametrize(
    ("answers", "message"),
    [
        ({"papers": ["18 May"]},
         'exam = "18 May": That has no year. Write it as 18 May 2027.'),
        ({"courses": ["higher"]}, ("course must be one of combined foundation, combined higher, "
         'separate foundation, separate higher; got "higher".')),
        ({"minutes": 0}, "minutes_a_day must have a value from 1 to 240, got 0."),
        ({"title": " "}, "title is empty."),
    ],
)  # fmt: skip
def test_a_wrong_answer_to_the_starter_is_told(
    tmp_path: Path, answers: dict[str, object], message: str
) -> None:
    usual = {"title": "T", "id": "t", "courses": ["separate higher"], "minutes": 9,
             "topics": [("salts", "", 1)]}  # fmt: skip
    found = read_deck(written(tmp_path, new_deck(**{**usual, **answers})))  # type: ignore[arg-type]
    assert isinstance(found, tuple)
    assert [problem.message for problem in found] == [message]


def test_a_deck_is_held_against_a_bank_only_when_one_is_given(good: Path) -> None:
    path = FILES / "bad" / "decks" / "unknown-practical.toml"
    assert isinstance(read_deck(path), Deck)
    found = read_deck(path, Bank.open(good))
    assert isinstance(found, tuple)
    assert isinstance(found[0], Problem)
