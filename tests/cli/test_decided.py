"""Points the learner decided are counted apart on every screen and in every file."""

from __future__ import annotations

import csv
import json
from pathlib import Path

import pytest

from drill.exchange.spreadsheet import COLUMNS
from tests.common.desk import drill
from tests.common.history import only_question
from tests.common.shipped import shipped_bank

AT = ("--at", "2027-01-12T17:00")
KEYWORDS = "acid used up filter excess pure"


@pytest.fixture
def deck(tmp_path: Path) -> str:
    return only_question(tmp_path, "salts/why-excess")


def sit(deck: str, *typed: str) -> str:
    screen = drill("sit", deck, "--seed", "5", "--questions", "1", *AT, typed=["ada", *typed])
    return " ".join(screen.output.split())


def exported(tmp_path: Path) -> list[dict[str, str]]:
    out = tmp_path / "out.csv"
    drill("data", "export", "--format", "csv", "--out", str(out))
    with out.open(encoding="utf-8-sig", newline="") as file:
        return list(csv.DictReader(file))


def test_decided_points_are_in_no_other_figure(deck: str, tmp_path: Path) -> None:
    screen = sit(deck, KEYWORDS, "yes", "no", "")
    assert "Noted: 1 of 2, decided by you and counted apart." in screen
    assert "1 question, 0 of 0 marks" in screen
    assert "Besides, decided by you and counted apart: 1 of 2 marks." in screen
    (report,) = json.loads(drill("weak", "--json", *AT).output)
    (row,) = [row for row in report["skills"] if row["own_of"]]
    figures = [row[name] for name in ("marks", "of", "attempts", "own_marks", "own_of")]
    assert figures == [0, 0, 0, 1, 2]
    assert "counted in no figure above: 1 of 2" in " ".join(
        drill("weak", "--all", *AT).output.split()
    )
    (line,) = exported(tmp_path)
    assert [line[name] for name in ("marks", "of", "own_marks", "own_of")] == ["0", "0", "1", "2"]
    assert list(line) == list(COLUMNS)


def test_what_is_left_undecided_keeps_the_markers_guess(deck: str) -> None:
    screen = sit(deck, KEYWORDS, "", "", "")
    assert "1 question, 0 of 2 marks" in screen
    assert "counted apart" not in screen


def test_a_mark_half_decided_is_split(deck: str) -> None:
    screen = sit(deck, KEYWORDS, "yes", "", "")
    assert "Noted: 1 of 1, decided by you and counted apart." in screen
    assert "1 question, 0 of 1 mark," in screen
    assert "Besides, decided by you and counted apart: 1 of 1 mark." in screen


def test_a_passed_extended_answer_is_apart_too(tmp_path: Path, deck: str) -> None:
    text = Path(deck).read_text("utf-8").replace("salts.excess", "salts.method-order")
    left_out = [row["template"] for row in json.loads(drill("bank", "list", "--json").output)
                if row["skills"][:1] == ["salts.method-order"]
                and row["template"] != "salts/whole-method"]  # fmt: skip
    lines = [line for line in text.splitlines() if not line.startswith("without")]
    path = tmp_path / "method.toml"
    path.write_text("\n".join([*lines, f"without = {json.dumps(left_out)}"]), "utf-8")
    screen = sit(str(path), "pass", "")
    assert "1 question, 0 of 0 marks" in screen


def test_an_exported_row_names_the_skill_of_its_part(home: Path, tmp_path: Path) -> None:

    template = "measure/smallest-division"
    entry = next(one for one in shipped_bank().entries() if one.id == template)
    assert len(set(entry.part_skills)) > 1, "a template whose parts examine two skills"
    deck = only_question(home, template)
    drill("sit", deck, *AT, "--questions", "1", typed=["ada", *["pass"] * 4, *[""] * 4])
    told = {row["part"]: row["skill"] for row in exported(tmp_path)}
    assert told == dict(zip("abcdef", entry.part_skills, strict=False))
