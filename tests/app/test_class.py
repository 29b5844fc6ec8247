"""A class: gathered in any order and nothing twice, and what its report says."""

from __future__ import annotations

import csv
import json
import random
from collections.abc import Sequence
from dataclasses import replace
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest

from drill.app.classes.class_collect import Collected, Twice, collect
from drill.app.classes.class_room import Decision, class_named
from drill.app.classes.class_sums import ClassSums
from drill.errors import DrillError
from drill.exchange.hand_in import HandIn, packed
from tests.common.classes import NOW, SKILLS, class_of, item, practised, pupil, row
from tests.common.desk import drill

AT = ("--at", "2027-03-01T17:00")
EVEN = dict.fromkeys(SKILLS, 0.6)
FIVE = [pupil(f"k{n}", practised(random.Random(n), EVEN, 12)) for n in "12345"]


def handed(folder: Path, files: Sequence[HandIn], **more: bytes) -> Path:
    folder.mkdir(exist_ok=True)
    for number, one in enumerate(files):
        (folder / f"{number}-{one.code}.handin").write_bytes(packed(one))
    for name, data in more.items():
        (folder / name).write_bytes(data)
    return folder


def kept() -> list[Any]:
    return [(one.code, one.sums) for one in class_named("").pupils()]


def test_everything_is_gathered_at_once_and_again_without_counting_twice(tmp_path: Path) -> None:
    folder = handed(tmp_path / "Year 11 C1", FIVE, note=b"hello", bad=packed(FIVE[0])[:200])
    (folder / "copy.handin").write_bytes(packed(FIVE[1]))
    (folder / "sub").mkdir()
    (folder / "sub" / "link").symlink_to(folder / "note")
    listed = tmp_path / "list.csv"
    listed.write_text("code,name\nk1,A One\nK2,B Two\nk9,C Three\n", encoding="utf-8")
    first = collect(folder, "", str(listed))
    assert (first.title, first.answers) == ("Year 11 C1", 60)
    assert first.new == ("k1", "k2", "k3", "k4", "k5")
    assert first.missing == ("k9",)
    assert first.not_listed == ("k3", "k4", "k5")
    assert {one.file: one.says for one in first.skipped} == {
        "bad": "damaged: its digest does not fit.",
        "note": "not a hand-in file.",
        "copy.handin": "all of it is in another file.",
    } or "1-k2.handin" in {one.file for one in first.skipped}
    before = kept()
    second = collect(folder, "", "")
    assert (second.new, second.updated, second.answers) == ((), (), 60)
    assert second.unchanged == first.new
    assert second.missing == ("k9",)  # the list is remembered
    assert kept() == before


def test_files_may_come_in_any_order_and_in_pieces(tmp_path: Path) -> None:
    whole = FIVE[0]
    first = replace(whole, rows=whole.rows[:7], made=whole.made - 1000)
    later = replace(whole, rows=whole.rows[4:])
    one = collect(handed(tmp_path / "a", [first]), "", "")
    both = collect(handed(tmp_path / "a", [first, later]), "", "")
    assert (one.new, both.updated, both.answers) == (("k1",), ("k1",), 12)
    forward = kept()
    collect(handed(tmp_path / "b", [later]), "", "")
    collect(handed(tmp_path / "b", [later, first]), "", "")
    assert kept() == forward


def test_a_settled_mark_stands_whichever_file_comes_first(tmp_path: Path) -> None:
    rows = FIVE[0].rows
    other = rows[0]._replace(judge="teacher", marks=0 if rows[0].marks else 2)
    settled = replace(FIVE[0], rows=(other, *rows[1:]))
    collect(handed(tmp_path / "a", [settled]), "", "")
    one = kept()
    collect(handed(tmp_path / "a", [FIVE[0]]), "", "")
    assert kept() == one
    collect(handed(tmp_path / "b", [FIVE[0]]), "", "")
    assert kept() != one
    collect(handed(tmp_path / "b", [FIVE[0], settled]), "", "")
    assert kept() == one


def test_one_person_from_two_machines_is_joined_and_parted(tmp_path: Path) -> None:
    rng = random.Random(4)
    home = pupil("kim", practised(rng, dict.fromkeys(SKILLS, 0.6), 8), "aa" * 16)
    school = pupil("k1", [*practised(rng, dict.fromkeys(SKILLS, 0.6), 5), home.rows[0]], "bb" * 16)
    folder = handed(tmp_path / "c", [home, school])
    collect(folder, "", "")
    assert [one.sums.answers for one in class_named("").pupils()] == [6, 8]
    assert drill("class", "join", "aaaaaaaa", "k1").exit_code == 0
    (together,) = class_named("").pupils()
    assert (together.code, together.sums.answers) == ("k1", 13)  # the common answer once
    again = collect(folder, "", "")
    assert again.twice == (Twice("k1", 2),)
    assert drill("class", "part", "aaaaaaaa").exit_code == 0
    assert [one.code for one in class_named("").pupils()] == ["k1", "kim"]


def test_two_pupils_under_one_code_are_told_and_can_be_parted(tmp_path: Path) -> None:
    one = pupil("k1", FIVE[0].rows, "aa" * 16)
    other = pupil("k1", FIVE[1].rows, "bb" * 16)
    folder = handed(tmp_path / "c", [one, other])
    said = drill("class", "collect", str(folder)).output
    assert "k1 came from 2 machines, counted as one pupil." in said
    drill("class", "part", "bbbbbbbb")
    assert [who.code for who in class_named("").pupils()] == ["k1", "k1-2"]


def test_another_folder_of_the_same_name_is_another_class(tmp_path: Path) -> None:
    (tmp_path / "x").mkdir()
    (tmp_path / "y").mkdir()
    collect(handed(tmp_path / "x" / "C1", FIVE[:1]), "", "")
    result = drill("class", "collect", str(handed(tmp_path / "y" / "C1", FIVE[1:2])))
    assert result.exit_code == 1
    assert "add --class NAME" in str(result.exception)
    assert drill("class", "collect", str(tmp_path / "y" / "C1"), "--class", "C1 b").exit_code == 0
    assert [len(class_named(name).pupils()) for name in ("C1", "C1 b")] == [1, 1]


def test_sums_are_the_same_in_whatever_order_and_pieces(tmp_path: Path) -> None:
    collect(handed(tmp_path / "c", class_of(12, 3, SKILLS[0])), "", "")
    pupils = class_named("").pupils()
    one, parts = ClassSums(), [ClassSums(), ClassSums(), ClassSums()]
    for number, who in enumerate(pupils):
        one.add(who.sums)
        parts[number % 3].add(who.sums)
    together = ClassSums()
    for part in reversed(parts):
        together.merge(part)
    assert together.skills == one.skills
    assert together.answers == one.answers == sum(who.sums.answers for who in pupils)
    for name, item_sums in one.items.items():
        assert vars(together.items[name]) == pytest.approx(vars(item_sums))


# ---------------------------------------------------------------- the report


def report(*arguments: str) -> str:
    result = drill("class", "report", *arguments, *AT)
    assert result.exit_code == 0, result.output
    return " ".join(result.output.split())


def as_json(*arguments: str) -> dict[str, Any]:
    found = json.loads(drill("class", "report", *arguments, "--json", *AT).output)
    assert isinstance(found, dict)
    return found


def test_the_first_screen_says_what_to_teach_again_and_what_is_secure(tmp_path: Path) -> None:
    files = class_of(22, 5, "calc.percentage-yield")
    old = [one for one in practised(random.Random(9), {SKILLS[1]: 0.9}, 6)]
    old = [one._replace(at=one.at - 40 * 86_400_000) for one in old]
    files.append(pupil("k99", old))
    collect(handed(tmp_path / "Year 11 C1", files), "", "")
    said = report()
    assert said.startswith("Year 11 C1, 23 pupils, week to 1 March")
    assert "22 practised (median" in said
    assert "of 84 min)" in said
    assert "Not seen 7 days: k99" in said
    found = as_json()
    assert [one["skill"] for one in found["again"]] == ["calc.percentage-yield"]
    assert found["again"][0]["route"] == "route of calc.percentage-yield"
    assert 11 <= found["again"][0]["took"] <= found["again"][0]["of"] <= 22
    secure = {one["skill"] for one in found["secure"]}
    assert secure <= set(SKILLS) - {"calc.percentage-yield"}
    assert secure
    assert "Practice evidence, not assessment." in said
    assert drill("class", "report", *AT).output.count("\n") <= 24


def test_who_answered_within_seconds_has_practised_all_the_same(tmp_path: Path) -> None:
    quick = [row(random.Random(1), item(SKILLS[0]), NOW, 1)._replace(ms=0)]
    collect(handed(tmp_path / "c", [pupil("k1", quick), pupil("k2", FIVE[1].rows)]), "", "")
    assert as_json()["practised"] == 2


def test_secure_needs_ten_pupils_and_four_fifths_of_the_marks(tmp_path: Path) -> None:
    def files(number: int, marks: int) -> list[HandIn]:
        rng = random.Random(1)
        return [
            pupil(f"p{n}", [row(rng, item(SKILLS[0]), NOW - timedelta(days=d), marks, 5)
                            for d in (3, 2, 1)])
            for n in range(number)
        ]  # fmt: skip

    for name, number, marks, secure in (("a", 10, 4, 1), ("b", 9, 5, 0), ("c", 12, 3, 0)):
        collect(handed(tmp_path / name, files(number, marks)), "", "")
        assert len(as_json()["secure"]) == secure, name


def test_only_the_last_answers_tell_how_a_pupil_stands(tmp_path: Path) -> None:
    rng = random.Random(1)
    rows = [row(rng, item(SKILLS[0]), NOW - timedelta(days=day), 0 if day > 3 else 1, 1)
            for day in range(10, 0, -1)]  # fmt: skip
    collect(handed(tmp_path / "c", [pupil("k1", rows)]), "", "")
    assert as_json()["skills"][0]["share"] == 1.0


def test_questions_that_behave_oddly_are_named_from_ten_pupils_on(tmp_path: Path) -> None:
    def files(number: int) -> list[HandIn]:
        rng = random.Random(2)
        found = []
        for n in range(number):
            able = n / number
            rows = [row(rng, item("good", k, "salts/fine"), NOW, int(rng.random() < able), 1)
                    for k in range(8)]  # fmt: skip
            # the abler somebody is, the worse they do here
            rows.append(row(rng, item("odd", 0, "salts/turned"), NOW, int(able < 0.5), 1))
            rows.append(row(rng, item("odd", 0, "salts/contested"), NOW, 0, 1,
                            appeal="right" if n % 3 == 0 else None))  # fmt: skip
            rows.append(row(rng, item("odd", 0, "salts/broken"), NOW, 0, 1, faulty=n == 0))
            found.append(pupil(f"p{n}", rows))
        return found

    collect(handed(tmp_path / "nine", files(9)), "", "")
    assert as_json()["odd"] == []
    collect(handed(tmp_path / "many", files(24)), "", "")
    why = {one["template"]: one["why"] for one in as_json()["odd"]}
    assert "those strong elsewhere do no better here" in why["salts/turned0"]
    assert "often contested" in why["salts/contested0"]
    assert "said to be faulty" in why["salts/broken0"]
    assert not any(name.startswith("salts/fine") for name in why)
    (turned,) = (one for one in as_json()["odd"] if one["template"] == "salts/turned0")
    assert turned["discrimination"] < 0
    assert turned["facility_low"] < turned["facility"] == 0.5 < turned["facility_high"]


def test_names_come_from_the_teachers_list_alone_and_an_export_has_none(tmp_path: Path) -> None:
    listed = tmp_path / "list.txt"
    listed.write_text("k1,Ann Example\nk2\n", encoding="utf-8")
    folder = handed(tmp_path / "c", FIVE)
    drill("class", "collect", str(folder), "--list", str(listed))
    assert "Ann Example" in report("--pupils")
    named, plain = tmp_path / "named.csv", tmp_path / "plain.csv"
    drill("class", "report", "--csv", str(named), *AT)
    drill("class", "export", "--out", str(plain))
    assert named.read_bytes().startswith(b"\xef\xbb\xbf")
    assert "Ann Example" in named.read_text("utf-8")
    assert "Ann" not in plain.read_text("utf-8")
    rows = list(csv.DictReader(plain.read_text("utf-8-sig").splitlines()))
    assert len(rows) == 60
    assert {one["skill"] for one in rows} == set(SKILLS)


def test_erasing_a_pupil_leaves_nothing_of_them(tmp_path: Path, monkeypatch: Any) -> None:
    home = tmp_path / "home"
    monkeypatch.setenv("DRILL_HOME", str(home))
    collect(handed(tmp_path / "c", FIVE), "", "")
    assert drill("class", "erase").exit_code != 0
    assert "k1" in drill("class", "erase", "k1", "--yes").output
    assert [one.code for one in class_named("").pupils()] == ["k2", "k3", "k4", "k5"]
    assert not any(FIVE[0].learner in path.name for path in home.rglob("*"))
    assert drill("class", "erase", "--before", "2 March 2027", "--yes").exit_code == 0
    assert class_named("").pupils() == []


def test_a_lost_or_older_sum_is_made_again(tmp_path: Path, monkeypatch: Any) -> None:
    home = tmp_path / "home"
    monkeypatch.setenv("DRILL_HOME", str(home))
    collect(handed(tmp_path / "c", FIVE), "", "")
    before = kept()
    for number, path in enumerate(sorted(home.rglob("*.sums"))):
        path.write_text("{}" if number % 2 else "not json", encoding="utf-8")
    assert kept() == before
    for path in home.rglob("*.sums"):
        path.write_bytes(path.read_bytes().replace(b'"answers": ', b'"answers": 9'))
    assert kept() == before


DAMAGED = ("[" * 100_000, "null", '{"title": "c", "source": "", "list": 7, "joined": {}}', "\xff")


@pytest.mark.parametrize("text", DAMAGED)
def test_damaged_files_of_a_class_are_told_of_or_passed_over(
    tmp_path: Path, monkeypatch: Any, text: str
) -> None:
    home = tmp_path / "home"
    monkeypatch.setenv("DRILL_HOME", str(home))
    collect(handed(tmp_path / "c", FIVE[:1]), "", "")
    (file,) = home.rglob("class.json")
    decided = '{"answer": "ab", "points": {"value": %s}, "by": "tutor"}\n'
    lines = decided % 1 + decided % -1 + decided % '"x"' + text
    file.with_name("settled.jsonl").write_bytes(lines.encode("latin-1"))
    assert class_named("").settled() == {"ab": Decision({"value": 1}, "tutor")}
    file.write_bytes(text.encode("latin-1"))
    with pytest.raises(DrillError, match="no class"):
        class_named("")


def test_a_refused_file_is_told_by_the_exit_code_and_a_doubled_one_is_not(tmp_path: Path) -> None:
    folder = handed(tmp_path / "c", FIVE[:2])
    (folder / "copy.handin").write_bytes(packed(FIVE[0]))
    listed = folder / "list.csv"
    listed.write_text("k1,Ann\n", encoding="utf-8")
    assert drill("class", "collect", str(folder), "--list", str(listed)).exit_code == 0
    (folder / "note.txt").write_text("hello", encoding="utf-8")
    said = drill("class", "collect", str(folder))
    assert said.exit_code == 1
    assert "note.txt: not taken, not a hand-in file." in said.output
    assert "c: 3 files read" in said.output
    assert "The class has the folder's name; another one: --class NAME." in said.output
    assert "Unchanged (2): k1 Ann, k2" in said.output
    assert "list.csv" not in said.output


def test_json_of_a_collect_names_what_came(tmp_path: Path) -> None:
    folder = handed(tmp_path / "c", FIVE[:1], note=b"x")
    found = json.loads(drill("class", "collect", str(folder), "--json").output)
    assert set(found) == set(Collected.__dataclass_fields__)
    assert found["new"] == ["k1"]


def test_long_names_and_skills_stand_whole_in_a_table_of_80_columns(tmp_path: Path) -> None:
    pupils = [
        replace(one, code=f"11c-pup-{one.code}")
        for one in class_of(12, 1, SKILLS[0])
    ]  # fmt: skip
    name = "Bartholomew-Featherstonehaugh, Wilhelmina"
    listed = tmp_path / "list.csv"
    rows = [f'{one.code},"{name} {n}"' for n, one in enumerate(pupils)]
    listed.write_text("\n".join(["code,name", *rows, 'k99,"Other, Ann"', 'k98,"Else, Bo"']))
    said = drill("class", "collect", str(handed(tmp_path / "in", pupils)), "--list", str(listed))
    assert max(map(len, said.output.splitlines())) <= 80
    assert "Nothing from (2): k98 Else, Bo; k99 Other, Ann" in said.output
    assert "Nothing handed in: k98 Else, Bo; k99 Other, Ann" in drill("class", "report", *AT).output
    table = drill("class", "report", "--pupils", *AT).output.partition("Pupils, on")[2]
    assert max(map(len, table.splitlines())) <= 80
    words = set(table.split())
    assert {*name.split(), "Mar", "A", *(one.code for one in pupils)} <= words
    taught = json.loads(drill("class", "report", "--json", *AT).output)["again"]
    for letter, skill in zip("ABCDE", taught, strict=False):
        assert f"{letter}           {skill['name']}" in table
