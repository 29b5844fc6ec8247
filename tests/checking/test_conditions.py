"""A marking point with a condition: asked for in its reading only, and told when it never is."""

from __future__ import annotations

import pytest

from drill.bank import read_template
from drill.generate import generate
from drill.marking import mark
from drill.model import Question, Template
from tests.checking.proving import bank, problems

TEXT = """\
format = 1
title = "Why the trend"
skills = ["rates.method"]
command_word = "explain"
course = ["combined foundation"]
[draw]
way = { one_of = ["hotter", "colder"] }
[work]
speed = { is = 'if(way == "hotter", "faster", "slower")' }
[[part]]
kind = "written"
ask = "The acid is made {way}. What happens to the rate, and why?"
max = 2
model_answer = "It gets {speed} because the particles move {speed}."
[[part.point]]
id = "up"
says = "it gets faster"
accept = [["=gets ~ faster"]]
when = 'way == "hotter"'
[[part.point]]
id = "down"
says = "it gets slower"
accept = [["=gets ~ slower"]]
when = 'way != "hotter"'
[[part.point]]
id = "why"
says = "the particles move {speed}"
accept = [["particles", "{speed}"]]
needs = ["up", "down"]
"""


@pytest.fixture
def template(tmp_path) -> Template:
    path = bank(tmp_path, question=TEXT) / "tests" / "question.toml"
    made = read_template(path, tmp_path)
    assert isinstance(made, Template), made
    return made


def both(template: Template) -> dict[bool, Question]:
    made = [generate(template, seed) for seed in range(12)]
    return {"hotter" in one.parts[0].ask: one for one in made if isinstance(one, Question)}


def test_each_reading_asks_for_its_own_points(template):
    readings = both(template)
    ids = {hot: [point.id for point in one.parts[0].points] for hot, one in readings.items()}
    assert ids == {True: ["up", "why"], False: ["down", "why"]}
    for one in readings.values():
        part = one.parts[0]
        assert part.marks == 2
        assert mark(part, part.model_answer).marks == 2
    assert mark(readings[False].parts[0], readings[True].parts[0].model_answer).marks == 0


def test_a_part_in_two_readings_passes(tmp_path):
    assert [one for one in problems(tmp_path, TEXT) if "condition" in one or "earns" in one] == []


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("""when = 'way != "hotter"'""", 'when = "1 > 2"', '"down" is never asked for'),
        ('accept = [["particles", "{speed}"]]', 'accept = [["particles"]]\nwhen = "1 < 2"',
         '"why" is always asked for'),
        ("max = 2\n", "", "Write max"),
        ("""when = 'way == "hotter"'""", """when = 'wya == "hotter"'""",
         'no draw or step is called "wya"'),
    ],
)  # fmt: skip
def test_a_condition_that_does_not_choose_is_told(tmp_path, old, new, told):
    assert any(told in one for one in problems(tmp_path, TEXT.replace(old, new)))


def test_a_reading_with_too_few_marks_cannot_be_drawn(tmp_path):
    text = TEXT.replace('id = "up"\n', 'id = "up"\nmarks = 2\n').replace("max = 2", "max = 3")
    assert any("add up to 2 of 3 marks" in one for one in problems(tmp_path, text))
