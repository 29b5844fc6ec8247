"""A handout from a teacher's machine to pupils': what they are asked, and marks that come back."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from drill.app.context import open_store
from drill.bank import new_template
from drill.store import OpenMark
from tests.common.desk import drill

DECK = """format = 1
id = "ours"
title = "Ours"
course = "combined higher"
[[topic]]
practical = "salts"
without = ["salts/*"]
taught = 25/01/2027
[own]
templates = "questions"
"""
AT = ("--at", "2027-03-01T17:00")


@pytest.fixture
def machines(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Folders of a teacher and a pupil, and a deck with one question of the school's own."""
    own = tmp_path / "school" / "questions" / "salts"
    own.mkdir(parents=True)
    (own / "mine.toml").write_text(new_template("calculation"), encoding="utf-8")
    (own / "mine.answers.jsonl").write_text("", encoding="utf-8")
    (tmp_path / "school" / "ours.toml").write_text(DECK, encoding="utf-8")
    monkeypatch.setenv("DRILL_HOME", str(tmp_path / "teacher"))
    return tmp_path


def _as(who: str, machines: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("DRILL_HOME", str(machines / who))


def _handout(machines: Path) -> Path:
    out = machines / "ours.handout"
    made = drill("deck", "handout", str(machines / "school" / "ours.toml"), "--out", str(out))
    assert made.exit_code == 0, made.output
    assert "1 question of your own" in " ".join(made.output.split())
    return out


def test_a_pupil_is_asked_the_schools_own_questions(
    machines: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = _handout(machines)
    assert b"answers" not in file.read_bytes()
    (machines / "school" / "ours.toml").unlink()
    _as("pupil", machines, monkeypatch)
    result = drill("sit", str(file), "--learner", "k7", "--questions", "1", *AT,
                   typed=["pass", "pass", "pass", "stop"])  # fmt: skip
    assert result.exit_code == 0, result.output
    with open_store(reading=True) as store:
        (who,) = store.learners()
        assert [row.template for row in store.askings(who)] == ["own/ours/salts/mine"]
    file.unlink()  # it is kept by its content
    assert "Ours" in drill("sit", *AT, typed=["stop"]).output
    assert (machines / "pupil" / "handouts").is_dir()


def test_what_it_claims_is_proved_again(machines: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from drill.exchange.handout import packed, unpacked

    files = unpacked(_handout(machines).read_bytes())
    text = files["own/salts/mine.toml"]
    assert 'answer = "' in text
    wrong = text.replace("[[part]]", '[require]\n"never" = "1 > 2"\n[[part]]', 1)
    spoilt = machines / "spoilt.handout"
    spoilt.write_bytes(packed({**files, "own/salts/mine.toml": wrong}, ()))
    _as("pupil", machines, monkeypatch)
    result = drill("sit", str(spoilt), "--learner", "k7", *AT, typed=["x", "stop"])
    with open_store(reading=True) as store:
        assert [row for who in store.learners() for row in store.askings(who)] == []
    assert "Traceback" not in result.output


def _mark() -> OpenMark:
    with open_store(reading=True) as store:
        (who,) = store.learners()
        return next(mark for mark in store.marked(who) if mark.answer.part == "a")


def test_a_settled_mark_reaches_the_machine_that_holds_the_answer_and_no_other(
    machines: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = _handout(machines)
    _as("pupil", machines, monkeypatch)
    drill("sit", str(file), "--learner", "k7", "--questions", "1", *AT,
          typed=["", "0", "appeal", "It is right.", *["stop"] * 4])  # fmt: skip
    before = _mark()
    assert before.answer.mark is not None
    assert before.answer.mark.marks == 0
    drill("data", "export", "--learner", "k7", "--format", "xapi", "--out", str(machines / "k7"))
    _as("teacher", machines, monkeypatch)
    drill("data", "import", str(machines / "k7"))
    (row,) = json.loads(drill("appeals", "--json").output)
    points = ",".join(f"{point['id']}={point['of']}" for point in row["points"])
    assert drill("appeals", "settle", row["id"], "--points", points).exit_code == 0
    again = _handout(machines)
    _as("pupil", machines, monkeypatch)
    told = drill("sit", str(again), *AT, typed=["stop"])
    assert "Your teacher has settled 1 mark:" in told.output
    after = _mark()
    assert after.answer.verdict is not None
    assert (after.answer.verdict.settled, after.answer.verdict.mark.marks) == (True, row["of"])
    assert "settled" not in drill("sit", str(again), *AT, typed=["stop"]).output
    _as("another", machines, monkeypatch)
    other = drill("sit", str(again), "--learner", "x1", *AT, typed=["stop"])
    assert "settled" not in other.output


def test_a_deck_with_faults_is_not_handed_out(
    machines: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    deck = machines / "school" / "ours.toml"
    deck.write_text(DECK.replace('"salts"', '"slats"'), encoding="utf-8")
    out = machines / "x.handout"
    result = drill("deck", "handout", str(deck), "--out", str(out))
    assert (result.exit_code, out.exists()) == (1, False)
    assert 'Did you mean "salts"?' in str(result.exception)
