"""`drill answers`: what was typed, its mark, what was right, by skill or day."""

from __future__ import annotations

import json
from pathlib import Path

from tests.common.desk import drill
from tests.common.history import slipped_twice

AT = ("--at", "2027-01-14T17:00")


def test_past_answers_are_told_with_what_was_right(home: Path) -> None:
    slipped_twice(home)
    rows = json.loads(drill("answers", "--json").output)
    assert [row["day"] for row in rows] == ["2027-01-13", "2027-01-12"]
    assert rows[0]["typed"] != rows[0]["right"]
    said = drill("answers").output
    for row in rows:
        assert row["typed"] in said
        assert row["right"] in said
        assert "0 of 1 mark" in said


def test_by_day_skill_and_what_lost_marks(home: Path) -> None:
    slipped_twice(home)
    assert len(json.loads(drill("answers", "--day", "13/01/2027", "--json").output)) == 1
    assert len(json.loads(drill("answers", "--skill", "mass difference", "--json").output)) == 2
    assert len(json.loads(drill("answers", "--missed", "--json").output)) == 2
    assert drill("answers", "--day", "yesterday", *AT).output.count("you typed") == 1
    nothing = drill("answers", "--skill", "burette")
    assert nothing.exit_code == 1
    assert "There is: mass by difference" in str(nothing.exception)


def test_options_are_told_by_their_words_and_terminals_obey_nothing(home: Path) -> None:
    drill("sit", *AT, "--questions", "3", typed=["ada", *["\x1b[2Jxx", ""] * 12])
    said = drill("answers").output
    assert "\x1b[2J" not in said
    assert "you typed" in said
