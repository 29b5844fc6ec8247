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
    assert "20 min a day  (yours)" in result.output
    rows = json.loads(drill("plan", "--json", *AT).output)
    assert rows["minutes_a_day"] == 20
    shares = {row["minutes_a_day"]: row["expected"] for row in rows["forecast"]}
    assert shares[0] <= shares[10] <= shares[30]
    assert all(row["low"] <= row["expected"] <= row["high"] for row in rows["forecast"])


def test_plan_refuses_what_is_no_date() -> None:
    practised()
    result = drill("plan", "--exam", "18 May")
    assert result.exit_code == 1
    assert '--exam "18 May" is not a date. Write it as 2027-05-18.' in str(result.exception)


def test_weak_names_a_slip_that_came_back_with_answers_as_typed(home: Path) -> None:
    from drill.app.context import deck_of, open_bank
    from drill.app.rows import plain
    from drill.app.weak import weak_areas
    from drill.store import Store
    from tests.common.history import slipped_twice

    now = slipped_twice(home)
    with Store.open(home / "drill.db") as store:
        who = store.learners()[0]
        deck = deck_of(store, who, "")
        rows = plain(weak_areas(store, open_bank(deck), deck, who, now))
    row = next(row for row in rows if row["skill"] == "calc.mass-by-difference")
    assert row["why"] == "slip"
    (slip,) = row["slips"]
    assert (slip["slip"], slip["times"]) == ("container-not-subtracted", 2)
    assert all(example["typed"].endswith(" g") for example in slip["examples"])
    shown = drill("weak").output
    assert "container not subtracted, 2 times in 2" in shown


def test_weak_before_anything_was_answered() -> None:
    drill("sit", *AT, typed=["ada", "stop"])
    assert "Nothing answered yet." in drill("weak").output
    assert json.loads(drill("weak", "--json").output) == []


def test_deck_new_check_and_sit(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    made = drill("deck", "new", typed=["Spring salts", "combined higher", "2027-05-18", "", "15"])
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
    assert json.loads(drill("weak", "ada", "--json").output)
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
    assert drill("weak", "--html", str(page)).output == f"{page} is ready.\n"
    text = page.read_text("utf-8")
    assert "<h1>Where ada loses marks</h1>" in text
    assert "container not subtracted, 2 times in 2" in text
    row = json.loads(drill("weak", "--json").output)[0]
    assert f'<th scope="row">{row["name"]}</th><td>{row["marks"]} of {row["of"]}</td>' in text
    assert drill("weak", "--html", str(tmp_path / "no" / "where.html")).exit_code == 1
