"""Written answers that two readings mark otherwise are told, and only those."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from drill.bank import answers_path
from drill.checking.doubted import doubted
from drill.generate import generate
from drill.marking import mark
from drill.model import Part, Question
from tests.common.shipped import shipped_bank

BANK = shipped_bank()


def part_of(name: str) -> Part:
    template = BANK.template(name)
    assert not isinstance(template, tuple)
    question = generate(template, 0)
    assert isinstance(question, Question)
    return next(part for part in question.parts if part.kind == "written")


@pytest.fixture(scope="module")
def part() -> Part:
    return part_of("salts/why-excess")


def test_an_answer_both_readings_agree_on_is_not_doubted(part: Part) -> None:
    for typed in ("so that all of the acid is used up", "because it looks nice"):
        given = {point.id: point.marks for point in mark(part, typed).points}
        assert doubted(part, typed, given) == ()


def samples() -> list[str]:
    entry = BANK.entry("salts/why-excess")
    assert entry is not None
    lines = answers_path(Path(entry.path)).read_text("utf-8").splitlines()
    return [json.loads(line)["answer"] for line in lines if line.strip()]


def test_points_turned_round_are_often_doubted_and_the_line_that_decided_is_named(
    part: Part,
) -> None:
    turned = found = named = 0
    for typed in samples():
        given = {point.id: point.marks for point in mark(part, typed).points}
        for right in (id_ for id_, marks in given.items() if marks):
            turned += 1
            for doubt in doubted(part, typed, {**given, right: 0}):
                found += doubt.point == right
                named += doubt.point == right and any("accepts" in one for one in doubt.lines)
    assert turned > 10
    assert found > turned / 3
    assert named == found


def test_a_part_without_a_second_reading_is_never_doubted() -> None:
    template = BANK.template("salts/percentage-yield")
    assert not isinstance(template, tuple)
    question = generate(template, 0)
    assert isinstance(question, Question)
    assert doubted(question.parts[0], "1", {"value": 0}) == ()


def test_few_of_the_sample_answers_are_doubted(part: Part) -> None:
    told = [
        typed
        for typed in samples()
        if doubted(part, typed, {point.id: point.marks for point in mark(part, typed).points})
    ]
    assert len(told) < len(samples()) / 3
