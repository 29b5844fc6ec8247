"""Guessing is told from what was said and from speed, and only where it is the habit."""

from __future__ import annotations

from drill.app.weakness.guesses import guesses
from drill.app.weakness.part_answers import PartAnswer
from drill.frozen import replace
from tests.app.test_mistakes import answer


def right(number: int) -> list[PartAnswer]:
    return [answer(day % 5, "mass", seconds=50.0) for day in range(number)]


def lost(number: int, seconds: float, sure: str = "") -> list[PartAnswer]:
    made = {"marks": 0, "seconds": seconds, "sure": sure}
    return [answer(day % 5, f"s{day % 3}", **made) for day in range(number)]


def test_answers_typed_in_no_time_that_lose_marks_are_guesses() -> None:
    found = guesses([*right(9), *lost(8, 5.0), *lost(1, 45.0)])
    assert found is not None
    assert (found.times, found.lost, found.passes) == (8, 9, 0)
    assert found.skills == ("s0", "s1", "s2")
    assert (found.said, found.right, found.answers) == (0, 0, 18)


def test_what_was_said_to_be_a_guess_is_one_however_long_it_took() -> None:
    lucky = [answer(2, "mass", sure="guess", seconds=50.0)]
    found = guesses([*right(9), *lost(7, 60.0, "guess"), *lucky])
    assert found is not None
    assert (found.times, found.said, found.right) == (7, 7, 1)


def test_the_guess_shown_is_one_whose_question_is_known() -> None:
    later = [replace(row, ask="", typed="B") for row in lost(3, 5.0)]
    found = guesses([*right(9), *lost(8, 5.0), *later])
    assert found is not None
    assert found.latest.typed == "1"


def test_who_thinks_and_errs_or_passes_does_not_guess() -> None:
    assert guesses([*right(9), *lost(12, 40.0, "fairly")]) is None
    assert guesses([*right(9), *lost(5, 5.0)]) is None
    assert guesses([*right(9), *lost(8, 5.0), *lost(9, 45.0)]) is None
    assert guesses([*right(9), *lost(25, 5.0), *lost(20, 45.0)]) is None
    passed = [answer(day, "s", marks=0, typed="", passed=True, seconds=2.0) for day in range(9)]
    assert guesses([*right(9), *passed]) is None


def test_speed_tells_nothing_before_right_answers_show_what_is_usual() -> None:
    assert guesses([*right(4), *lost(8, 5.0)]) is None
