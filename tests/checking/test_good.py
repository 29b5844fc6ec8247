"""Good templates pass, in one process or several, and their row says what was seen."""

from __future__ import annotations

import pytest

from drill.bank import read_passed
from drill.checking import CHECKS, check, write_passed
from tests.checking.proving import BANK, GOOD, bank, checked
from tests.common.desk import drill


def test_a_good_template_passes(tmp_path):
    report = checked(tmp_path, GOOD)
    assert report.problems == ()
    assert report.passed
    (row,) = report.rows
    assert row["template"] == "tests/question"
    assert (row["seeds"], row["distinct"], row["passed"]) == (60, 60, True)


@pytest.mark.parametrize("path", sorted(BANK.glob("*/*.toml")), ids=lambda path: path.stem)
def test_the_test_templates_pass(path):
    report = check([path], BANK, 40, 1)
    assert [str(one) for one in report.problems if one.level == "error"] == []


def test_several_processes_find_what_one_finds(tmp_path):
    folder = bank(tmp_path, good=GOOD, bad=GOOD.replace("Take the", "Take  the"))
    one = check([folder / "tests"], folder, 120, 1)
    two = check([folder / "tests"], folder, 120, 2)
    assert one == two
    assert len(one.problems) == 1
    assert "120 of 120 seeds" in one.problems[0].message


def test_progress_counts_templates(tmp_path):
    folder = bank(tmp_path, one=GOOD, two=GOOD)
    told: list[tuple[int, int]] = []
    check([folder / "tests"], folder, 5, 1, lambda done, of: told.append((done, of)))
    assert told == [(1, 2), (2, 2)]


def test_a_file_named_twice_is_checked_once(tmp_path):
    folder = bank(tmp_path, one=GOOD)
    report = check([folder / "tests", folder / "tests" / "one.toml"], folder, 5, 1)
    assert (report.files, len(report.rows)) == (1, 1)


def test_a_file_that_cannot_be_read_is_reported(tmp_path):
    folder = bank(tmp_path, bad='format = "one"')
    report = check([folder / "tests"], folder, 5, 1)
    assert report.rows == ()
    assert any("format" in problem.message for problem in report.problems)


def test_what_passed_is_written_and_what_failed_is_taken_out(tmp_path):
    folder = bank(tmp_path, good=GOOD, bad=GOOD)
    write_passed(check([folder / "tests"], folder, 5, 1), folder)
    assert set(read_passed(folder)) == {"tests/good", "tests/bad"}
    bank(tmp_path, bad=GOOD.replace("Take the", "Take  the"))
    report = check([folder / "tests" / "bad.toml"], folder, 5, 1)
    write_passed(report, folder)
    assert set(read_passed(folder)) == {"tests/good"}
    (folder / "tests" / "good.toml").unlink()
    write_passed(report, folder)
    assert read_passed(folder) == {}


def test_the_version_that_passed_is_the_one_written(tmp_path):
    folder = bank(tmp_path, good=GOOD)
    report = check([folder / "tests"], folder, 5, 1)
    write_passed(report, folder)
    assert read_passed(folder) == {"tests/good": report.rows[0]["version"]}


def test_every_check_has_a_name_in_words():
    assert all(" " in name and name == name.lower() for name in CHECKS)


def test_the_command_tells_how_many_different_questions_there_are(tmp_path):
    path = tmp_path / "salts" / "question.toml"
    path.parent.mkdir()
    path.write_text(GOOD, "utf-8")
    said = drill("bank", "check", str(path), "--seeds", "20", "--jobs", "1").output
    assert "salts/question: 20 different of 20 seeds" in said
