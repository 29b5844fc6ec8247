"""What `drill bank check` tells an author of the lines of a written scheme, with their places."""

from __future__ import annotations

import json

import pytest

from drill.checking import fit
from tests.checking.proving import bank, problems

TEXT = """\
format = 1
title = "Why in excess"
skills = ["salts.excess"]
command_word = "explain"
course = ["combined foundation"]
safety = "Warm acid: wear eye protection."
[[part]]
kind = "written"
ask = "Explain why the solid is added in excess."
model_answer = "All the acid is used up."
[[part.point]]
id = "used"
says = "all the acid reacts"
accept = [
    ["acid ~4 used|gone"],
]
"""
PLACE = 15
SAMPLES = [("all the acid is used", 1)] * 20 + [("it is faster", 0)] * 18


def told(folder, line: str, samples=()) -> list[str]:
    text = TEXT.replace('["acid ~4 used|gone"]', line)
    path = bank(folder, question=text) / "tests" / "question.answers.jsonl"
    rows = [{"part": "a", "answer": one, "points": {"used": given}} for one, given in samples]
    path.write_text("".join(json.dumps(row) + "\n" for row in rows), "utf-8")
    return [one for one in problems(folder, text) if "unproven" not in one]


def test_a_sound_line_is_not_spoken_of(tmp_path):
    assert told(tmp_path, '["acid ~4 used|gone"]', SAMPLES) == []


@pytest.mark.parametrize(
    ("line", "says"),
    [('["acid ~4 used|gone"], ["=gone|evaporat*"]', "plain star"),
     ('["acid ~4 used|gone"], ["not acid"]', "nothing but not"),
     ('["acid ~4 used|gone"], ["acid ~"]', "begins or ends with a gap"),
     ('["acid ~4 used|gone"], ["used-upp"]', "hyphen never stands"),
     ('["acid ~4 used|gone"], ["a b c d e f g h i j k l m"]', "more than 12"),
     ('["acid ~4 used|gone"], { all = ["acid all gone", "used"], window = 2 }', "holds no 4 words"),
     ('["acid ~4 used|gone"], ["acid | base gone"]', "space beside |"),
     ('["acid ~4 used|gone"], ["excess"]', "the question, typed in part a, earns"),
     ('["acid ~4 used|gone"], ["eye ~ protection"]', "the safety line, typed in part a, earns"),
     ('["acid ~4 used|gone"], ["sorry"]', "this, typed in part a, earns")],
)  # fmt: skip
def test_a_line_that_cannot_be_meant_is_told_with_its_place(tmp_path, line, says):
    found = [one for one in told(tmp_path, line) if says in one]
    assert found
    assert found[0].startswith(f"{PLACE}:")


@pytest.mark.parametrize(
    ("line", "says"),
    [('["acid ~4 used|gone"], ["neutral"]', "no right sample matches line 15"),
     ('["acid ~4 used|gone"], ["faster"]', "more wrong samples than right"),
     ('["used", "acid"]', 'Write orders = ["2-1"]'),
     ('["acid", "used"]', "Write ordered = true"),
     ('{ all = ["acid ~4 used"], polarity = "any" }', "needs polarity any in line 15")],
)  # fmt: skip
def test_samples_tell_what_a_line_is_worth(tmp_path, line, says):
    assert any(says in one for one in told(tmp_path, line, SAMPLES))


def test_lists_that_are_nearly_the_same_are_told(tmp_path):
    lines = '["acid"], ["base"], ["salt"]'
    other = '[[part.point]]\nid = "two"\nsays = "two"\naccept = [["acid"], ["base"], ["water"]]\n'
    text = TEXT.replace('["acid ~4 used|gone"]', lines) + other
    assert any("nearly the same lines" in one for one in problems(tmp_path, text))


def test_what_is_learned_lies_beside_the_questions_and_travels_with_the_part(tmp_path):
    told(tmp_path, '["acid ~4 used|gone"]', SAMPLES)
    path = tmp_path / "tests" / "question.toml"
    fit([path], tmp_path)
    from drill.bank import read_template

    learned = read_template(path, tmp_path).parts[0].learned
    assert learned.samples == 38
    assert learned.pairs is not None
    assert learned.leanings["used"].adds["acid"] > 0


def test_a_school_brings_its_own_words(tmp_path):
    school = tmp_path / "ours"
    shelf = bank(tmp_path / "bank")
    text = TEXT.replace('["acid ~4 used|gone"]', '["acid", "our-gone"]')
    path = bank(school, question=text) / "tests" / "question.toml"
    (school / "lexicon.toml").write_text('[our-gone]\nwords = ["vamoosed"]\n', "utf-8")
    from drill.bank import read_template
    from drill.generate import generate
    from drill.marking import mark

    part = generate(read_template(path, shelf), 0).parts[0]
    assert mark(part, "the acid vamoosed").marks == 1


TWIN_SAMPLES = [("the acid is used by the oxide", 1), ("all the acid is used", 1)] * 10 + SAMPLES[
    20:
]


@pytest.mark.parametrize(
    ("line", "samples", "says"),
    [
        ('["used"]', TWIN_SAMPLES, "samples turned round still earn"),
        ('["used"]', SAMPLES, "no thing is named"),
        (
            '["acid ~4 used"], ["acid ~4 gone"]',
            [*SAMPLES, ("the acid is gone", 1)],
            "a single right sample",
        ),
    ],
)
def test_lines_that_listen_for_words_only_are_told(tmp_path, line, samples, says):
    assert any(says in one for one in told(tmp_path, line, samples))


def test_a_reject_line_that_meets_the_model_answer_is_told(tmp_path):
    line = '["acid ~4 used|gone"]\n]\nreject = [\n    ["used up"]'
    assert any("accepted and rejected" in one for one in told(tmp_path, line))
