"""The shipped bank carries its pass, and the pass is true."""

from __future__ import annotations

from drill.bank import read_passed
from drill.checking import check
from drill.places import bank_dir
from tests.common.shipped import shipped_bank, template

BANK = shipped_bank()
TEMPLATES = [entry for entry in BANK.entries() if not entry.retired]


def test_the_bank_has_no_problems() -> None:
    assert [str(problem) for problem in BANK.problems()] == []


def test_every_template_has_passed_as_it_is_now() -> None:
    passed = read_passed(bank_dir())
    now = {entry.id: template(entry.id).version for entry in TEMPLATES}
    late = [id_ for id_, version in now.items() if passed.get(id_) != version]
    assert late == [], "run: drill bank check --stamp"


def test_a_sample_is_proved_again() -> None:
    sample = [bank_dir() / f"{entry.id}.toml" for entry in TEMPLATES[::14]]
    report = check(sample, bank_dir(), seeds=4, jobs=1)
    assert [str(problem) for problem in report.problems if problem.level == "error"] == []


def test_every_table_to_complete_is_proved_again() -> None:
    tables = [bank_dir() / f"{entry.id}.toml" for entry in TEMPLATES if "table" in entry.kinds]
    report = check(tables, bank_dir(), seeds=3, jobs=1)
    assert tables
    assert [str(problem) for problem in report.problems if problem.level == "error"] == []


def test_every_skill_of_the_salts_deck_has_two_templates_or_more() -> None:
    counts: dict[str, int] = {}
    for entry in TEMPLATES:
        if entry.practical in ("salts", "measure", "safety"):
            for skill in set(entry.part_skills):
                counts[skill] = counts.get(skill, 0) + 1
    assert [skill for skill, number in counts.items() if number < 2] == []
