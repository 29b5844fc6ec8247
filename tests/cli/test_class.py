"""A class from handout to report: pupils on machines of their own, an appeal that comes back."""

from __future__ import annotations

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
