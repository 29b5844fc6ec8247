"""plan, weak, deck, bank, learner and data as a user calls them."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.common.desk import drill

AT = ("--at", "2027-01-12T17:00")


def practised(lines: list[str] | None = None) -> None:
    drill("sit", *AT, typed=["ada", *(lines or ["pass", "pass", "pass", "", "stop"])])


def test_plan_sets_exam_and_minutes_and_shows_what_to_expect() -> None:
    practised()
    result = drill("plan", "--exam", "2027-05-18", "--minutes", "20", *AT)
    assert result.exit_code == 0, result.output
    assert "exam 2027-05-18: 126 days left" in result.output
    assert "Planned: 20 minutes a day;" in result.output
    rows = json.loads(drill("plan", "--json", *AT).output)
    assert rows["minutes_a_day"] == 20


def test_plan_refuses_what_is_no_date() -> None:
    practised()
    result = drill("plan", "--exam", "18 Mai")
    assert result.exit_code == 1
    assert '--exam "18 Mai": That is no date. Write it as 18 May 2027.' in str(result.exception)


def test_weak_names_a_mistake_that_came_back_with_an_answer_as_typed(home: Path) -> None:
    from tests.common.history import slipped_twice

    at = ("--at", slipped_twice(home).isoformat())
    (report,) = json.loads(drill("weak", "--json", *at).output)
    row = next(row for row in report["skills"] if row["skill"] == "calc.mass-by-difference")
    assert (row["why"], row["mistake"]) == ("a common mistake", "container not subtracted")
    assert [one["date"] for one in row["evidence"]] == ["2027-01-12", "2027-01-13"]
    (mistake,) = report["mistakes"]
    assert (mistake["times"], mistake["chances"], mistake["days"]) == (2, 2, 2)
    assert all(example["typed"].endswith(" g") for example in mistake["examples"])
    shown = drill("weak", *at).output
    assert "nothing stands out yet" in shown
    assert "mass by difference 0 of 2 marks (container not subtracted)" in shown
    assert "%" not in shown
    assert f"typed “{mistake['examples'][0]['typed']}”" in drill("weak", "--all", *at).output


def test_weak_before_anything_was_answered() -> None:
    drill("sit", *AT, typed=["ada", "stop"])
    assert "Nothing answered yet." in drill("weak", *AT).output
    (report,) = json.loads(drill("weak", "--json", *AT).output)
    assert (report["answers"], report["lesson"], report["mistakes"]) == (0, [], [])
    assert {row["state"] for row in report["skills"]} == {"not met"}


def test_weak_takes_an_exported_file_and_several_learners(home: Path, tmp_path: Path) -> None:
    from tests.common.history import slipped_twice

    at = ("--at", slipped_twice(home).isoformat())
    out = tmp_path / "mine.jsonl"
    drill("data", "export", "--out", str(out))
    handed_in = tmp_path / "mine.handin"
    drill("data", "export", "--out", str(handed_in), *at)
    here, *there = (drill("weak", who, *at).output for who in ("ada", str(out), str(handed_in)))
    assert there == [here, here]
    handed_in.write_bytes(handed_in.read_bytes()[:-9])
    damaged = drill("weak", str(handed_in), *at)
    assert damaged.exit_code == 1
    assert str(damaged.exception).endswith("its digest does not fit. Ask for it again.")
    drill("learner", "new", "bo", *at)
    rows = drill("weak", "ada", "bo", *at).output.splitlines()
    assert rows[0] == "2 learners side by side"
    assert any(row.split()[0:1] == ["bo"] and "nothing stands out yet" in row for row in rows)
    foreign = tmp_path / "foreign.txt"
    foreign.write_text("hello\n", "utf-8")
    refused = drill("weak", str(foreign))
    assert refused.exit_code == 1
    assert "nobody's answers are in it" in str(refused.exception)


def test_weak_compares_two_dates_and_writes_rows_for_a_spreadsheet(
    home: Path, tmp_path: Path
) -> None:
    from tests.common.history import slipped_twice

    at = ("--at", slipped_twice(home).isoformat())
    shown = drill("weak", "--since", "2027-01-13", *at).output
    assert "Before 13 Jan, and from then to 14 Jan" in shown
    assert "mass by difference  0 of 1  0 of 1" in " ".join(shown.split("\n")).replace("    ", "  ")
    for wrong in (("--since", "soon"), ("--until", "2027-01-13")):
        assert drill("weak", *wrong, *at).exit_code == 1
    out = tmp_path / "weak.csv"
    assert drill("weak", "--csv", str(out), *at).output == f"{out} is ready.\n"
    head, *rows = out.read_text("utf-8-sig").splitlines()
    assert head.startswith("learner,skill,name,topic,in_deck,marks,of")
    assert any(row.startswith("ada,calc.mass-by-difference,") for row in rows)


def test_deck_new_check_and_sit(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    made = drill(
        "deck",
        "new",
        typed=["Spring salts", "combined higher", "2027-05-18", *[""] * 5, "15", *[""] * 4],
    )
    assert made.exit_code == 0, made.output
    assert Path("spring-salts.toml").is_file()
    checked = drill("deck", "check", "spring-salts.toml")
    assert checked.exit_code == 0, checked.output
    assert "no problems (1 file checked)" in checked.output
    assert "2027-05-18" in checked.output
    screen = drill("sit", "spring-salts.toml", *AT, typed=["ada", "stop"]).output
    assert "Spring salts" in screen


def test_deck_check_shows_problems_with_their_lines(tmp_path: Path) -> None:
    path = tmp_path / "bad.toml"
    path.write_text('format = 1\nid = "bad"\ntitle = "T"\nminuts_a_day = 3\n', encoding="utf-8")
    result = drill("deck", "check", str(path))
    assert result.exit_code == 1
    assert "bad.toml:4:" in result.output.replace("\n", "")
    assert "minutes_a_day" in result.output


def test_deck_list_has_the_demonstration_decks() -> None:
    rows = json.loads(drill("deck", "list", "--json").output)
    assert "first-steps" in {row["id"] for row in rows}


def test_bank_list_and_show() -> None:
    rows = json.loads(drill("bank", "list", "--json").output)
    assert len(rows) >= 60
    shown = drill("bank", "show", "salts/percentage-yield").output
    assert "container" in shown
    assert "seed 2" in shown


@pytest.mark.parametrize("kind", ["number", "calculation", "choice", "name", "order", "written"])
def test_bank_new_passes_as_it_stands(kind: str, tmp_path: Path) -> None:
    folder = tmp_path / "salts"
    folder.mkdir()
    path = folder / "mine.toml"
    path.write_text(drill("bank", "new", kind).output, encoding="utf-8")
    result = drill("bank", "check", str(path), "--seeds", "20", "--jobs", "1")
    assert result.exit_code == 0, result.output


def test_learner_list_new_and_rename() -> None:
    assert "Nobody yet" in drill("learner", "list").output
    assert drill("learner", "new", "ada").exit_code == 0
    assert drill("learner", "rename", "ada", "bee").exit_code == 0
    assert [row["code"] for row in json.loads(drill("learner", "list", "--json").output)] == ["bee"]
    assert drill("learner", "new", "BEE").exit_code == 1


def test_data_export_backup_and_verify(tmp_path: Path) -> None:
    practised()
    out = tmp_path / "mine.jsonl"
    assert drill("data", "export", "--out", str(out)).exit_code == 0
    assert all(json.loads(line) for line in out.read_text(encoding="utf-8").splitlines())
    assert drill("data", "export", "--format", "csv").output.count("\n") >= 2
    assert drill("data", "backup", str(tmp_path / "safe"), *AT).exit_code == 0
    assert list((tmp_path / "safe").iterdir())
    verified = drill("data", "verify")
    assert verified.exit_code == 0
    assert "all whole" in verified.output


def test_data_comes_back_on_another_computer_and_can_be_erased(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    practised()
    out = tmp_path / "mine.jsonl"
    drill("data", "export", "--out", str(out))
    monkeypatch.setenv("DRILL_HOME", str(tmp_path / "elsewhere"))
    first = drill("data", "import", str(out))
    assert first.exit_code == 0, first.output
    again = drill("data", "import", str(out))
    assert again.output.startswith("0 rows added")
    (report,) = json.loads(drill("weak", "ada", "--json", *AT).output)
    assert report["answers"] > 0
    assert drill("data", "erase", "ada", "--yes").exit_code == 0
    assert "Nobody yet" in drill("learner", "list").output


def test_a_damaged_line_is_named_and_the_rest_comes_in(tmp_path: Path) -> None:
    practised()
    out = tmp_path / "mine.jsonl"
    drill("data", "export", "--out", str(out))
    out.write_text("no statement\n" + out.read_text(encoding="utf-8"), encoding="utf-8")
    result = drill("data", "import", str(out))
    assert result.exit_code == 1
    assert "mine.jsonl:1:" in result.output


def test_bank_cover_names_every_practical_and_skill() -> None:
    rows = json.loads(drill("bank", "cover", "--json").output)
    assert {"practical", "templates", "calculation", "thin"} <= set(rows[0])
    assert {"skill", "templates", "separate higher"} <= set(rows[-1])
    assert {"salts", "gases"} <= {row.get("practical") for row in rows}
    assert "calc.percentage-yield" in {row.get("skill") for row in rows}


def test_bank_upgrade_keeps_comments(tmp_path: Path) -> None:
    path = tmp_path / "old.toml"
    path.write_text("# mine\n" + drill("bank", "new", "name").output, encoding="utf-8")
    assert drill("bank", "upgrade", str(path)).exit_code == 0
    assert path.read_text(encoding="utf-8").count("# mine") == 1


def test_a_starter_goes_to_a_file_and_never_over_one(tmp_path: Path) -> None:
    path = tmp_path / "own" / "salts" / "mine.toml"
    result = drill("bank", "new", "name", "--out", str(path))
    assert (result.exit_code, path.read_text("utf-8")) == (0, drill("bank", "new", "name").output)
    assert f"drill bank check {path}" in result.output
    path.write_text("mine", encoding="utf-8")
    again = drill("bank", "new", "name", "--out", str(path))
    assert (again.exit_code, path.read_text("utf-8")) == (1, "mine")


def test_the_version_and_short_help_are_told() -> None:
    from drill import __version__

    assert drill("--version").output == f"drill {__version__}\n"
    for command in ((), ("bank",), ("bank", "list"), ("sit",)):
        assert drill(*command, "-h").output == drill(*command, "--help").output
        assert "Usage:" in drill(*command, "-h").output


def test_the_weak_report_as_a_page_has_the_rows_of_the_screen(home: Path, tmp_path: Path) -> None:
    from tests.common.history import slipped_twice

    slipped_twice(home)
    page = tmp_path / "weak.html"
    assert drill("weak", *AT, "--html", str(page)).output == f"{page} is ready.\n"
    text = page.read_text("utf-8")
    assert "<h1>ada, 12 Jan. " in text
    assert "<p>container not subtracted: in 2 of 2 answers where it can be</p>" in text
    (report,) = json.loads(drill("weak", *AT, "--json").output)
    row = next(row for row in report["skills"] if row["of"])
    assert f'<th scope="row">{row["name"]}</th><td>{row["marks"]} of {row["of"]}</td>' in text
    assert drill("weak", "--html", str(tmp_path / "no" / "where.html")).exit_code == 1
