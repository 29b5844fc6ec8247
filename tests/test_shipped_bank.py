"""The shipped bank carries its pass, and the pass is true."""

from __future__ import annotations

import pytest

from drill.bank import Bank, Entry, read_passed
from drill.checking import check
from drill.model import Template
from drill.places import bank_dir

BANK = Bank.open(bank_dir())
TEMPLATES = [entry for entry in BANK.entries() if not entry.retired]


def test_the_bank_has_no_problems() -> None:
    assert [str(problem) for problem in BANK.problems()] == []


@pytest.mark.parametrize("entry", TEMPLATES, ids=lambda entry: entry.id)
def test_every_template_has_passed_as_it_is_now(entry: Entry) -> None:
    template = BANK.template(entry.id)
    assert isinstance(template, Template)
    passed = read_passed(bank_dir())
    assert passed.get(entry.id) == template.version, "run: drill bank check --stamp"


def test_a_sample_is_proved_again() -> None:
    sample = [bank_dir() / f"{entry.id}.toml" for entry in TEMPLATES[::7]]
    report = check(sample, bank_dir(), seeds=30, jobs=1)
    assert [str(problem) for problem in report.problems if problem.level == "error"] == []


def test_every_skill_of_the_salts_deck_has_two_templates_or_more() -> None:
    counts: dict[str, int] = {}
    for entry in TEMPLATES:
        if entry.practical in ("salts", "measure", "safety"):
            for skill in set(entry.part_skills):
                counts[skill] = counts.get(skill, 0) + 1
    assert [skill for skill, number in counts.items() if number < 2] == []
