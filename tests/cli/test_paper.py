"""`drill paper`: made, marked, typed back in; whatever is in doubt is told and not kept."""

from __future__ import annotations

import csv
import json
from collections.abc import Callable
from pathlib import Path

import pytest

from drill.app.context import open_bank, open_store
from drill.app.weakness.part_answers import part_answers
from drill.errors import WrongValue
from tests.common.desk import drill
from tests.common.paper_sheets import Rows, enter, filled, put, rows_of, stored


def test_a_paper_is_made_with_scheme_and_sheet(made: Path) -> None:
    paper = (made.parent / "first-steps-1-paper-A.txt").read_text()
    scheme = (made.parent / "first-steps-1-scheme.txt").read_text()
    head, most, blank = rows_of(made)
    assert head[:2] == ["pupil", "paper"]
    assert head[-1] == "total"
    assert most[-1] == "10" == str(sum(map(int, most[2:-1])))
    assert blank[1] in paper
    assert "seed 1" in paper
    assert blank[1] in scheme
    assert made.read_bytes().startswith(b"\xef\xbb\xbf")


def test_a_sheet_with_marks_is_not_overwritten(made: Path) -> None:
    made.write_text("mine")
    again = drill("paper", "make", "first-steps", "--marks", "10", "--format", "text")
    assert made.read_text() == "mine"
    assert "first-steps-1-marks-2.csv" in again.output


def test_the_same_seed_makes_the_same_files(made: Path) -> None:
    first = (made.parent / "first-steps-1-paper-A.txt").read_bytes()
    drill("paper", "make", "first-steps", "--marks", "10", "--format", "text", "--out", "again")
    assert (made.parent / "again" / "first-steps-1-paper-A.txt").read_bytes() == first


def test_marks_from_paper_are_verdicts_and_count_in_reports_and_memory(made: Path) -> None:
    drill("learner", "new", "k01")
    code, said = enter(filled(made, "k01", "k02"), "--new", "--at", "2027-03-01T10:00")
    assert code == 0, said
    assert "k02" in said
    with open_store() as store:
        for who in store.learners():
            rows = part_answers(store, open_bank(), who)
            assert sum(row.marks for row in rows) == 10 == sum(row.of for row in rows)
            assert all(not row.typed for row in rows)
            (verdicts,) = {
                (answer.kind, answer.verdict.by)
                for asking in store.askings(who)
                for answer in asking.answers
                if answer.verdict
            } or {()}
            assert verdicts == ("paper", "paper")
    report = json.loads(drill("weak", "k01", "--json", "--at", "2027-03-02T10:00").output)
    assert report[0]["marks"] == 10
    plan = drill("weak", "k01", "--at", "2027-03-02T10:00")
    assert plan.exit_code == 0


def test_the_same_sheet_again_stores_nothing_twice_and_a_changed_mark_is_corrected(
    made: Path,
) -> None:
    sheet = filled(made, "k01")
    enter(sheet, "--new")
    before = stored()
    code, said = enter(sheet)
    assert (code, stored()) == (0, before)
    assert "unchanged" in said

    def lower(rows: Rows) -> None:
        rows[2][2] = "0"

    code, said = enter(filled(made, "k01", change=lower))
    assert (code, stored()) == (0, before)
    assert "corrected" in said
    with open_store() as store:
        (who,) = store.learners()
        lost = int(rows_of(made)[1][2])
        assert sum(row.marks for row in part_answers(store, open_bank(), who)) == 10 - lost


def swap_heads(rows: Rows) -> None:
    """Two columns of different worth under each other's head."""
    most = next(row for row in rows if row[0] == "out of")
    other = next(n for n in range(3, len(most) - 1) if most[n] != most[2])
    rows[0][2], rows[0][other] = rows[0][other], rows[0][2]


def sort_by_pupil(rows: Rows) -> None:
    """As a spreadsheet sorts it: the row of maxima is not the first any more."""
    rows[1:] = sorted(rows[1:])
    swap_heads(rows)


def swap_marks(rows: Rows) -> None:
    """The pupil's marks of two columns; the maxima stay."""
    most = rows[1]
    other = next(n for n in range(3, len(most) - 1) if most[n] != most[2])
    rows[2][2], rows[2][other] = rows[2][other], rows[2][2]


def drop_column(rows: Rows) -> None:
    for row in rows:
        del row[3]


def drop_maxima(rows: Rows) -> None:
    del rows[1]


def one_maximum_less(rows: Rows) -> None:
    rows[1][2] = ""


def all_cells(typed: str, total: str = "") -> Callable[[Rows], None]:
    """The first pupil's cells all hold the same."""

    def change(rows: Rows) -> None:
        rows[2][2:] = [typed] * len(rows[2][2:-1]) + [total]

    return change


def add_column(rows: Rows) -> None:
    for row in rows:
        row.insert(3, "9z" if row is rows[0] else "1")


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (put(2, 2, "0.5"), 'line 3: 1 is "0.5": marks are whole. Write a number from 0 to'),
        (put(2, 2, "1½"), "marks are whole"),
        (put(2, 2, "1,0"), "marks are whole"),
        (put(2, 2, "01/02/2027"), 'line 3: 1 is "01/02/2027": that is no mark.'),
        (put(2, 2, "1-Feb"), "that is no mark"),
        (put(2, 2, "2027-02-01"), "that is no mark"),
        (put(2, 2, "1 of 2"), "that is no mark"),
        (put(2, 2, "x"), 'line 3: 1 is "x": that is no mark.'),
        (all_cells("abs"), 'line 3: no marks, only "abs". Leave all empty for who was away.'),
        (all_cells("n/a", "0"), 'line 3: no marks, only "n/a".'),
        (all_cells("", "3"), "line 3: 1 is empty."),
        (all_cells("-", "3"), "line 3: the marks add up to 0, the total says 3."),
        (drop_maxima, 'the row "out of" is missing'),
        (one_maximum_less, "1 out of nothing (the paper has"),
        (put(2, 2, "٣"), "that is no mark"),
        (put(2, 2, "-1"), "that is no mark"),
        (put(2, 2, "99"), "line 3: 1 is 99, and the part has"),
        (put(2, 2, "9" * 5000), "and the part has"),
        (put(2, 2, ""), "line 3: 1 is empty. Write 0, or - if it was not tried."),
        (put(2, -1, "7"), "line 3: the marks add up to 10, the total says 7."),
        (put(2, 1, "ZZZZZZ"), 'line 3: no paper "ZZZZZZ" was made on this computer.'),
        (put(2, 1, ""), "line 3: the paper's code is missing."),
        (put(2, 0, ""), "line 3: there are marks and no pupil."),
        (put(2, 0, "nobody"), 'line 3: nobody has the code "nobody" on this computer.'),
        (put(3, 0, "K01"), 'line 4: "K01" has marks in line 3 already.'),
        (swap_heads, "Columns may be swapped, or it is another paper's sheet."),
        (swap_marks, "Columns may be swapped."),
        (sort_by_pupil, "Columns may be swapped"),
        (lambda rows: rows[2].insert(3, "5"), "line 3: there are more cells than heads."),
        (drop_column, "No column for part"),
        (add_column, "has no part 9z."),
    ],
)
def test_whatever_is_in_doubt_is_told_and_nothing_is_stored(
    made: Path, change: Callable[[Rows], None], says: str
) -> None:
    for code in ("k01", "k02"):
        drill("learner", "new", code)
    exit_code, said = enter(filled(made, "k01", "k02", change=change))
    assert exit_code == 1
    assert says in said.replace("\n", " ").replace("  ", " ")
    assert "Nothing was stored." in said
    assert stored() == 0


@pytest.mark.parametrize("mark", [",", ";", "\t"])
def test_a_sheet_as_spreadsheets_save_it_is_read(made: Path, mark: str) -> None:
    """A byte-order mark, semicolons or tabs, empty lines and cells, spaces, sorted rows."""
    rows = rows_of(filled(made, "k01"))
    rows = [[f" {cell} " for cell in row] + ["", ""] for row in [rows[0], [], rows[2], rows[1]]]
    text = "\r\n".join(mark.join(row) for row in [*rows, [], [""] * 4])
    sheet = made.with_name("saved.csv")
    sheet.write_bytes(b"\xef\xbb\xbf" + text.encode())
    code, said = enter(sheet, "--new")
    assert code == 0, said
    assert stored() > 0
    assert enter(sheet)[0] == 0  # the same again is no doubt, and stores nothing twice


def test_columns_in_another_order_are_no_matter(made: Path) -> None:
    def turn(rows: Rows) -> None:
        for row in rows:
            row[2:-1] = row[-2:1:-1]

    assert enter(filled(made, "k01", change=turn), "--new")[0] == 0


def test_a_pupil_without_marks_is_named_and_a_part_not_tried_is_a_pass(made: Path) -> None:
    def absent(rows: Rows) -> None:
        rows[2][2] = "-"
        rows[3][2:] = [""] * len(rows[3][2:])

    code, said = enter(filled(made, "k01", "k02", change=absent), "--new")
    assert code == 0
    assert "No marks for k02." in said
    with open_store() as store:
        (who,) = store.learners()
        assert [row.passed for row in part_answers(store, open_bank(), who)].count(True) == 1


@pytest.mark.parametrize(("typed", "total"), [("", "0"), ("-", ""), ("-", "0"), ("\u2013", "")])
def test_who_was_away_has_no_marks_whatever_stands_for_it(
    made: Path, typed: str, total: str
) -> None:
    code, said = enter(filled(made, "k01", change=all_cells(typed, total)), "--new")
    assert code == 0, said
    assert "No marks for k01." in said
    assert stored() == 0


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"", "nothing is in it"),
        (b"\xff\xfe\x00", "not UTF-8"),
        (b"name,1a\nx,1\n", 'no column "pupil"'),
        (b"pupil,paper,1,1\n", "the column 1 is there twice"),
    ],
)
def test_a_file_that_is_no_sheet_is_refused_in_a_line(
    tmp_path: Path, data: bytes, says: str
) -> None:
    (tmp_path / "x.csv").write_bytes(data)
    code, said = enter(tmp_path / "x.csv")
    assert code == 1
    assert says in said.replace("\n", " ")


def test_papers_for_each_have_numbers_of_their_own_and_belong_to_their_pupil(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("list.csv").write_text("code,name\nk01,Ann Example\nk02\n")
    made = drill(
        *("paper", "make", "first-steps", "--marks", "10", "--format", "text"),
        *("--each", "list.csv"),
    )
    assert made.exit_code == 0, made.output
    text = Path("first-steps-1-papers.txt").read_text()
    assert "Ann Example (k01)" in text
    assert "k02: paper" in Path("first-steps-1-scheme.txt").read_text()
    _, most, one, two = rows_of(Path("first-steps-1-marks.csv"))
    assert one[1] != two[1]
    sheet = Path("swapped.csv")
    head = rows_of(Path("first-steps-1-marks.csv"))[0]
    with sheet.open("w", newline="") as file:
        csv.writer(file).writerows([head, most, ["k02", one[1], *most[2:]]])
    code, said = enter(sheet, "--new")
    assert code == 1
    assert 'is the one of "k01"' in said


def test_what_makes_no_sense_is_a_wrong_call() -> None:
    for options in (["--format", "docx"], ["--version", "D"], ["--course", "maths"]):
        result = drill("paper", "make", "first-steps", *options)
        assert isinstance(result.exception, WrongValue)
