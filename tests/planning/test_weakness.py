"""Weak skills: ranked by what practice does not explain, called so after two days, and why."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drill.memory import Memory
from drill.planning.weakness import WeakSkill, held_least, items, strongest, weak_skills
from drill.planning.why_weak import Answer, Word, why_weak
from tests.planning.helpers import NOW

DAY = timedelta(days=1)
Days = Sequence[tuple[float, float]]
"""(days ago, score) of each answer, oldest first."""


def ranked(skills: dict[str, Days]) -> list[WeakSkill]:
    """The rows of answers to skills, told to a memory in their order."""
    memory, told = Memory(), {skill: list[Answer]() for skill in skills}
    every = [(ago, skill, score) for skill, days in skills.items() for ago, score in days]
    for turn, (ago, skill, score) in enumerate(sorted(every, key=lambda one: -one[0])):
        when = NOW - ago * DAY
        memory.observe(skill, f"{skill}/{turn % 3}", when, score)
        told[skill].append(Answer(when, score))
    return weak_skills(memory, told, NOW)


@settings(max_examples=40, deadline=None)
@given(
    st.integers(0, 8),
    st.lists(st.sampled_from((0.0, 0.5, 1.0)), min_size=4, max_size=24),
    st.floats(0.5, 9.0),
)
def test_one_of_nine_above_none_of_one_and_three_of_three_below(
    right: int, others: list[float], ago: float
) -> None:
    nine = [(12.0 - turn, float(turn == right)) for turn in range(9)]
    rest = {f"s{n}": [(ago + n / 9, score), (ago / 3, score)] for n, score in enumerate(others)}
    skills: dict[str, Days] = {
        **rest,
        "nine": nine,
        "one": [(ago, 0.0)],
        "whole": [(9.0, 1.0), (6.0, 1.0), (ago / 2, 1.0)],
    }
    order = [row.skill for row in ranked(skills)]
    assert order.index("nine") < order.index("one") < order.index("whole")


def test_nothing_stands_out_until_it_was_missed_on_two_days() -> None:
    once: dict[str, Days] = {"a": [(1.2, 0.0), (1.1, 0.0)], "b": [(3.0, 1.0), (1.0, 1.0)]}
    assert items(ranked(once)) == []
    twice: dict[str, Days] = {"a": [(3.0, 0.0), (1.1, 0.0)], "b": [(3.0, 1.0), (1.0, 1.0)]}
    assert [row.skill for row in items(ranked(twice))] == ["a"]


def test_the_rows_say_what_was_answered() -> None:
    rows = ranked({"a": [(9.0, 0.0), (3.0, 1.0), (2.9, 0.0), (1.0, 0.5)], "b": [(2.0, 1.0)]})
    weak = rows[0]
    assert (weak.skill, weak.answers, weak.right, weak.missed) == ("a", 4, 1, 2)
    assert weak.missed_days == 2
    assert 0.0 < weak.held < 1.0


def test_what_is_held_least_and_what_is_strong_are_lists_of_their_own() -> None:
    skills: dict[str, Days] = {
        "weak": [(2.0, 0.0), (1.0, 0.0), (0.5, 0.0)],
        "old": [(90.0, 1.0), (88.0, 1.0)],
        "fresh": [(3.0, 1.0), (2.0, 1.0), (1.0, 1.0)],
    }
    rows = ranked(skills)
    assert rows[0].skill == "weak"
    assert "old" in [row.skill for row in held_least(rows, 2)]
    assert strongest(rows)[0].skill == "fresh"
    assert "weak" not in [row.skill for row in strongest(rows)]


def told(days: Days, mistakes: Sequence[str] = ()) -> list[Answer]:
    named = [*mistakes, *[""] * (len(days) - len(mistakes))]
    return [
        Answer(NOW - ago * DAY, score, mistake)
        for (ago, score), mistake in zip(days, named, strict=True)
    ]


@pytest.mark.parametrize(
    ("days", "word"),
    [
        ([(9, 1.0), (5, 1.0)], Word.NOTHING),
        ([(2, 0.0)], Word.NOTHING),
        ([(9, 0.0), (5, 0.0)], Word.NEVER_KNOWN),
        ([(9, 0.0), (5, 0.5), (1, 0.0)], Word.NEVER_KNOWN),
        ([(40, 1.0), (38, 1.0), (10, 0.0)], Word.FORGOTTEN),
        ([(40, 1.0), (12, 0.0), (11, 1.0), (1, 0.0)], Word.FORGOTTEN),
        ([(40, 1.0), (12, 0.0), (11, 1.0), (5, 1.0), (1, 0.5)], Word.COMES_AND_GOES),
        ([(9, 1.0), (8, 0.0), (7, 1.0), (6, 0.0)], Word.COMES_AND_GOES),
        ([(9, 1.0), (8, 1.0), (5, 0.0), (3, 0.0)], Word.FORGOTTEN),
        ([(9, 1.0), (8, 1.0), (3.1, 0.0), (3, 0.0)], Word.COMES_AND_GOES),
        ([(9, 1.0), (8, 1.0), (5, 0.0), (3, 0.0), (2, 1.0)], Word.COMES_AND_GOES),
        ([(9, 0.0), (8, 0.0), (7, 1.0)], Word.COMES_AND_GOES),
    ],
)
def test_the_word_for_why_comes_from_the_answers(days: Days, word: Word) -> None:
    why = why_weak(told(days))
    assert why.word is word
    assert (len(why.evidence) > 0) is (word is not Word.NOTHING)


def test_forgotten_shows_the_right_answer_and_the_miss() -> None:
    answers = told([(40, 1.0), (38, 1.0), (10, 0.0)])
    assert why_weak(answers).evidence == (answers[1], answers[2])


def test_a_mistake_made_twice_is_named_unless_most_went_wrong_otherwise() -> None:
    days: Days = [(9, 0.0), (8, 1.0), (5, 0.0), (1, 0.0)]
    why = why_weak(told(days, ["water", "", "water"]))
    assert (why.word, why.mistake, len(why.evidence)) == (Word.MISTAKE, "water", 2)
    more: Days = [(20, 0.0), (19, 0.0), (18, 0.0), *days]
    assert why_weak(told(more, ["", "", "", "water", "", "water"])).word is not Word.MISTAKE


@given(st.lists(st.tuples(st.floats(0, 90), st.floats(0, 1)), max_size=12))
def test_every_word_has_its_evidence_among_the_answers(days: list[tuple[float, float]]) -> None:
    answers = told(sorted(days, reverse=True))
    why = why_weak(answers)
    assert set(why.evidence) <= set(answers)
    assert bool(why.evidence) is (why.word is not Word.NOTHING)
