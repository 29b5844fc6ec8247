"""At most three things, each missed on two days; what may be chance is said to be so."""

from __future__ import annotations

from datetime import datetime, timedelta

import pytest

from drill.app.weakness.lesson_item import LessonItem
from drill.app.weakness.mistakes import common_mistakes
from drill.app.weakness.next_lesson import next_lesson
from drill.app.weakness.part_answers import PartAnswer
from drill.app.weakness.skill_rows import SkillRow
from drill.frozen import replace
from drill.memory import Memory
from drill.planning.weakness import WeakSkill, weak_skills
from drill.planning.why_weak import Answer
from tests.app.test_mistakes import WATER, answer

NOW = datetime.fromisoformat("2027-02-21T17:00:00+00:00")


def skill_row(weak: WeakSkill) -> SkillRow:
    return SkillRow(
        weak.skill, weak.skill, "topic", True, weak.right, weak.answers, 0, 0, weak.answers, 1, 1,
        "not yet secure", None, None, weak.why.word.value, weak.why.mistake, (), None, 0, 0, 0,
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


@pytest.mark.parametrize(("well_known", "found"), [(0, [""]), (5, [])])
def test_two_hard_skills_among_well_known_ones_make_no_weak_topic(
    well_known: int, found: list[str]
) -> None:
    steady = [f"s{number}" for number in range(12)]
    rows = [
        *right_on(range(5), *steady),
        *right_on(range(-3, 4), *(f"known {number}" for number in range(well_known))),
        *(missed(day, f"hard {day}") for day in (1, 3) for _ in range(3)),
    ]
    rows.sort(key=lambda row: row.when)
    weak, _ = told(rows)
    topics = {one.skill: "hazards" if one.skill[0] in "hk" else one.skill for one in weak}
    skills = {one.skill: replace(skill_row(one), topic=topics[one.skill]) for one in weak}
    assert [item.skill for item in next_lesson(weak, skills, rows, [], NOW)] == found


def test_what_was_put_right_since_is_no_item() -> None:
    early = [*right_on(range(-20, -14), "a", "b"), *(missed(day, "w") for day in range(-20, -16))]
    rows = [*early, *(answer(day, "w") for day in (10, 12, 14))]
    assert told(sorted(rows, key=lambda row: row.when))[1] == []
    rows[-1] = missed(14, "w")
    assert [item.skill for item in told(sorted(rows, key=lambda row: row.when))[1]] == ["w"]


def test_more_skills_looked_at_ask_for_more_misses() -> None:
    def plain(others: int) -> bool:
        names = [f"s{number}" for number in range(others)]
        rows = [
            *right_on(range(4), *names),
            *(missed(4, name) for name in names[: others // 4]),
            *(missed(day, "w") for day in (1, 3)),
            *(answer(day, "w") for day in (0, 2)),
        ]
        _, lesson = told(sorted(rows, key=lambda row: row.when))
        return any(item.skill == "w" and item.plain for item in lesson)

    assert not plain(40)


def test_a_topic_forgotten_lately_is_one_thing_and_says_since_when() -> None:
    steady = [f"s{number}" for number in range(9)]
    hazards = ("h0", "h1", "h2")
    rows = [
        *right_on(range(0, 21, 4), *steady),
        *right_on(range(0, 12, 3), *hazards),
        *(
            missed(day, skill)
            for day, skill in zip((15, 16, 17, 18, 19), hazards * 2, strict=False)
        ),
    ]
    rows.sort(key=lambda row: row.when)
    weak, _ = told(rows)
    topics = {one.skill: "hazards" if one.skill[0] == "h" else one.skill for one in weak}
    skills = {one.skill: replace(skill_row(one), topic=topics[one.skill]) for one in weak}
    (item,) = next_lesson(weak, skills, rows, [], NOW)
    assert (item.name, item.why, item.skills) == ("hazards", "forgotten", hazards)
    assert item.plain
    assert (item.trend.marks, item.trend.of) == (0, 5)
    assert (item.trend.before_marks, item.trend.before_of) == (12, 12)


def test_a_topic_that_may_have_been_forgotten_stands_before_all_else_with_a_perhaps() -> None:
    steady = [f"s{number}" for number in range(25)]
    hazards = ("h0", "h1")
    rows = [
        *right_on(range(0, 21, 4), *steady),
        *right_on(range(0, 12, 3), *hazards),
        *(missed(day, skill) for day, skill in ((16, "h0"), (18, "h1"), (19, "h0"))),
        answer(17, "h1"),
        *(missed(day, "s0") for day in (2, 6)),
    ]
    rows.sort(key=lambda row: row.when)
    weak, _ = told(rows)
    topics = {one.skill: "hazards" if one.skill[0] == "h" else one.skill for one in weak}
    skills = {one.skill: replace(skill_row(one), topic=topics[one.skill]) for one in weak}
    first, *others = next_lesson(weak, skills, rows, [], NOW)
    assert (first.name, first.why, first.plain) == ("hazards", "forgotten", False)
    assert not {item.skill for item in others} & {"h0", "h1"}


def test_the_number_of_skills_makes_a_topic_forgotten_lately_no_less_plain() -> None:
    steady = [f"s{number}" for number in range(25)]
    hazards = ("h0", "h1")
    rows = [
        *right_on(range(0, 21, 4), *steady),
        *right_on(range(0, 12, 3), *hazards),
        *(missed(day, skill) for day, skill in ((16, "h0"), (18, "h1"))),
    ]
    rows.sort(key=lambda row: row.when)
    weak, _ = told(rows)
    skills = {one.skill: replace(skill_row(one), topic=one.skill[0]) for one in weak}
    (item,) = next_lesson(weak, skills, rows, [], NOW)
    assert (item.name, item.why, item.plain) == ("h", "forgotten", True)


def test_a_mistake_made_again_and_again_is_plain_and_one_made_twice_is_not() -> None:
    others = frozenset(f"mistake {number}" for number in range(9))
    could = frozenset({WATER, "inverted", *others})
    rows = [
        *(answer(day, "mass", could=could) for day in range(12)),
        *(answer(day, "mass", "inverted", could=could) for day in (3, 9)),
        *(answer(day, "yield", WATER, could=frozenset({WATER})) for day in (3, 9)),
    ]
    found = {one.mistake: (one.told, one.plain) for one in common_mistakes(rows)}
    assert found == {"inverted": (True, False), WATER: (True, False)}
    rows += [answer(day, "yield", WATER, could=frozenset({WATER})) for day in (10, 11, 12, 13)]
    assert {one.mistake: one.plain for one in common_mistakes(rows)}[WATER]


def test_a_second_mistake_in_a_skill_that_is_an_item_is_no_item_of_its_own() -> None:
    could = frozenset({WATER, "inverted"})
    rows = [
        *right_on(range(9), "a", "b", "c"),
        *(answer(day, "mass", WATER, could=could) for day in range(5)),
        *(answer(day, "mass", "inverted", could=could) for day in (5, 7, 8)),
    ]
    _, lesson = told(sorted(rows, key=lambda row: row.when))
    assert [(item.skill, item.mistake) for item in lesson] == [("mass", WATER)]
