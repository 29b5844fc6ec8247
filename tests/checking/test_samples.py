"""Sample answers are marked as by hand, or the file is named with its line."""

from __future__ import annotations

import json

import pytest

from drill.checking import check
from tests.checking.proving import GOOD, bank

WRITTEN = """\
format = 1
title = "Why"
skills = ["salts.excess"]
command_word = "explain"
course = ["combined foundation"]
[[part]]
kind = "written"
ask = "Why is the base in excess?"
model_answer = "So that all of the acid reacts."
[[part.point]]
id = "acid"
says = "all the acid reacts"
accept = [["all", "acid", "reacts"]]
"""

RIGHT = {"part": "a", "answer": "so that all the acid reacts", "points": {"acid": 1}}
WRONG = {"part": "a", "answer": "to go faster", "points": {"acid": 0}}
MISJUDGED = {"part": "a", "answer": "so it is all gone", "points": {"acid": 1}}


def found(folder, text: str, rows: list[object]) -> list[str]:
    """`level line: message` of the file of sample answers."""
    bank(folder, question=text)
    lines = [row if isinstance(row, str) else json.dumps(row) for row in rows]
    (folder / "tests" / "question.answers.jsonl").write_text("\n".join(lines), "utf-8")
    report = check([folder / "tests" / "question.toml"], folder, 5, 1)
    return [
        f"{one.level} {one.line}: {one.message}"
        for one in report.problems
        if one.path.endswith(".jsonl")
    ]


def test_answers_marked_as_by_hand_are_no_problem(tmp_path):
    assert found(tmp_path, WRITTEN, [RIGHT, "", WRONG]) == []


def test_a_written_answer_in_twenty_may_differ(tmp_path):
    assert found(tmp_path, WRITTEN, [MISJUDGED, *[RIGHT] * 19]) == [
        'note 1: "so it is all gone" earns 0 for "acid", by hand 1.'
    ]


def test_more_than_one_in_twenty_is_an_error(tmp_path):
    assert found(tmp_path, WRITTEN, [MISJUDGED, *[RIGHT] * 18]) == [
        'error 1: "so it is all gone" earns 0 for "acid", by hand 1.'
    ]


def test_numbers_are_marked_by_hand_at_their_seed(tmp_path):
    rows = [
        {"answer": "2.41 g", "marks": 1, "seed": 0},
        {"part": "a", "answer": "900 g", "marks": 0, "seed": 4},
    ]
    wrong = found(tmp_path, GOOD, rows)
    assert [line.partition(" earns")[0] for line in wrong] in ([], ['error 1: "2.41 g"'])


LEVELS = """\
format = 1
title = "How"
skills = ["salts.excess"]
command_word = "describe"
course = ["combined foundation"]
[[part]]
kind = "levels"
ask = "How are crystals made?"
model_answer = "Warm it, filter it, cool it and dry it."
[[part.level]]
marks = 4
says = "It works."
[[part.level]]
marks = 2
says = "It does not."
[[part.point]]
id = "filter"
says = "filters"
accept = ["filter*"]
[[part.point]]
id = "cool"
says = "cools"
accept = ["cool*"]
after = "filter"
"""


def test_a_suggestion_is_held_to_the_level_deserved(tmp_path):
    rows = [
        {"answer": "Filter it and cool it.", "marks": 3},
        {"answer": "I filter it.", "marks": 1},
        {"answer": "Cool it and then filter it.", "marks": 2},
        {"answer": "I filter it first of all.", "marks": 3},
        {"answer": "no idea", "marks": 1},
    ]
    assert found(tmp_path, LEVELS, rows) == [
        'error 4: "I filter it first of all." is suggested 2, level 1; by hand 3, 2.',
        'error 5: "no idea" is suggested 0, level 0; by hand 1, 1.',
    ]


@pytest.mark.parametrize(
    ("row", "expected"),
    [
        ("not JSON", "error 1: cannot be read as an answer."),
        ("[1, 2]", "error 1: cannot be read as an answer."),
        ({"part": "a", "answer": "x"}, "error 1: cannot be read as an answer."),
        ({"part": "a", "answer": 7, "marks": 1}, "error 1: cannot be read as an answer."),
        ({"answer": "x", "points": {"acid": "1"}}, "error 1: cannot be read as an answer."),
        ({"answer": "x", "marks": True}, "error 1: cannot be read as an answer."),
        ({"part": "b", "answer": "x", "marks": 1}, 'error 1: there is no part "b" at seed 0.'),
        (
            {"part": "a", "answer": "x", "points": {"other": 1}},
            'error 1: "x": the part has no point "other".',
        ),
        ("[" * 100_000, "error 1: cannot be read as an answer."),
    ],
)
def test_a_line_that_is_no_answer(tmp_path, row, expected):
    assert found(tmp_path, WRITTEN, [row]) == [expected]
