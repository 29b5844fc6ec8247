"""A sitting at the terminal: asked, marked, kept, broken off, taken up again."""

from __future__ import annotations

import itertools
from pathlib import Path

import pytest

from drill.generate import generate
from drill.store import Store
from tests.common.desk import drill
from tests.common.history import only_question
from tests.common.shipped import shipped_bank

AT = ("--at", "2027-01-12T17:00")


def sit(*arguments: str, typed: list[str]) -> str:
    result = drill("sit", "--seed", "5", *arguments, typed=typed)
    assert result.exception is None or isinstance(result.exception, SystemExit), result.output
    return result.output


def test_first_start_says_what_it_assumes_and_asks_one_question() -> None:
    screen = sit(*AT, typed=["ada", "stop"])
    assert "does not replace your teacher's instructions" in " ".join(screen.split())
    assert "No exam date is set" in screen
    assert "question 1" in screen
    assert "Nothing answered this time" in screen


def test_safety_and_assumptions_are_said_once() -> None:
    sit(*AT, typed=["ada", "stop"])
    assert "No exam date is set" not in sit(*AT, typed=["stop"])


def test_an_answer_and_its_verdict_are_stored(home: Path) -> None:
    sit(*AT, typed=["ada", "no idea at all", "stop"])
    with Store.open(home / "drill.db") as store:
        (learner,) = store.learners()
        (asking,) = store.askings(learner)
        (answer,) = asking.answers
        assert answer.text == "no idea at all"
        assert answer.mark is not None


def test_a_closed_terminal_loses_nothing_and_the_sitting_goes_on() -> None:
    broken = drill("sit", *AT, typed=["ada", "pass", "pass", "pass", ""])
    assert broken.exit_code == 130
    assert "Every answer is kept" in broken.output
    title = broken.output.split("─\n")[-2].splitlines()[-1]
    again = sit("--at", "2027-01-12T17:20", typed=["stop"])
    assert "Going on where you stopped, after" in again
    assert title in again


def test_a_whole_sitting_of_twelve_questions() -> None:
    lines = ["ada"] + ["pass", "pass", "pass", ""] * 40
    screen = sit(*AT, "--questions", "12", typed=lines)
    assert "question 12 of 12" in screen
    assert "12 questions, 0 of" in screen
    assert "Next sitting: " in screen


def test_hint_pass_and_faulty() -> None:
    screen = sit(*AT, typed=["ada", "?", "faulty", "a", "two answers are right", "stop"])
    assert "Hint:" in screen or "There is no hint" in screen
    assert "this question does not count" in screen
    assert "Not answered: 0 of " in sit(*AT, typed=["pass", "stop"])


def test_appeal_and_fix_keep_both_texts(home: Path) -> None:
    typed = ["ada", "zzz", "appeal", "it is right", "fix", "what I meant", "stop"]
    screen = sit(*AT, typed=typed)
    assert "Until then the mark stands." in screen
    assert "The first answer stands; both are kept." in screen
    with Store.open(home / "drill.db") as store:
        (asking,) = store.askings(store.learners()[0])
        kinds = [(answer.kind, answer.text) for answer in asking.answers]
    assert kinds == [("answer", "zzz"), ("fix", "what I meant")]


def test_an_unknown_learner_is_not_made_by_a_slip_of_the_finger() -> None:
    sit(*AT, typed=["ada", "stop"])
    result = drill("sit", "--learner", "adda")
    assert result.exit_code == 1
    assert 'no learner "adda" here. There is: ada.' in str(result.exception)


def test_a_bad_code_is_refused_in_words_and_asked_again() -> None:
    screen = sit(*AT, typed=["a name far too long to be a code", "ada", "stop"])
    assert "question 1" in screen


@pytest.mark.parametrize("hostile", ["\x1b[2J\x1b]0;x\x07", "‮gnp", "[bold]x[/bold]", "9" * 5000])
def test_nothing_typed_reaches_the_terminal_raw(hostile: str) -> None:
    screen = sit(*AT, typed=["ada", hostile, "appeal", hostile, "stop"])
    assert "\x1b]0;" not in screen
    assert "‮" not in screen


def test_plain_mode_draws_no_lines() -> None:
    screen = sit(*AT, "--plain", typed=["ada", "stop"])
    assert "─" not in screen


def test_how_sure_is_asked_when_wanted(home: Path) -> None:
    sit(*AT, "--sure", typed=["ada", "zzz", "certain", "stop"])
    with Store.open(home / "drill.db") as store:
        (asking,) = store.askings(store.learners()[0])
    assert asking.answers[0].sure == "certain"


def test_the_question_after_an_example_is_another_one(home: Path) -> None:
    from drill.generate import generate
    from drill.model import Question, Template

    lines = ["ada"] + ["pass", "pass", "pass", ""] * 60
    sit(*AT, "--questions", "25", typed=lines)
    bank = shipped_bank()
    with Store.open(home / "drill.db") as store:
        askings = store.askings(store.learners()[0])
    shown = [(a, b) for a, b in itertools.pairwise(askings) if a.shown]
    assert shown, "no calculation was shown first"
    for example, question in shown:
        assert example.template == question.template
        template = bank.template(example.template)
        assert isinstance(template, Template)
        one, other = generate(template, example.seed), generate(template, question.seed)
        assert isinstance(one, Question)
        assert isinstance(other, Question)
        assert [p.model_answer for p in one.parts] != [p.model_answer for p in other.parts]


def test_a_faulty_question_is_not_asked_again_in_the_sitting() -> None:
    screen = sit(*AT, typed=["ada", "faulty", "a", "the diagram is wrong", "stop"])
    titles = [
        line
        for line, rule in zip(screen.splitlines(), screen.splitlines()[1:], strict=False)
        if rule.startswith("────")
    ]
    assert titles[0] != titles[1]


def test_an_unreadable_number_may_be_typed_again_and_is_kept_twice(home: Path) -> None:
    deck = only_question(home, "measure/mass-by-difference")
    screen = sit(deck, *AT, typed=["ada", "", "3,5", "12.34", "stop"])
    assert "Did you mean 3.5?" in screen
    with Store.open(home / "drill.db") as store:
        asking = store.askings(store.learners()[0])[-1]
    assert [answer.text for answer in asking.answers] == ["3,5", "12.34"]


@pytest.mark.parametrize("deck", ["first-steps", "spring-practicals", "catch-up"])
def test_every_demo_deck_can_be_sat(deck: str) -> None:
    lines = ["ada"] + ["pass", "pass", "pass", ""] * 20
    at = ("--at", "2027-04-20T17:00")
    screen = sit(deck, *at, "--questions", "4", typed=lines)
    assert "question 4 of 4" in screen
    assert "4 questions, 0 of" in screen


@pytest.fixture
def one_number(home: Path) -> str:
    return only_question(home, "measure/mass-by-difference")


def texts(home: Path) -> list[str]:
    with Store.open(home / "drill.db") as store:
        (learner,) = store.learners()
        answers = [one for asking in store.askings(learner) for one in asking.answers]
        return [one.text for one in answers if one.kind != "hint"]


def test_when_a_number_is_typed_again_a_hint_and_an_empty_line_are_no_answers(
    home: Path, one_number: str
) -> None:
    screen = sit(one_number, *AT, typed=["ada", "", "stuff", "?", "", "12.5", ""])
    assert "Hint: " in screen
    assert "Not the value: 12.5." in screen
    assert texts(home) == ["stuff", "12.5"]


def test_a_question_called_faulty_when_typing_again_is_left_without_a_further_answer(
    home: Path, one_number: str
) -> None:
    screen = sit(one_number, *AT, typed=["ada", "", "stuff", "faulty", "odd", ""])
    assert "this question does not count" in screen
    assert texts(home) == ["stuff"]


def test_an_example_is_not_called_a_question_and_one_mark_is_a_mark(one_number: str) -> None:
    screen = sit(one_number, *AT, typed=["ada", "", "12.5", ""])
    assert screen.count("question 1 ·") == 1
    assert "worked example · about 12 min left" in screen
    assert "1 question, 0 of 1 mark, 1 minute." in screen


def test_a_notice_of_safety_is_told_once_a_sitting(home: Path) -> None:
    said = drill("sit", "salts", "--learner", "ada", *AT, "--questions", "14",
                 typed=["pass", *["pass", ""] * 70]).output  # fmt: skip
    words = " ".join(said.split())
    with Store.open(home / "drill.db") as store:
        asked = {one.template for one in store.askings(store.learners()[0])}
    bank = shipped_bank()
    made = [generate(bank.template(one), 1) for one in asked]
    notices = {one.safety for one in made if one.safety}
    told = [words.count(f"Safety: {notice}") for notice in notices]
    assert max(told) == 1
    assert sum(told) > 1
