"""A class from handout to report: pupils on machines of their own, an appeal that comes back."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from drill.app.context import open_store
from drill.exchange.hand_in import unpacked
from tests.cli.test_handout import _as, _handout, machines
from tests.common.desk import drill

AT = ("--at", "2027-03-01T17:00")

__all__ = ["machines"]


def _work(code: str, machines: Path, monkeypatch: pytest.MonkeyPatch, *typed: str) -> Path:
    """A pupil sits the handout and hands in."""
    _as(code, machines, monkeypatch)
    file = str(machines / "ours.handout")
    drill("sit", file, "--learner", code, "--questions", "1", *AT, typed=["", *typed, "stop"])
    out = machines / "in" / f"{code}.handin"
    out.parent.mkdir(exist_ok=True)
    assert drill("data", "export", "--out", str(out), *AT).exit_code == 0
    return out


def test_a_hand_in_holds_the_answers_and_no_place(
    machines: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    _handout(machines)
    file = _work("k1", machines, monkeypatch, "0", "appeal", "It is right.", "1", "2")
    found = unpacked(file.read_bytes())
    assert (found.code, found.deck, found.minutes) == ("k1", "ours", 12)
    assert str(machines) not in repr(found)
    assert found.rows[0].text == "0"
    assert found.rows[0].appeal == "It is right."
    with open_store(reading=True) as store:
        (who,) = store.learners()
        assert {mark.answer.id for mark in store.marked(who)} == {row.answer for row in found.rows}
    assert file.stat().st_mode & 0o077 == 0


def test_three_pupils_from_handout_to_a_settled_appeal(
    machines: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    _handout(machines)
    for code in ("k1", "k2", "k3"):
        _work(code, machines, monkeypatch, "0", "appeal", f"{code} says so.", "1", "2")
    _as("teacher", machines, monkeypatch)
    said = drill("class", "collect", str(machines / "in")).output
    assert "New (3): k1 k2 k3" in said
    report = " ".join(drill("class", "report", *AT).output.split())
    assert "3 practised" in report
    assert "marks contested or not sure: drill appeals" in report
    rows = json.loads(drill("appeals", "--json").output)
    contested = [row for row in rows if row["why"] == "contested"]
    assert {row["learner"] for row in contested} == {"k1", "k2", "k3"}
    first = contested[0]
    assert first["ask"]
    assert first["answer"] == "0"
    points = ",".join(f"{point['id']}={point['of']}" for point in first["points"])
    assert drill("appeals", "settle", first["id"], "--points", points).exit_code == 0
    left = json.loads(drill("appeals", "--json").output)
    assert first["id"] not in [row["id"] for row in left]
    assert list((machines / "teacher" / "settled").rglob("*.jsonl"))
    _handout(machines)
    for code in ("k1", "k2", "k3"):
        _as(code, machines, monkeypatch)
        told = drill("sit", str(machines / "ours.handout"), *AT, typed=["stop"]).output
        assert ("Your teacher has settled 1 mark." in told) == (code == first["learner"])
    _as(first["learner"], machines, monkeypatch)
    out = machines / "in" / f"{first['learner']}.handin"
    drill("data", "export", "--out", str(out), *AT)
    _as("teacher", machines, monkeypatch)
    assert (
        f"Updated (1): {first['learner']}" in drill("class", "collect", str(machines / "in")).output
    )
