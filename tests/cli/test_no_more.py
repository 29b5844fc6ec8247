"""A sitting that has nothing left to ask says why and offers nothing it cannot keep."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

from drill.app.nothing_to_ask import why_no_more
from drill.planning import Planner, SkillPlan
from tests.common.desk import drill
from tests.common.history import only_question, spend_two_minutes

NOW = datetime(2027, 1, 12, 17, tzinfo=UTC)
AT = ("--at", "2027-01-12T17:00")
OFFER = "type more"


def test_with_one_question_more_is_not_offered_and_the_reason_is_said(home: Path) -> None:
    deck = only_question(home, "measure/mass-by-difference")
    typed = ["ada", *["", "pass", "pass"] * 9]
    said = drill("sit", deck, *AT, typed=typed).output
    assert OFFER not in said
    assert "Every question here has been asked lately" in said
    assert "Next sitting: Wednesday 13 January." in said
    again = drill("sit", deck, "--at", "2027-01-12T18:00", typed=["more", ""])
    assert again.exit_code == 0
    assert OFFER not in again.output
    assert "Nothing answered this time" not in again.output
    assert "Every question here has been asked lately" in again.output
    assert "Next sitting: Wednesday 13 January." in again.output


def test_more_is_offered_when_only_the_minutes_are_spent_and_then_something_is_asked() -> None:
    drill("sit", *AT, "--questions", "1", typed=["ada", "stop"])
    drill("plan", "--minutes", "1", *AT)
    spend_two_minutes()
    said = drill("sit", "--at", "2027-01-12T18:00", typed=["more", "", "stop"]).output
    assert OFFER in said
    assert "question 1" in said
    assert "min left" not in said


def test_minutes_of_an_earlier_sitting_of_the_day_are_taken_off() -> None:
    drill("sit", *AT, "--questions", "1", typed=["ada", "stop"])
    spend_two_minutes()
    said = drill("sit", "--at", "2027-01-12T18:00", typed=["stop"]).output
    assert "question 1 · about 8 min left" in said


def test_a_topic_not_taught_yet_says_when_it_begins() -> None:
    later = NOW + timedelta(days=2)
    planner = Planner({"a": SkillPlan(2.0, 60.0, later, {"a/x": True})})
    assert why_no_more(planner, NOW) == (
        "Nothing of this topic has been taught yet; it begins on Thursday 14 January."
    )


def test_held_is_said_only_when_every_skill_is_held_and_was_answered_twice() -> None:
    exam = NOW + timedelta(days=2)
    planner = Planner({"a": SkillPlan(2.0, 60.0, None, {f"a/{n}": True for n in range(6)})}, exam)
    held = "Every skill here is held today"
    assert held not in why_no_more(planner, NOW)
    for turn in range(60):
        when = NOW - timedelta(days=20) + timedelta(hours=8 * turn)
        planner.memory.observe("a", f"a/{turn % 6}", when, 1.0)
    assert held in why_no_more(planner, NOW)
