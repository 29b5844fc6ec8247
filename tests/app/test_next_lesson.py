"""At most three things, each missed on two days; what may be chance is said with a "perhaps"."""

from __future__ import annotations

from datetime import datetime, timedelta

import pytest

from drill.app.mistakes import common_mistakes
from drill.app.next_lesson import LessonItem, next_lesson
from drill.app.part_answers import PartAnswer
from drill.app.skill_rows import SkillRow
from drill.frozen import replace
from drill.memory import Memory
from drill.planning.weakness import WeakSkill, weak_skills
from drill.planning.why_weak import Answer
from tests.app.test_mistakes import WATER, answer

NOW = datetime.fromisoformat("2027-02-21T17:00:00+00:00")


def skill_row(weak: WeakSkill) -> SkillRow:
    return SkillRow(
        weak.skill, weak.skill, "topic", True, weak.right, weak.answers, 0, 0, weak.answers, 1, 1,
        "shaky", None, None, weak.why.word.value, weak.why.mistake, (), None, 0, 0, 0,
    )  # fmt: skip


def told(rows: list[PartAnswer]) -> tuple[list[WeakSkill], list[LessonItem]]:
    memory, answers = Memory(), {}
    for row in rows:
        share = row.marks / row.of
        memory.observe(row.skill, row.template, row.when, share)
        answers.setdefault(row.skill, []).append(Answer(row.when, share, row.mistake))
    weak = weak_skills(memory, answers, NOW)
    skills = {one.skill: skill_row(one) for one in weak}
    return weak, next_lesson(weak, skills, rows, common_mistakes(rows), NOW)


def missed(day: int, skill: str) -> PartAnswer:
    return answer(day, skill, marks=0)


def right_on(days: range, *skills: str) -> list[PartAnswer]:
    return [answer(day, skill) for day in days for skill in skills]


def test_one_of_nine_stands_above_none_of_one_and_never_below_three_of_three() -> None:
    rows = [
        *right_on(range(3), "three of three", "b", "c", "d"),
        answer(0, "one of nine"),
        *(missed(day, "one of nine") for day in range(1, 9)),
        missed(4, "none of one"),
    ]
    weak, lesson = told(sorted(rows, key=lambda row: row.when))
    order = [one.skill for one in weak]
    assert order[:2] == ["one of nine", "none of one"]
    assert order.index("three of three") > 1
    (item,) = lesson
    assert (item.skill, item.plain) == ("one of nine", True)
    assert item.example is not None
    assert item.example.date == "2027-02-09"


def test_what_was_missed_on_one_day_only_is_no_item() -> None:
    rows = [*right_on(range(3), "a", "b"), missed(3, "c"), missed(3, "c")]
    assert told(rows)[1] == []


def test_at_most_three_and_what_may_be_chance_comes_last_with_a_perhaps() -> None:
    rows = [
        *right_on(range(6), "a", "b", "c", "d"),
        *(missed(day, skill) for day in range(4) for skill in ("w", "x")),
        *(missed(day, "y") for day in (0, 2)),
        *right_on(range(3, 6), "y"),
        *(missed(day, "z") for day in (1, 3)),
        *right_on(range(4, 7), "z"),
    ]
    _, lesson = told(sorted(rows, key=lambda row: row.when))
    assert len(lesson) == 3
    assert {lesson[0].skill, lesson[1].skill} == {"w", "x"}
    assert [item.plain for item in lesson] == [True, True, False]


def test_a_mistake_that_crosses_skills_is_one_thing() -> None:
    could = frozenset({WATER})
    rows = [
        *right_on(range(6), "a", "b"),
        *(answer(day, skill, WATER, could=could) for day in (1, 4) for skill in ("mass", "yield")),
    ]
    _, lesson = told(sorted(rows, key=lambda row: row.when))
    assert [(item.name, item.times, item.chances) for item in lesson] == [(WATER, 4, 4)]
    assert lesson[0].skills == ("mass", "yield")


@pytest.mark.parametrize(("early", "late"), [((3, 0), (4, 3))])
def test_two_weeks_ago_stands_beside_now(early: tuple[int, int], late: tuple[int, int]) -> None:
    rows = [
        *right_on(range(-20, -16), "a", "b"),
        *(answer(day, "w") for day in range(-20, -20 + early[0])),
        *(missed(day, "w") for day in range(10, 10 + late[1])),
        answer(13, "w"),
        *right_on(range(10, 14), "a", "b"),
    ]
    _, lesson = told(sorted(rows, key=lambda row: row.when))
    (item,) = lesson
    assert (item.trend.marks, item.trend.of) == (1, late[0])
    assert (item.trend.before_marks, item.trend.before_of) == (early[0], early[0])
    assert item.trend.since == (NOW - timedelta(days=14)).date().isoformat()


def test_skills_of_a_topic_missed_a_little_each_are_one_thing_together() -> None:
    steady = [f"s{number}" for number in range(12)]
    rows = [
        *right_on(range(5), *steady),
        *(missed(day, f"h{day}") for day in range(4)),
        *(missed(day + 2, f"h{day}") for day in range(2)),
    ]
    memory, answers = Memory(), {}
    for row in sorted(rows, key=lambda row: row.when):
        memory.observe(row.skill, row.template, row.when, float(row.marks))
        answers.setdefault(row.skill, []).append(Answer(row.when, float(row.marks)))
    weak = weak_skills(memory, answers, NOW)
    topics = {one.skill: "hazards" if one.skill[0] == "h" else one.skill for one in weak}
    skills = {one.skill: replace(skill_row(one), topic=topics[one.skill]) for one in weak}
    lone = [one for one in weak if one.skill not in ("h0", "h1")]
    (item,) = next_lesson(lone, skills, rows, [], NOW)
    assert (item.name, item.skill, item.skills) == ("hazards", "", ("h2", "h3"))
    few = [one for one in weak if one.skill not in ("h0", "h1", "h2")]
    assert next_lesson(few, skills, rows, [], NOW) == []
