"""Mistakes are counted over all skills and over the chances there were; options by their text."""

from __future__ import annotations

from datetime import datetime, timedelta

from drill.app.weakness.mistakes import common_mistakes
from drill.app.weakness.part_answers import PartAnswer
from drill.frozen import replace

NOW = datetime.fromisoformat("2027-02-01T17:00:00+00:00")
WATER = "water left out"


def answer(day: int, skill: str, mistake: str = "", **rest: object) -> PartAnswer:
    row = PartAnswer(
        when=NOW + timedelta(days=day),
        template=f"made-up/{skill}",
        skill=skill,
        part="a",
        kind="number",
        ask="How much?",
        typed="1",
        right="2",
        marks=0 if mistake else 1,
        of=1,
        own=0,
        own_of=0,
        mistake=mistake,
    )
    return replace(row, **rest)  # type: ignore[arg-type]


def test_one_mistake_over_two_skills_is_counted_once_and_over_its_chances() -> None:
    could = frozenset({WATER})
    rows = [
        answer(0, "mass", WATER, could=could),
        answer(1, "mass", could=could),
        answer(2, "yield", WATER, could=could),
        answer(3, "yield", WATER, could=could),
        answer(3, "other"),
    ]
    (found,) = common_mistakes(rows)
    assert (found.times, found.chances, found.days, found.skills) == (3, 4, 3, ("mass", "yield"))
    assert [one.date for one in found.examples] == ["2027-02-04", "2027-02-03"]
    assert found.told


def test_twice_on_one_day_is_not_told() -> None:
    rows = [answer(0, "mass", WATER), answer(0, "yield", WATER)]
    (found,) = common_mistakes(rows)
    assert found.times == 2
    assert not found.told


def test_one_that_no_part_names_ahead_had_a_chance_in_every_part_of_its_kind() -> None:
    rows = [
        answer(0, "salts", "capitals", kind="formula"),
        answer(1, "salts", kind="formula"),
        answer(1, "mass"),
    ]
    (found,) = common_mistakes(rows)
    assert (found.times, found.chances) == (1, 2)
