"""The screens of `drill bank` fit eighty columns and say what an author looks for."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from drill.app.bank_check import template_files
from drill.places import bank_dir
from tests.common.desk import drill

SHOWN = [
    ("bank", "list"),
    ("bank", "list", "titration"),
    ("bank", "cover"),
    ("bank", "show", "salts/percentage-yield", "--seed", "7"),
    ("bank", "show", "salts/why-excess"),
    ("bank", "show", "titration/concordant-table"),
    ("bank", "show", "measure/read-burette"),
    ("bank", "show", "salts/order-crystals"),
    ("bank", "show", "salts/whole-method"),
]


@pytest.mark.parametrize("arguments", SHOWN, ids=" ".join)
def test_no_line_is_wider_than_the_screen(arguments: tuple[str, ...]) -> None:
    result = drill(*arguments)
    assert result.exit_code == 0, result.output
    assert max(map(len, result.output.splitlines())) <= 80


def test_a_list_may_be_of_a_practical_or_a_skill() -> None:
    rows = json.loads(drill("bank", "list", "titration", "--json").output)
    assert rows
    assert all("titration" in " ".join([row["template"], *row["skills"]]) for row in rows)
    whole = json.loads(drill("bank", "list", "--json").output)
    assert len(rows) < len(whole)
    nothing = drill("bank", "list", "nonsense")
    assert nothing.exit_code == 1
    assert str(nothing.exception).startswith('no template or skill holds "nonsense".')


def test_a_list_names_each_skill_once_and_every_template() -> None:
    said = drill("bank", "list").output
    whole = json.loads(drill("bank", "list", "--json").output)
    assert all(f"  {row['template']} " in said for row in whole)
    assert said.count("calc.percentage-yield: percentage yield") == 1


def test_wrong_routes_of_cells_and_what_they_earn_are_shown() -> None:
    said = drill("bank", "show", "titration/concordant-table").output
    assert "slip        mean titre = " in said
    assert "(earns 1)" in said
    assert "(earns 0)" not in said


def test_only_the_first_ways_of_earning_a_point_are_shown() -> None:
    said = drill("bank", "show", "salts/why-excess").output
    assert "more ways in the file" in said
    assert said.count("\n") < 90


def test_a_folder_without_templates_is_told(tmp_path: Path) -> None:
    result = drill("bank", "check", str(tmp_path))
    assert result.exit_code == 1
    assert "holds no template" in str(result.exception)


def test_a_check_of_the_whole_folder_passes_over_what_is_no_template():
    folder = bank_dir()
    files = template_files([str(folder)], folder)
    assert files == template_files([], folder)
    assert files
