"""`drill paper`: made, marked, typed back in; whatever is in doubt is told and not kept."""

from __future__ import annotations

import csv
import json
import random
from collections.abc import Callable
from pathlib import Path

import pytest

from drill.app.classes.class_room import class_named
from drill.app.context import open_bank, open_store
from drill.app.topics.handouts import settled_here
from drill.app.weakness.part_answers import part_answers
from drill.errors import WrongValue
from drill.exchange.hand_in import packed
from tests.common.classes import SKILLS, practised, pupil
from tests.common.desk import drill

Rows = list[list[str]]


@pytest.fixture
def made(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A marks sheet of a paper of ten marks, with two pupils to fill in."""
    monkeypatch.chdir(tmp_path)
    result = drill("paper", "make", "first-steps", "--marks", "10", "--format", "text")
    assert result.exit_code == 0, result.output
    return tmp_path / "first-steps-1-marks.csv"


def rows_of(path: Path) -> Rows:
    return list(csv.reader(path.read_text("utf-8-sig").splitlines()))


def filled(path: Path, *pupils: str, change: Callable[[Rows], None] = lambda rows: None) -> Path:
    """The sheet with full marks for each pupil, then changed; a new file."""
    head, most, blank = rows_of(path)
    rows = [head, most, *([pupil, blank[1], *most[2:-1], ""] for pupil in pupils)]
    change(rows)
    out = path.with_name("filled.csv")
    with out.open("w", newline="") as file:
        csv.writer(file).writerows(rows)
    return out


def enter(path: Path, *options: str) -> tuple[int, str]:
    result = drill("paper", "enter", str(path), *options)
    return result.exit_code, result.output + str(result.exception or "")


def stored() -> int:
    with open_store() as store:
        return sum(len(store.askings(who)) for who in store.learners())


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


def put(row: int, column: int, value: str) -> Callable[[Rows], None]:
    def change(rows: Rows) -> None:
        rows[row][column] = value

    return change


def swap_heads(rows: Rows) -> None:
    """Two columns of different worth under each other's head."""
    most = rows[1]
    other = next(n for n in range(3, len(most) - 1) if most[n] != most[2])
    rows[0][2], rows[0][other] = rows[0][other], rows[0][2]


def swap_marks(rows: Rows) -> None:
    """The pupil's marks of two columns; the maxima stay."""
    most = rows[1]
    other = next(n for n in range(3, len(most) - 1) if most[n] != most[2])
    rows[2][2], rows[2][other] = rows[2][other], rows[2][2]


def drop_column(rows: Rows) -> None:
    for row in rows:
        del row[3]


def add_column(rows: Rows) -> None:
    for row in rows:
        row.insert(3, "9z" if row is rows[0] else "1")


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (put(2, 2, "0.5"), 'line 3: 1 is "0.5": marks are whole. Write a number from 0 to'),
        (put(2, 2, "1½"), "marks are whole"),
        (put(2, 2, "x"), 'line 3: 1 is "x": that is no mark.'),
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
        csv.writer(file).writerows([head, ["k02", one[1], *most[2:]]])
    code, said = enter(sheet, "--new")
    assert code == 1
    assert 'is the one of "k01"' in said


def test_what_makes_no_sense_is_a_wrong_call() -> None:
    for options in (["--format", "docx"], ["--version", "D"], ["--course", "maths"]):
        result = drill("paper", "make", "first-steps", *options)
        assert isinstance(result.exception, WrongValue)


def test_paper_marks_reach_the_pupils_machine_and_count_when_accepted(
    made: Path, home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As a teacher's other marks do: carried in an export, counted once somebody accepts them."""
    enter(filled(made, "k01"), "--new")
    exported = drill("data", "export", "--format", "xapi", "--out", "k01.jsonl", "--learner", "k01")
    assert exported.exit_code == 0, exported.output
    monkeypatch.setenv("DRILL_HOME", str(home.parent / "pupil"))
    brought = drill("data", "import", "k01.jsonl")
    assert brought.exit_code == 0, brought.output
    drill("appeals", "accept", "--yes")
    with open_store() as store:
        (who,) = store.learners()
        rows = part_answers(store, open_bank(), who)
    assert sum(row.marks for row in rows) == 10


def test_paper_marks_count_in_the_class_report(made: Path, home: Path) -> None:
    drill("learner", "new", "k01")
    Path("in").mkdir()
    assert drill("class", "collect", "in", "--class", "c1").exit_code == 0
    code, said = enter(filled(made, "k01"), "--class", "c1")
    assert code == 0, said
    (pupil,) = class_named("c1").pupils()
    assert (pupil.code, pupil.sums.marks, pupil.sums.of) == ("k01", 10, 10)


def test_pupils_of_a_class_are_known_on_paper_and_are_no_second_machine(
    made: Path, home: Path
) -> None:
    Path("in").mkdir()
    home_work = practised(random.Random(1), dict.fromkeys(SKILLS, 0.6), 8)
    Path("in/k01.handin").write_bytes(packed(pupil("k01", home_work)))
    Path("list.csv").write_text("k01,Ann\nk02,Ben\n", encoding="utf-8")
    assert enter(filled(made, "k01"), "--class", "c1")[0] == 1  # there is no such class yet
    drill("class", "collect", "in", "--class", "c1", "--list", "list.csv")
    code, said = enter(filled(made, "k01"), "--class", "c1")
    assert code == 0, said
    (both,) = class_named("c1").pupils()
    assert (both.code, both.sums.answers) == ("k01", 8 + sum(1 for _ in _parts_of_paper()))
    again = drill("class", "collect", "in", "--class", "c1")
    assert "machines" not in again.output
    assert "paper" in drill("class", "pupils", "c1").output
    assert enter(filled(made, "k09"), "--class", "c1")[0] == 1


def _parts_of_paper() -> list[object]:
    with open_store(reading=True) as store:
        (who,) = store.learners()
        return [answer for asking in store.askings(who) for answer in asking.answers]


def test_a_lesson_sheet_has_fresh_numbers_and_its_answers_on_a_page_of_their_own(
    made: Path,
) -> None:
    enter(filled(made, "k01", change=put(2, 2, "0")), "--new", "--at", "2027-03-01T10:00")
    told = drill("weak", "k01", "--sheet", "sheet.txt", "--at", "2027-03-02T10:00")
    assert told.exit_code == 0, told.output
    text = Path("sheet.txt").read_text("utf-8")
    questions, answers = text.split("Answers for k01")
    asked = json.loads(drill("weak", "k01", "--json", "--at", "2027-03-02T10:00").output)[0]["ask"]
    titles = {entry.id: entry.title for entry in open_bank().entries()}
    assert len(asked) == 4
    assert all(titles[template] in questions for template in asked)
    assert "guidance" in answers
    drill("weak", "k01", "--sheet", "later.txt", "--at", "2027-03-03T10:00")
    assert Path("later.txt").read_text("utf-8") != text


def test_a_lesson_sheet_of_another_kind_is_refused(made: Path) -> None:
    drill("learner", "new", "k01")
    result = drill("weak", "k01", "--sheet", "sheet.docx")
    assert isinstance(result.exception, WrongValue)


def test_past_answers_say_that_a_part_was_on_paper_and_a_handout_holds_none_of_it(
    made: Path,
) -> None:
    enter(filled(made, "k01"), "--new", "--at", "2027-03-01T10:00")
    assert "(on paper)" in drill("answers", "k01").output
    with open_store() as store:
        assert settled_here(store) == ()


def test_erasing_a_pupil_of_a_class_takes_the_marks_from_paper_too(made: Path, home: Path) -> None:
    Path("in").mkdir()
    for code in ("k01", "k02"):
        work = practised(random.Random(1), dict.fromkeys(SKILLS, 0.6), 8)
        Path(f"in/{code}.handin").write_bytes(packed(pupil(code, work)))
    Path("list.csv").write_text("k01,Ann Example\nk02,Ben Example\n", encoding="utf-8")
    drill("class", "collect", "in", "--class", "c1", "--list", "list.csv")
    assert enter(filled(made, "k01", "k02"), "--class", "c1", "--new")[0] == 0
    left = drill("class", "erase", "k02", typed=["n"])
    assert left.exit_code == 1
    assert "in this computer's store, for good? [y/N]" in left.output
    assert "k02:" in drill("data").output
    said = drill("class", "erase", "Ben Example", typed=["y"]).output
    assert "Gone from this machine: k02." in said
    assert str(Path("in").resolve()) in said.replace("\n", "")
    assert [one.code for one in class_named("c1").pupils()] == ["k01"]
    assert "k02" not in drill("data").output
    assert "k01:" in drill("data").output
