"""The first screen of a class report names a gap that was planted, and no gap where there is none.

Classes of other seeds than those the figure in the README of the bench is from.
Slow: pytest tests/bench/test_classes.py
"""

from __future__ import annotations

import random
from functools import cache
from pathlib import Path

import pytest

from drill.app.classes.class_report import ClassReport
from drill.bank import Bank
from tests.common.shipped import shipped_bank
from tests.lab import classes

SEEDS = range(100, 103)


@cache
def bank() -> Bank:
    return shipped_bank()


@pytest.fixture(scope="module")
def reports(tmp_path_factory: pytest.TempPathFactory) -> list[tuple[str, ClassReport]]:
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("DRILL_HOME", str(tmp_path_factory.mktemp("lab")))
        return [classes.planted(bank(), seed) for seed in SEEDS]


def test_the_planted_gap_stands_first(reports: list[tuple[str, ClassReport]]) -> None:
    first = [report.again[0].skill if report.again else "" for _, report in reports]
    right = sum(one == gap for one, (gap, _) in zip(first, reports, strict=True))
    assert right >= len(SEEDS) - 1, list(zip(first, (gap for gap, _ in reports), strict=True))


def test_few_other_skills_are_named_with_it(reports: list[tuple[str, ClassReport]]) -> None:
    assert all(len(report.again) <= 4 for _, report in reports)


def test_hardly_a_skill_is_named_where_no_gap_is_planted(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("DRILL_HOME", str(tmp_path))
    named = [len(classes.planted(bank(), seed, weak=None)[1].again) for seed in SEEDS]
    assert sum(named) <= len(SEEDS), named


def test_a_right_answer_of_a_pretend_pupil_earns_all_marks() -> None:
    from drill.marking import mark

    rng = random.Random(1)
    for several in classes.shelf(bank(), 1).values():
        typed = classes.answer(rng, several[0], 1.0, 0)
        assert mark(several[0].part, typed).marks == several[0].part.marks
