"""Starters that pass as they stand; files brought to today's format with their comments."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from drill.bank import new_template, read_template, upgrade
from drill.bank.authoring.upgrading import ALIASES, upgrade_text
from drill.errors import DrillError
from drill.model import Template
from drill.places import bank_dir
from tests.common.kinds import ALL_KINDS


@pytest.mark.parametrize("kind", ALL_KINDS)
def test_a_starter_loads_in_the_shipped_bank(kind: str, tmp_path: Path) -> None:
    path = tmp_path / "salts" / "starter.toml"
    path.parent.mkdir()
    path.write_text(new_template(kind), encoding="utf-8")
    template = read_template(path, bank_dir())
    assert isinstance(template, Template), template
    assert [part.kind for part in template.parts] == [kind]


def test_the_calculation_starter_is_a_chain_of_three_numbers(tmp_path: Path) -> None:
    path = tmp_path / "salts" / "starter.toml"
    path.parent.mkdir()
    path.write_text(new_template("calculation"), encoding="utf-8")
    template = read_template(path, bank_dir())
    assert isinstance(template, Template), template
    assert [part.kind for part in template.parts] == ["number"] * 3
    assert all(part.slips for part in template.parts)
    answers = [part.answer.text for part in template.parts if part.answer]
    steps = {step.name: step.is_.names for step in template.work}
    assert answers[0] in steps[answers[1]]
    assert answers[1] in steps[answers[2]]


def test_a_kind_that_is_none_names_the_nearest() -> None:
    with pytest.raises(DrillError) as caught:
        new_template("writen")
    assert str(caught.value) == 'no starter "writen". Did you mean "written"?'


OLD = """\
# Our question.
title = "T"  # shown
courses = ["combined higher"]

[[parts]]
kind = "written"
maximum = 2   # two ideas
"""


def test_an_old_file_keeps_its_comments() -> None:
    text, changes = upgrade_text(OLD, "old.toml")
    assert (
        text
        == """\
format = 1
# Our question.
title = "T"  # shown
course = ["combined higher"]

[[part]]
kind = "written"
max = 2   # two ideas
"""
    )
    assert changes == [
        "format = 1 as the first line",
        "courses is now course",
        "parts is now part",
        "maximum is now max",
    ]


def test_upgrading_twice_does_nothing(tmp_path: Path) -> None:
    path = tmp_path / "old.toml"
    path.write_text(OLD, encoding="utf-8")
    assert len(upgrade(path)) == 4
    once = path.read_bytes()
    assert upgrade(path) == []
    assert path.read_bytes() == once


def test_line_ends_and_a_good_file_stay_as_they_are(good: Path) -> None:
    text, _ = upgrade_text(OLD.replace("\n", "\r\n"), "old.toml")
    assert text.count("\r\n") == text.count("\n") == 8
    for path in good.glob("*/*.toml"):
        whole = path.read_text(encoding="utf-8-sig")
        assert upgrade_text(whole, path.name) == (whole, [])


def test_an_authors_own_names_are_not_renamed() -> None:
    text = 'format = 1\n[work]\nmaximum = { is = "2" }\n[draw]\nparts = { one_of = [1] }\n'
    assert upgrade_text(text, "x.toml") == (text, [])


def test_a_key_that_is_there_already_is_not_overwritten() -> None:
    text = 'format = 1\ncourses = ["a"]\ncourse = ["b"]\n'
    assert upgrade_text(text, "x.toml") == (text, [])


def test_no_alias_is_a_key_of_today() -> None:
    from drill.bank.schema.schema_docs import QUESTION

    names = {key.name for keys in QUESTION.values() for key in keys}
    assert not names & ALIASES.keys()
    assert set(ALIASES.values()) <= names


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("format = 2\n", ("x.toml:1: this file needs format 2; this drill reads up to 1. "
         "Install a newer drill.")),
        ("format =\n", ("x.toml:1: cannot be read as TOML: "
         "no value can be read here. "
         "Write a value behind the = sign.")),
    ],
)  # fmt: skip
def test_what_cannot_be_upgraded_is_told(text: str, message: str) -> None:
    with pytest.raises(DrillError) as caught:
        upgrade_text(text, "x.toml")
    assert str(caught.value) == message


def test_opening_a_bank_loads_nothing_heavy(good: Path) -> None:
    """What the first question does not need stays unread, however often files are added here."""
    code = (
        "import sys; from pathlib import Path; from drill.bank import Bank\n"
        f"bank = Bank.open(Path({str(good)!r})); bank.template('salts/percentage-yield')\n"
        "heavy = {'tomlkit', 'difflib', 'sympy', 'sqlite_utils', 'numpy', 'rapidfuzz',"
        " 'drill.bank.authoring.upgrading', 'drill.bank.authoring.starters',"
        " 'drill.bank.schema.schema_docs'}\n"
        "print(sorted(heavy & set(sys.modules)))"
    )
    out = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, timeout=60
    )
    assert out.stdout.strip() == "[]"
