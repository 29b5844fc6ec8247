"""A deck becomes skills; nothing is asked before its own topic was taught."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

from drill.bank import read_deck
from drill.model import Deck
from drill.sitting import exam_of, skill_plans
from tests.common.shipped import shipped_bank

UTC = UTC
BANK = shipped_bank()


def deck(tmp_path: Path, text: str) -> Deck:
    path = tmp_path / "mine.toml"
    head = 'format = 1\nid = "mine"\ntitle = "T"\ncourse = "separate higher"\n'
    path.write_text(head + text, encoding="utf-8")
    found = read_deck(path)
    assert isinstance(found, Deck), found
    return found


TWO_STAGES = """
[[paper]]
id = "first"
exam = 2027-05-18
[[topic]]
practical = "salts"
taught = 2026-11-02
[[topic]]
practical = "measure"
taught = 2027-01-11
"""


def test_a_template_waits_for_its_own_topic(tmp_path: Path) -> None:
    early = datetime(2026, 12, 1, tzinfo=UTC)
    late = datetime(2027, 2, 1, tzinfo=UTC)
    mine = deck(tmp_path, TWO_STAGES)
    before = skill_plans(mine, BANK.entries(), UTC, early)
    assert all(
        template.startswith("salts/")
        for plan in before.values()
        if plan.taught_from is None or plan.taught_from <= early
        for template in plan.templates
    )
    after = skill_plans(mine, BANK.entries(), UTC, late)
    assert any(t.startswith("measure/") for t in after["calc.mass-by-difference"].templates)


def test_a_skill_of_an_untaught_topic_has_its_day(tmp_path: Path) -> None:
    plans = skill_plans(
        deck(tmp_path, TWO_STAGES), BANK.entries(), UTC, datetime(2026, 12, 1, tzinfo=UTC)
    )
    assert plans["measure.resolution"].taught_from == datetime(2027, 1, 11, tzinfo=UTC)


def test_the_last_exam_counts_for_the_whole_and_its_own_for_a_skill(tmp_path: Path) -> None:
    text = '[[paper]]\nid = "a"\nexam = 2027-05-18\n[[paper]]\nid = "b"\nexam = 2027-06-08\n'
    topics = '[[topic]]\npractical = "salts"\n[[topic]]\npractical = "safety"\npaper = "b"\n'
    mine = deck(tmp_path, text + topics)
    plans = skill_plans(mine, BANK.entries(), UTC)
    assert exam_of(mine, UTC) == datetime(2027, 6, 8, 9, tzinfo=UTC)
    assert plans["safety.disposal"].exam == datetime(2027, 6, 8, 9, tzinfo=UTC)
    assert plans["salts.naming"].exam == datetime(2027, 5, 18, 9, tzinfo=UTC)


def test_without_and_course_leave_out(tmp_path: Path) -> None:
    text = '[[topic]]\npractical = "salts"\nwithout = ["salts/why-*"]\n'
    plans = skill_plans(deck(tmp_path, text), BANK.entries(), UTC)
    asked = {template for plan in plans.values() for template in plan.templates}
    assert asked
    assert not any(template.startswith("salts/why-") for template in asked)
