"""Before a sitting: what `drill` alone says, one thing by its name, what went wrong, the day."""

from __future__ import annotations

from pathlib import Path

import pytest

from drill.store import Store
from tests.common.desk import drill
from tests.common.history import only_question, slipped_twice
from tests.common.terminal import Terminal

AT = ("--at", "2027-01-12T17:00")
NEXT_DAY = ("--at", "2027-01-14T17:00")


def askings(home: Path):
    with Store.open(home / "drill.db") as store:
        return store.askings(store.learners()[0])


def test_alone_it_says_in_ten_lines_what_to_type() -> None:
    lines = drill().output.splitlines()
    assert len(lines) == 10
    assert max(map(len, lines)) <= 88
    assert "Start: drill sit" in lines[0]
    assert {"Student", "Teacher", "Tutor"} <= {line.split()[0] for line in lines if line.strip()}


@pytest.mark.parametrize(
    ("words", "practical"),
    [("titration", "titration"), ("Making a soluble salt", "salts"), ("Paper Chromatography", "")],
)
def test_a_practical_is_practised_by_its_name_without_a_deck(
    home: Path, words: str, practical: str
) -> None:
    said = drill("sit", words, *AT, "--questions", "4", typed=["ada", *["pass", ""] * 60]).output
    assert "question 4 of 4" in said
    folders = {asking.template.split("/")[0] for asking in askings(home)}
    assert folders == {practical or "chromatography"}
    with Store.open(home / "drill.db") as store:
        assert store.setting(store.learners()[0], "deck") in (None, "")


def test_a_skill_is_practised_in_words(home: Path) -> None:
    said = drill(
        "sit", "percentage yield", *AT, "--questions", "2", typed=["ada", *["pass", ""] * 60]
    )
    assert "Percentage yield" in said.output
    assert {asking.skill for asking in askings(home)} == {"calc.percentage-yield"}


def test_a_name_that_nobody_knows_is_told_with_a_near_one() -> None:
    ended = drill("sit", "titraton", *AT, typed=["ada"])
    assert ended.exit_code == 1
    assert 'Did you mean "titration"?' in str(ended.exception)


def test_again_asks_what_went_wrong_with_new_numbers(home: Path) -> None:
    slipped_twice(home)
    before = {asking.seed for asking in askings(home)}
    said = drill("sit", "--again", *NEXT_DAY, typed=["", "pass", "stop"]).output
    assert "What went wrong lately" in said
    last = askings(home)[-1]
    assert last.template == "measure/mass-by-difference"
    assert last.seed not in before


def test_again_with_nothing_wrong_says_so() -> None:
    drill("learner", "new", "ada", *AT)
    ended = drill("sit", "--again", *AT)
    assert "nothing went wrong in the last two weeks" in str(ended.exception)


def test_a_later_day_opens_with_two_lines_and_no_figure(home: Path) -> None:
    slipped_twice(home)
    drill("sit", "--at", "2027-01-13T18:00", typed=["stop"])
    said = drill("sit", *NEXT_DAY, typed=["stop"]).output
    told = " ".join(said.partition("? for a hint")[0].split())
    assert "Last time, on Wednesday: mass by difference went wrong." in told
    opened = told[told.index("Last time") :]
    assert "Today: mostly " in opened
    assert not any(sign.isdigit() for sign in opened)
    drill("sit", *NEXT_DAY, typed=["pass", "pass", "stop"])
    assert "Last time" not in drill("sit", "--at", "2027-01-14T19:00", typed=["stop"]).output


def test_the_exam_set_before_the_first_sitting_is_not_asked_for_again() -> None:
    drill("plan", "--exam", "2027-05-18", *AT, typed=["ada"])
    assert "No exam date" not in drill("sit", *AT, typed=["stop"]).output


def test_plain_is_remembered_for_each_learner() -> None:
    drill("sit", "--plain", "--learner", "ada", *AT, typed=["stop"])
    assert "─" not in drill("sit", *AT, typed=["stop"]).output
    assert "─" not in drill("plan", *AT).output
    assert "─" in drill("sit", "--no-plain", *AT, typed=["stop"]).output
    assert "─" in drill("sit", *AT, typed=["stop"]).output


def test_the_course_is_asked_once_at_a_terminal(home: Path) -> None:
    with Terminal(home, "sit", "--learner", "ada", *AT) as window:
        window.answer("Which course is yours? (Enter: not sure) > ", "1")
        window.until("changed at any time: drill plan --course")
        window.until("Course: combined foundation.")
        window.answer(" > ", "stop")
        window.wait()
    with Terminal(home, "sit", "--learner", "ada", *AT) as window:
        assert "Which course" not in window.answer(" > ", "stop")
    with Store.open(home / "drill.db") as store:
        assert store.setting(store.learners()[0], "course") == "combined foundation"


def test_who_sits_is_asked_even_where_only_one_is_known(home: Path) -> None:
    drill("learner", "new", "ada", *AT)
    deck = only_question(home, "measure/mass-by-difference")
    with Terminal(home, "sit", deck, *AT) as window:
        window.answer("Who is it? Enter: ada; somebody else: a code of their own > ", "bo")
        window.answer("question of your own > ", "stop")
        window.wait()
    with Terminal(home, "sit", deck, *AT) as window:
        window.answer("Who is it? Enter: bo; somebody else: ada > ", "")
        window.answer("answer in g > ", "stop")
        window.wait()
    with Store.open(home / "drill.db") as store:
        ada, bo = store.learners()
        assert not store.askings(ada)
        assert store.askings(bo)
