"""`drill results`: own readings worked up, judged, and practised on."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from drill.app.bench_kinds import bench_kinds
from drill.app.bench_results import checked, choices, worked_up
from drill.app.context import open_bank
from drill.store import Store
from tests.common.desk import drill

AT = ("--at", "2027-01-12T17:00")
CRYSTALS = {
    "route": "CuO_H2SO4", "basin": "57.23", "total": "60.10", "volume": "25", "conc": "0.8",
    "solid": "2.10",
}  # fmt: skip
GOOD = {
    "crystals": (CRYSTALS, ["2.87 g", "57.5 %"]),
    "titres": (
        {"rough": "25.40", "second": "24.55", "third": "24.85", "fourth": "24.65"},
        ["24.60 cm3"],
    ),
    "burette": (
        {
            "rough_start": "0.10",
            "rough_end": "25.50",
            "start_1": "0.00",
            "end_1": "24.55",
            "start_2": "1.25",
            "end_2": "26.10",
            "start_3": "0.5",
            "end_3": "25.15",
        },
        ["24.60 cm3"],
    ),
    "rate": (
        {"t1": "10", "v1": "20", "v2": "33", "v3": "41", "v4": "45", "v5": "45"},
        ["1.3 cm3/s"],
    ),
    "rf": ({"line": "1.5", "spot": "4.7", "front": "8.5"}, ["0.46"]),
    "energy": (
        {"volume": "25", "conc": "1.0", "start": "21.0", "top": "27.1"},
        ["6.1 °C", "1270 J"],
    ),
    "uncertainty": ({"route": "CuO_H2SO4", "basin": "50.01", "total": "53.00"}, ["0.67 %"]),
}
"""Readings of each kind, and what they come to, worked out by hand."""
BAD = [
    ("crystals", {"total": "57.00"}, "heavier empty"),
    ("crystals", {"total": "62.90"}, "More than 100 %"),
    ("crystals", {"solid": "1.20"}, "not in excess"),
    ("titres", {"second": "23.10", "third": "24.00"}, "No two of the runs agree"),
    ("burette", {"end_1": "1.00", "start_1": "25.00"}, "check which reading is which"),
    ("burette", {"end_1": "23.00", "end_2": "25.00"}, "No two of the runs agree"),
    ("rate", {"v3": "30"}, "cannot become less"),
    ("rf", {"spot": "9.0"}, "further than the solvent"),
    ("rf", {"front": "1.2"}, "below the start line"),
    ("energy", {"top": "20.0"}, "did not become warmer"),
    ("energy", {"top": "40.0"}, "warmer than all of the energy"),
    ("uncertainty", {"total": "49.00"}, "heavier empty"),
]


def test_every_kind_has_readings_here() -> None:
    assert set(GOOD) == set(bench_kinds(open_bank()))


@pytest.mark.parametrize("kind", GOOD)
def test_believable_readings_are_worked_up_and_asked(kind: str) -> None:
    bank = open_bank()
    readings, answers = GOOD[kind]
    found = worked_up(bank, bench_kinds(bank)[kind], readings)
    assert [step.answer for step in found.steps] == answers
    assert all(step.answer.split()[0] in step.worked for step in found.steps)
    assert found.doubts == ()
    assert found.question is not None, found.why_none
    asked = [part.model_answer for part in found.question.parts if part.kind == "number"]
    assert asked == answers


@pytest.mark.parametrize(("kind", "changed", "says"), BAD)
def test_what_cannot_be_believed_is_said_and_not_asked(
    kind: str, changed: dict[str, str], says: str
) -> None:
    bank = open_bank()
    readings = {**GOOD[kind][0], **changed}
    found = worked_up(bank, bench_kinds(bank)[kind], readings)
    assert any(says in doubt for doubt in found.doubts), found.doubts
    assert found.question is None
    assert found.steps


def test_a_number_that_cannot_be_meant_is_refused() -> None:
    bank = open_bank()
    kind = bench_kinds(bank)["crystals"]
    basin = next(one for one in kind.readings if one.id == "basin")
    assert checked(bank, kind, basin, " 57.23 g ") == "57.23"
    for typed in ("57,23", "nan", "1e9", "-3", "57.23 kg", "__import__('os')", "99999"):
        with pytest.raises(Exception, match="Empty basin"):
            checked(bank, kind, basin, typed)


def written(folder: Path, readings: dict[str, str], suffix: str = ".toml") -> str:
    path = folder / f"mine{suffix}"
    rows = [("kind", "crystals"), *readings.items()]
    if suffix == ".toml":
        quoted = ("kind", "route")
        text = "\n".join(f'{a} = "{b}"' if a in quoted else f"{a} = {b}" for a, b in rows)
    else:
        text = "\n".join(f"{a},{b}" for a, b in rows)
    path.write_text(text + "\n", encoding="utf-8")
    return str(path)


@pytest.mark.parametrize("suffix", [".toml", ".csv"])
def test_a_file_is_practised_on_and_stored_with_its_readings(
    home: Path, tmp_path: Path, suffix: str
) -> None:
    file = written(tmp_path, CRYSTALS, suffix)
    drill("sit", "--learner", "ada", "--at", "2027-01-11T17:00", typed=["stop"])
    said = drill("results", file, *AT, typed=["yes", "2.87", "57.5", ""]).output
    assert "These readings are believable." in said
    assert said.count("Right: ") == 2
    assert "Solid that the acid can use up: 1.59 g." in said
    with Store.open(home / "drill.db") as store:
        asking = store.askings(store.learners()[0])[-1]
    assert dict(asking.readings) == CRYSTALS
    rows = json.loads(drill("answers", "--json").output)
    assert [(row["typed"], row["right"], row["marks"]) for row in rows[:2]] == [
        ("2.87", "2.87 g", 1),
        ("57.5", "57.5 %", 4),
    ]


def test_readings_are_asked_for_one_by_one(home: Path) -> None:
    bank = open_bank()
    kind = bench_kinds(bank)["crystals"]
    routes = [id for id, _ in choices(bank, kind, kind.readings[0])]
    number = str(routes.index("CuO_H2SO4") + 1)
    typed = ["1", number, "57.23", "sixty", "60.10", "25", "0.8", "2.10", ""]
    ended = drill("results", *AT, typed=typed)
    assert ended.exit_code == 0, ended.output
    assert "type a number, as 57.23" in ended.output
    assert "57.5 %" in ended.output
    assert "does not replace your teacher" in " ".join(ended.output.split())


def test_a_reading_that_is_missing_or_unknown_is_named(tmp_path: Path) -> None:
    less = {name: one for name, one in CRYSTALS.items() if name != "total"}
    ended = drill("results", written(tmp_path, less), *AT)
    assert "missing: total" in str(ended.exception)
    ended = drill("results", written(tmp_path, {**CRYSTALS, "colour": "1"}), *AT)
    assert "not known: colour" in str(ended.exception)


@pytest.mark.parametrize("value", ["[" * 3000, "9" * 5000, "{ a = " * 800, '"'])
def test_a_file_that_is_no_toml_is_refused_with_its_line(tmp_path: Path, value: str) -> None:
    path = tmp_path / "mine.toml"
    path.write_text(f'kind = "rf"\nline = {value}\n', encoding="utf-8")
    result = drill("results", str(path), "--json")
    assert result.exit_code == 1
    assert "mine.toml: line 2: " in str(result.exception)


def test_each_titre_is_worked_by_difference_from_the_burette() -> None:
    bank = open_bank()
    found = worked_up(bank, bench_kinds(bank)["burette"], GOOD["burette"][0])
    assert found.also == (
        "Rough titre, 25.50 - 0.10: 25.40 cm3.",
        "Titre of run 1, 24.55 - 0.00: 24.55 cm3.",
        "Titre of run 2, 26.10 - 1.25: 24.85 cm3.",
        "Titre of run 3, 25.15 - 0.5: 24.65 cm3.",
    )
    assert found.question is not None
    assert "24.55 cm3, 24.85 cm3 and 24.65 cm3" in found.question.parts[0].ask


def test_json_tells_all_of_it_and_asks_nothing(tmp_path: Path) -> None:
    ended = drill("results", written(tmp_path, CRYSTALS), "--json", *AT)
    found = json.loads(ended.output)
    assert found["kind"] == "crystals"
    assert [step["answer"] for step in found["steps"]] == ["2.87 g", "57.5 %"]
    assert found["readings"][1] == {
        "id": "basin", "says": "Empty basin", "value": "57.23", "unit": "g",
    }  # fmt: skip
    assert (found["doubts"], found["asked"]) == ([], True)
    doubted = written(tmp_path, {**CRYSTALS, "total": "57.00"})
    found = json.loads(drill("results", doubted, "--json", *AT).output)
    assert found["doubts"]
    assert not found["asked"]
    assert "from a file" in str(drill("results", "--json", *AT).exception)
