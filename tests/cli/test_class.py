"""A class from handout to report: pupils on machines of their own, an appeal that comes back."""

from __future__ import annotations

import json
from dataclasses import replace
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
    before = _class_marks()
    settle = ("appeals", "settle", first["id"], "--points", points, "--reply")
    assert "at most 400 characters; this one has 401" in str(drill(*settle, "a" * 401).exception)
    assert _class_marks() == before
    settled = drill(*settle, "A fair point.")
    assert settled.exit_code == 0
    assert _class_marks() == before + first["of"]  # at once, not with the next hand-in
    left = json.loads(drill("appeals", "--json").output)
    assert first["id"] not in [row["id"] for row in left]
    assert list((machines / "teacher" / "settled").rglob("*.jsonl"))
    _handout(machines)
    for code in ("k1", "k2", "k3"):
        _as(code, machines, monkeypatch)
        told = drill("sit", str(machines / "ours.handout"), *AT, typed=["stop"]).output
        told = " ".join(told.split())
        full = f"{first['of']} of {first['of']}, before 0"
        says = (" ".join(first["ask"].split()), "you typed 0", full,
                "teacher A fair point.", "Your teacher has settled 1 mark:")  # fmt: skip
        for one in says:
            assert (one in told) == (code == first["learner"]), one
        again = drill("sit", str(machines / "ours.handout"), *AT, typed=["stop"]).output
        assert "settled" not in again
    _as(first["learner"], machines, monkeypatch)
    out = machines / "in" / f"{first['learner']}.handin"
    drill("data", "export", "--out", str(out), *AT)
    _as("teacher", machines, monkeypatch)
    assert (
        f"Updated (1): {first['learner']}" in drill("class", "collect", str(machines / "in")).output
    )


def test_a_pupil_of_the_class_is_known_to_the_tutors_report(
    machines: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    _contested(machines, monkeypatch, ("k1", "0"), ("k2", "0"))
    (of_class,) = json.loads(drill("weak", "K1", "--json", *AT).output)
    (of_file,) = json.loads(drill("weak", str(machines / "in" / "k1.handin"), "--json", *AT).output)
    _as("k1", machines, monkeypatch)
    (at_home,) = json.loads(drill("weak", "--json", *AT).output)
    for name in ("learner", "deck", "answers", "marks", "of", "met", "mistakes", "ask"):
        assert of_class[name] == at_home[name], name
        assert of_file[name] == at_home[name], name
    _as("teacher", machines, monkeypatch)
    assert drill("weak", "k9", *AT).exit_code == 1


def test_names_are_the_teachers_list_s_and_go_with_it(
    machines: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    _contested(machines, monkeypatch, ("k1", "0"))
    listed = machines / "list.csv"
    listed.write_text("code,name\nk1,Mina Ode\nk2,Joe Bell\n", encoding="utf-8")
    collected = drill("class", "collect", str(machines / "in"), "--list", str(listed)).output
    assert "Unchanged (1): k1 Mina Ode" in collected
    assert "Nothing handed in: k2 Joe Bell" in drill("class", "report", *AT).output
    assert "learner     k1 Mina Ode" in drill("appeals", typed=["stop"]).output
    assert drill("weak", "k1", *AT).output.startswith("k1 Mina Ode, 1 Mar")
    listed.rename(machines / "elsewhere.csv")
    for command in (("class", "report", *AT), ("class", "collect", str(machines / "in"))):
        said = " ".join(drill(*command).output.split())
        assert "list.csv is not where it was" in said
        assert "Ode" not in said
    refused = drill("class", "erase", "k1", "--yes")
    assert "is not where it was, and erasing goes by it" in str(refused.exception)


def test_a_sitting_from_a_handout_ends_with_how_to_hand_in(
    machines: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = _handout(machines)
    _as("k1", machines, monkeypatch)
    said = drill("sit", str(made), "--learner", "k1", *AT, typed=["", "pass", "stop", "stop"])
    assert "drill data export --learner k1 --out k1.handin" in said.output
    other = drill("sit", "first-steps", "--learner", "k1", *AT, typed=["pass", "stop", "stop"])
    assert ".handin" not in other.output


def _class_marks() -> int:
    from drill.app.classes.class_room import class_named

    return sum(one.sums.marks for one in class_named("").pupils())


def test_a_pupil_who_contests_a_settled_mark_is_heard_again(
    machines: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from drill.exchange.hand_in import packed

    _contested(machines, monkeypatch, ("k1", "0"))
    (first,) = (one for one in json.loads(drill("appeals", "--json").output) if one["reason"])
    points = ",".join(f"{point['id']}=0" for point in first["points"])
    drill("appeals", "settle", first["id"], "--points", points)
    assert not [one for one in json.loads(drill("appeals", "--json").output) if one["reason"]]
    file = machines / "in" / "k1.handin"
    one = unpacked(file.read_bytes())
    rows = tuple(
        row._replace(judge="teacher", appeal="still right") if row.appeal else row
        for row in one.rows
    )
    file.write_bytes(packed(replace(one, rows=rows, made=one.made + 1)))
    drill("class", "collect", str(machines / "in"))
    (again,) = (one for one in json.loads(drill("appeals", "--json").output) if one["reason"])
    assert again["reason"] == "still right"
    full = ",".join(f"{point['id']}={point['of']}" for point in first["points"])
    drill("appeals", "settle", again["id"], "--points", full)
    assert not [one for one in json.loads(drill("appeals", "--json").output) if one["reason"]]


def _contested(machines: Path, monkeypatch: pytest.MonkeyPatch, *typed: tuple[str, str]) -> None:
    _handout(machines)
    for code, answer in typed:
        _work(code, machines, monkeypatch, answer, "appeal", "right", "1", "2")
    _as("teacher", machines, monkeypatch)
    drill("class", "collect", str(machines / "in"))


def test_equal_answers_are_settled_alike_when_the_teacher_says_so(
    machines: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    _contested(machines, monkeypatch, ("k1", "0"), ("k2", "0"), ("k3", "0"))
    # the same text and the same numbers: as if they had been asked with one seed
    from drill.exchange.hand_in import packed

    for code in ("k1", "k2"):
        file = machines / "in" / f"{code}.handin"
        one = unpacked(file.read_bytes())
        rows = tuple(row._replace(seed=7) for row in one.rows)
        file.write_bytes(packed(replace(one, rows=rows)))
    drill("class", "erase", "--all", "--yes")
    drill("class", "collect", str(machines / "in"))
    rows = json.loads(drill("appeals", "--json").output)
    first = next(row for row in rows if row["learner"] == "k1" and row["why"] == "contested")
    points = ",".join(f"{point['id']}=0" for point in first["points"])
    said = drill("appeals", "settle", first["id"], "--points", points, "--alike").output
    assert "1 equal answer settled alike." in said
    left = [row for row in json.loads(drill("appeals", "--json").output)
            if row["why"] == "contested"]  # fmt: skip
    assert [row["learner"] for row in left] == ["k3"]


def test_the_conversation_asks_whether_equal_answers_get_the_same(
    machines: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from drill.exchange.hand_in import packed

    _contested(machines, monkeypatch, ("k1", "0"), ("k2", "0"))
    for file in sorted((machines / "in").iterdir()):
        one = unpacked(file.read_bytes())
        rows = tuple(row._replace(seed=7) for row in one.rows if row.appeal)
        file.write_bytes(packed(replace(one, rows=rows)))
    drill("class", "erase", "--all", "--yes")
    drill("class", "collect", str(machines / "in"))
    (first, _) = json.loads(drill("appeals", "--json").output)
    earned = ["dunno", *["yes"] * len(first["points"])]
    said = drill("appeals", typed=[*earned, "x" * 900, "", "maybe", "yes"]).output
    assert "at most 400 characters; this one has 900" in " ".join(said.split())
    assert "1 equal answer: the same marks?" in said
    assert said.count("Type yes or no.") == 2
    assert "drill deck handout" in said
    assert "2 settled, 0 still waiting." in said
    assert json.loads(drill("appeals", "--json").output) == []


def test_erasing_a_pupil_takes_their_words_out_of_the_samples(
    machines: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    _contested(machines, monkeypatch, ("k1", "123.456 g"))
    (row, *_) = json.loads(drill("appeals", "--json").output)
    points = ",".join(f"{point['id']}=0" for point in row["points"])
    drill("appeals", "settle", row["id"], "--points", points)
    home = machines / "teacher"
    assert any("123.456" in path.read_text("utf-8") for path in home.rglob("*.answers.jsonl"))
    drill("class", "erase", "k1", "--yes")
    assert not any("123.456" in path.read_text("utf-8") for path in home.rglob("*.answers.jsonl"))
    assert not any(b"k1" in path.read_bytes() for path in home.rglob("classes/*/*.handin"))


def test_drill_data_says_what_is_stored(machines: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    _contested(machines, monkeypatch, ("k1", "0"))
    told = drill("data").output
    assert "handed in by 1 pupil's machine" in told
    assert "Nothing is sent anywhere." in told
    assert max(map(len, told.partition("Of everybody")[2].splitlines())) <= 80
    _as("k1", machines, monkeypatch)
    assert "k1: 1 question since 2027-03-01" in drill("data").output
