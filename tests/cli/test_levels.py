"""An extended answer at the terminal: a suggestion, levels and exemplar, the learner's own mark."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from drill.places import bank_dir
from drill.store import Store
from tests.common.desk import drill
from tests.common.history import only_question

AT = ("--at", "2027-01-12T17:00")
ANSWER = "Add magnesium oxide to warm acid until some is left over. Filter. Cool it. Pat it dry."


@pytest.fixture
def deck(tmp_path: Path) -> str:
    return only_question(tmp_path, "salts/whole-method")


def in_force(home: Path):
    with Store.open(home / "drill.db") as store:
        (asking, *_) = store.askings(store.learners()[0])
        return asking.answers[0].verdict


def sit(deck: str, *typed: str) -> str:
    return drill("sit", deck, "--seed", "5", "--questions", "1", *AT,
                 typed=["ada", *typed]).output  # fmt: skip


def test_the_learner_sets_the_mark_and_it_counts_apart(home: Path, deck: str) -> None:
    screen = " ".join(sit(deck, ANSWER, "9", "no", "5", "").split())
    assert "Suggestion only, 4 of 6: you set the mark." in screen
    assert "Look for: takes away some of the water" in screen
    assert "5 to 6 The method would give pure, dry crystals" in screen
    assert "exemplar" in screen
    assert "Noted: 5 of 6, set by you and counted apart." in screen
    assert "0 of 0 marks" in screen
    assert "decided by you and counted apart: 5 of 6 marks." in screen
    verdict = in_force(home)
    assert (verdict.by, verdict.mark.marks, verdict.mark.self_marked) == ("learner", 5, True)
    (report,) = json.loads(drill("weak", "--json", *AT).output)
    (row,) = [row for row in report["skills"] if row["own_of"]]
    assert (row["of"], row["attempts"], row["own_marks"], row["own_of"]) == (0, 0, 5, 6)
    assert "counted in no figure above: 5 of 6" in " ".join(
        drill("weak", "--all", *AT).output.split()
    )
    assert json.loads(drill("appeals", "--json").output) == []


def test_the_screen_says_when_a_checklist_is_unproven(tmp_path: Path, deck: str) -> None:
    assert "has been tried on few answers" not in " ".join(sit(deck, "stop").split())
    (tmp_path / "salts").mkdir()
    mine = (bank_dir() / "salts" / "whole-method.toml").read_text("utf-8")
    (tmp_path / "salts" / "mine.toml").write_text(mine, "utf-8")
    text = Path(deck).read_text("utf-8").replace("without = [", 'without = ["salts/whole-method", ')
    own = tmp_path / "own.toml"
    own.write_text(f'{text}[own]\ntemplates = "."\n', "utf-8")
    assert "has been tried on few answers" in " ".join(sit(str(own), "stop").split())


def test_a_mark_left_open_waits_for_a_teacher(home: Path, deck: str) -> None:
    sit(deck, ANSWER, "", "")
    (row,) = json.loads(drill("appeals", "--json").output)
    assert (row["why"], row["points"][0]["id"], row["of"]) == ("not sure", "level", 6)
    result = drill("appeals", "settle", row["id"], "--points", "level=4", *AT)
    assert result.output.endswith("4 of 6, by teacher.\n")
    verdict = in_force(home)
    assert (verdict.by, verdict.mark.marks, verdict.mark.self_marked) == ("teacher", 4, False)
