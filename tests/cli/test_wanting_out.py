"""Words for wanting out or wanting help, and words that only seem to mean an option."""

from __future__ import annotations

from pathlib import Path

import pytest

from drill.cli.command_words import likely_word, word_in
from drill.cli.views import how_to_answer
from drill.generate import generate
from drill.marking import mark
from drill.model import NumberKey, OrderKey, Part, Question, Template
from drill.store import Store
from tests.common.desk import drill
from tests.common.history import only_question
from tests.common.shipped import shipped_bank

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
    assert "Not answered: 0 of 1 mark" in screen


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


def test_a_broken_question_on_one_thing_is_offered_again_by_the_words_that_are_named(
    home: Path,
) -> None:
    at = ("--learner", "ada", "--seed", "5", "--at")
    broken = drill("sit", "rates", *at, "2027-01-12T17:00", typed=["?"]).output
    assert "drill sit rates goes on from here." in broken
    again = drill("sit", "rates", *at, "2027-01-12T17:20", typed=["pass", "stop"]).output
    assert "Going on where you stopped." in again
    with Store.open(home / "drill.db") as store:
        (asking, *_) = store.askings(store.learners()[0])
    assert [one.kind for one in asking.answers if one.kind != "hint"] == ["pass"]


@pytest.mark.parametrize("then", ["again", "more"])
def test_once_more_is_not_asked_when_the_answer_was_typed_out(home: Path, then: str) -> None:
    deck = only_question(home, "chromatography/run-needed")
    drill("sit", deck, *AT, typed=["?"])
    with Store.open(home / "drill.db") as store:
        asking = store.askings(store.learners()[0])[-1]
    template = shipped_bank().template(asking.template)
    assert isinstance(template, Template)
    question = generate(template, asking.seed)
    assert isinstance(question, Question)
    key = question.parts[0].key
    assert isinstance(key, NumberKey)
    part = question.parts[0]
    marked = {slip.text: mark(part, slip.text) for slip in key.slips}
    number = part.model_answer.split(" ")[0]
    named = next(text for text, one in marked.items() if one.slip and number not in one.says)
    later = ("--at", "2027-01-12T17:20")
    screen = drill("sit", deck, *later, typed=[named, then, "0.01", "more", "stop"]).output
    assert screen.count("once more, or Enter for the answer") == (1 if then == "again" else 2)
    assert ("The answer comes first" in screen) == (then == "more")


def test_how_sure_is_asked_again_when_a_number_is_typed(home: Path) -> None:
    deck = only_question(home, "rates/risk-and-way")
    screen = drill("sit", deck, *AT, "--sure", typed=["A", "193.5", "cert", "stop"]).output
    assert "One of the three words" in screen
    with Store.open(home / "drill.db") as store:
        (asking,) = store.askings(store.learners()[0])
    assert asking.answers[0].sure == "certain"
    assert "drill sit --no-sure" in drill("sit", deck, *AT, typed=["stop"]).output


def test_only_what_was_shown_is_told_at_the_end() -> None:
    screen = drill("sit", "rates", *AT, "--questions", "3", typed=["pass", ""] * 12).output
    assert "Gained" not in screen
    assert "Held better" not in screen
    assert "of this alone" in " ".join(screen.split())


def test_words_that_name_nothing_are_refused_before_anything_is_asked() -> None:
    refused = drill("sit", "blurb", "--at", "2027-01-12T17:00", typed=["ada"])
    assert 'is called "blurb"' in str(refused.exception)
    assert "code for you" not in refused.output


def test_a_past_answer_stands_below_the_text_of_its_question(letters: str) -> None:
    sat(letters, "A", "stop")
    assert "Somebody in the class" in drill("answers", "ada").output


def test_letters_in_a_wrong_order_name_the_command() -> None:
    assert "Did you mean 'sit'?" in drill("sti").output


@pytest.mark.parametrize(
    ("steps", "says"),
    [(("W", "X", "Y"), "letters or names in order"),
     (("powder X", "powder Y"), "letters or names in order"),
     (("filter it", "heat it gently"), "letters in order")],
)  # fmt: skip
def test_names_are_offered_where_they_are_read(steps: tuple[str, ...], says: str) -> None:
    lettered = tuple(zip("ABC", steps, strict=False))
    key = OrderKey(lettered, "ABC"[: len(steps)], {})
    part = Part("a", "order", "s", "Put in order.", 1, (), key, "", "")
    assert how_to_answer(part) == says
