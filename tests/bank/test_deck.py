"""Topic decks: what is filled in, and a starter that reads."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from drill.bank import Bank, new_deck, read_deck
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
    assert found.names == {"evaporating basin": "evaporating dish"}


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
        course="combined foundation",
        minutes=12,
        exam="2027-05-18",
        practicals=["salts", "measure"],
    )
    found = deck(written(tmp_path, text))
    assert found.title == 'A "quoted" title \\ é'
    assert found.papers == (Paper("first", "2027-05-18"),)
    assert [topic.practical for topic in found.topics] == ["salts", "measure"]
    assert text.count("#") > 5


def test_a_starter_with_two_papers_and_one_without(tmp_path: Path) -> None:
    two = new_deck("T", "t", "separate higher", 9, practicals=["salts"],
                   papers=[("one", "2027-05-18"), ("two", "2027-06-10")])  # fmt: skip
    assert [paper.id for paper in deck(written(tmp_path, two)).papers] == ["one", "two"]
    none = new_deck("T", "t", "separate higher", 9, practicals=["salts"])
    assert deck(written(tmp_path, none)).papers == ()


@pytest.mark.parametrize(
    ("answers", "message"),
    [
        ({"exam": "18 May"}, 'exam is no date: "18 May".'),
        ({"course": "higher"}, ("course must be one of combined foundation, combined higher, "
         'separate foundation, separate higher; got "higher".')),
        ({"minutes": 0}, "minutes_a_day must have a value from 1 to 240, got 0."),
        ({"title": " "}, "title is empty."),
    ],
)  # fmt: skip
def test_a_wrong_answer_to_the_starter_is_told(
    tmp_path: Path, answers: dict[str, object], message: str
) -> None:
    usual = {"title": "T", "id": "t", "course": "separate higher", "minutes": 9, "exam": "",
             "practicals": ["salts"]}  # fmt: skip
    found = read_deck(written(tmp_path, new_deck(**{**usual, **answers})))  # type: ignore[arg-type]
    assert isinstance(found, tuple)
    assert [problem.message for problem in found] == [message]


def test_a_deck_is_held_against_a_bank_only_when_one_is_given(good: Path) -> None:
    path = FILES / "bad" / "decks" / "unknown-practical.toml"
    assert isinstance(read_deck(path), Deck)
    found = read_deck(path, Bank.open(good))
    assert isinstance(found, tuple)
    assert isinstance(found[0], Problem)
