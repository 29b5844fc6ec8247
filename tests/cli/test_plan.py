"""`drill plan` says what its figures rest on, and when two judgements disagree."""

from __future__ import annotations

import json
from pathlib import Path

from tests.common.desk import drill
from tests.common.history import only_question, spend_two_minutes

AT = ("--at", "2027-01-12T17:00")
LATER = ("--at", "2027-01-12T18:00")


def test_without_answers_it_says_so() -> None:
    drill("learner", "new", "ada", *AT)
    shown = drill("plan", *AT).output
    assert "Nothing is answered yet, so this could be far out: the first sittings will" in shown


def test_with_a_few_it_says_that_they_are_few_and_what_is_done_today() -> None:
    drill("sit", *AT, "--questions", "2", typed=["ada", *["pass", ""] * 12])
    answers = json.loads(drill("plan", *LATER, "--json").output)["answers"]
    assert answers >= 1
    shown = drill("plan", *LATER, "--minutes", "60").output
    assert f"It rests on {answers} answers so far: a sitting or two can still move it" in shown


def test_today_has_no_minutes_when_nothing_is_worth_asking(home: Path) -> None:
    deck = only_question(home, "measure/mass-by-difference")
    drill("sit", deck, *AT, typed=["ada", *["", "pass", "pass"] * 3])
    today, tomorrow, *_ = json.loads(drill("plan", *LATER, "--json").output)["days"]
    assert (today["practice"], today["minutes"]) == (False, 0)
    assert tomorrow["practice"]
    assert tomorrow["minutes"] == 12


def test_minutes_spent_are_taken_off_today() -> None:
    drill("sit", *AT, "--questions", "2", typed=["ada", *["pass", ""] * 12])
    spend_two_minutes()
    today, tomorrow, *_ = json.loads(drill("plan", *LATER, "--json").output)["days"]
    assert tomorrow["minutes"] == 10
    assert today["minutes"] == 8
    assert "up to 8 min more" in drill("plan", *LATER).output


def test_judgements_that_differ_are_said(home: Path) -> None:
    drill("sit", *AT, "--questions", "2", typed=["ada", *["pass", ""] * 12])
    assert "Two ways of judging" not in drill("plan", *LATER).output
    from drill.sitting import history
    from drill.store import Store

    with Store.open(next(home.glob("drill.*"))) as store:
        (who,) = store.learners()
        memory = history.remembered(store, who)
        memory.belief.person[0] += 4.0
        history.keep(store, who, memory, store.seen())
    shown = " ".join(drill("plan", *LATER).output.split())
    apart = json.loads(drill("plan", *LATER, "--json").output)["apart"]
    assert apart > 0.1
    assert f"judging what lasts differ by {100 * apart:.0f} % of the marks, so the" in shown


def test_after_a_first_sitting_nothing_is_said_of_what_was_thought_before() -> None:
    said = drill("sit", *AT, "--questions", "12", typed=["ada", *["pass", ""] * 40]).output
    assert json.loads(drill("plan", *LATER, "--json").output)["answers"] >= 10
    assert "and the next sittings can still move it much." in " ".join(said.split())
    assert "than thought before" not in said


def test_after_one_question_only_the_range_is_said() -> None:
    said = drill("sit", *AT, "--questions", "1", typed=["ada", *["pass", ""] * 12]).output
    said = " ".join(said.split())
    assert "Too few answers yet to say much: between " in said
    assert "expect about" not in said
    assert "than thought before" not in said
