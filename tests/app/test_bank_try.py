"""Answers tried on a written part: why they got their marks, and kept as samples."""

from __future__ import annotations

import json

import pytest

from drill.app.bank_try import Trial
from drill.errors import DrillError
from drill.places import bank_dir
from tests.common.shipped import shipped_bank


@pytest.fixture(scope="module")
def trial() -> Trial:
    return Trial(shipped_bank(), "salts/why-excess")


def test_each_point_tells_the_lines_that_met_the_answer(trial):
    tried = trial.answer("I don't think any acid is left. Filter the oxide off, pure salt")
    used, pure = tried.points
    assert tried.denied == "any acid is left"
    assert (used.marks, used.unsure, used.lines) == (0, True, ())
    assert pure.marks == 1
    text = (bank_dir() / "salts" / "why-excess.toml").read_text("utf-8").splitlines()
    number = int(pure.lines[0].split()[1])
    assert pure.lines[0].partition("accepts: ")[2].split(" + ")[0] in text[number - 1]


def test_the_answer_is_tried_the_wrong_way_round_too():
    trial = Trial(shipped_bank(), "chromatography/pencil-line")
    tried = trial.answer("the ink would dissolve in the solvent")
    turned = {one.answer: one for one in tried.turned}
    assert tried.marks == 2
    assert turned["the solvent would dissolve in the ink"].marks == 0
    assert trial.answer("no idea").turned == ()


def test_a_part_that_is_not_written_is_refused():
    with pytest.raises(DrillError, match="no such written part"):
        Trial(shipped_bank(), "salts/why-excess", "c")


def test_a_kept_answer_is_a_sample(trial, tmp_path, monkeypatch):
    from drill.frozen import replace

    monkeypatch.setattr(trial, "template", replace(trial.template, path=str(tmp_path / "q.toml")))
    path = trial.keep(trial.answer("all the acid is used up"), [1, 0])
    row = json.loads(path.read_text("utf-8"))
    assert row["points"] == {"acid-used-up": 1, "pure-product": 0}
    with pytest.raises(DrillError, match="Give a mark for each point"):
        trial.keep(trial.answer("x"), [2, 0])
