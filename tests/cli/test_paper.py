"""`drill paper`: made, marked, typed back in; whatever is in doubt is told and not kept."""

from __future__ import annotations

import csv
import json
import random
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

import pytest

from drill.app.classes.class_room import class_named
from drill.app.context import open_bank, open_store
from drill.app.papers.paper_handout import take_paper_marks
from drill.app.topics.handouts import settled_here
from drill.app.weakness.part_answers import Asked, part_answers
from drill.errors import WrongValue
from drill.exchange.hand_in import packed
from drill.exchange.handout import unpacked
from drill.exchange.paper_lines import paper_lines
from drill.store import Learner, Store, observations
from tests.common.classes import SKILLS, practised, pupil
from tests.common.desk import drill

Rows = list[list[str]]
UNANSWERED = 1
"""Marks of the one part that the pupil of `handed` passed."""


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


@pytest.fixture
def handed(made: Path, home: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[[], str]:
    """A pupil of class c1 with a machine of their own; calling it hands out and opens there."""
    pupil = home.parent / "pupil"

    def on(machine: Path, *command: str, typed: tuple[str, ...] = ()) -> str:
        monkeypatch.setenv("DRILL_HOME", str(machine))
        result = drill(*command, typed=typed)
        monkeypatch.setenv("DRILL_HOME", str(home))
        assert result.exit_code == 0, result.output
        return result.output

    def hand_in() -> None:
        on(pupil, "data", "export", "--learner", "k01", "--out", "in/k01.handin")
        on(home, "class", "collect", "in", "--class", "c1")

    def hand_out() -> str:
        on(home, "deck", "handout", "first-steps", "--out", "h.handout")
        said = on(pupil, "sit", "h.handout", "--learner", "k01", typed=("stop",))
        hand_in()
        return said

    Path("in").mkdir()
    on(pupil, "learner", "new", "k01")
    on(pupil, "sit", "first-steps", "--learner", "k01", typed=("pass", "stop"))
    hand_in()
    return hand_out


def pupil_rows(home: Path, monkeypatch: pytest.MonkeyPatch) -> list[tuple[int, int]]:
    """(marks, out of) of what is on paper, on the pupil's own machine."""
    monkeypatch.setenv("DRILL_HOME", str(home.parent / "pupil"))
    with open_store() as store:
        (who,) = store.learners()
        judged = [
            answer.mark
            for asking in store.askings(who)
            for answer in asking.answers
            if answer.verdict and answer.verdict.by == "paper"
        ]
        memory = learners_memory(store, who)
    monkeypatch.setenv("DRILL_HOME", str(home))
    assert memory >= len(judged) > 0
    return [(mark.marks, mark.of) for mark in judged if mark]


def learners_memory(store: Store, who: Learner) -> int:
    """How many observations memory is made of."""
    asked = Asked(store, open_bank())
    return sum(len(observations(one, asked.infos(one))) for one in store.askings(who))


def test_a_handout_brings_paper_marks_to_the_pupils_machine_once(
    made: Path, home: Path, handed: Callable[[], str], monkeypatch: pytest.MonkeyPatch
) -> None:
    code, said = enter(filled(made, "K01", "k02"), "--new", "--class", "c1")
    assert code == 0, said
    assert "Marks from paper came with it, for" in handed()
    found = pupil_rows(home, monkeypatch)
    assert sum(marks for marks, _ in found) == sum(of for _, of in found) == 10
    assert "Marks from paper" not in handed()  # the same once more
    assert pupil_rows(home, monkeypatch) == found
    (pupil,) = [one for one in class_named("c1").pupils() if one.code.casefold() == "k01"]
    assert len(pupil.machines) == 2  # the teacher's and the pupil's, each mark counted once
    assert (pupil.sums.marks, pupil.sums.of) == (10, 10 + UNANSWERED)


def test_a_corrected_mark_follows_and_an_older_handout_does_not_undo_it(
    made: Path, home: Path, handed: Callable[[], str], monkeypatch: pytest.MonkeyPatch
) -> None:
    enter(filled(made, "k01"), "--new", "--at", "2024-03-01T10:00")
    handed()
    older = Path("h.handout").read_bytes()
    code, said = enter(filled(made, "k01", change=put(2, 2, "0")), "--at", "2024-03-02T10:00")
    assert code == 0, said
    handed()
    assert sum(marks for marks, _ in pupil_rows(home, monkeypatch)) == 9
    Path("old.handout").write_bytes(older)
    monkeypatch.setenv("DRILL_HOME", str(home.parent / "pupil"))
    drill("sit", "old.handout", "--learner", "k01", typed=["stop"])
    assert sum(marks for marks, _ in pupil_rows(home, monkeypatch)) == 9


def test_a_handout_tells_nobody_elses_marks_by_code(
    made: Path, home: Path, handed: Callable[[], str]
) -> None:
    enter(filled(made, "k01", "k02"), "--new")
    handed()
    text = unpacked(Path("h.handout").read_bytes())["paper.jsonl"]
    assert "k01" not in text
    assert "k02" not in text
    (learner,) = {json.loads(line)["learner"] for line in text.splitlines()}
    assert len(learner) == 32


def test_lines_that_are_not_sound_are_passed_over_and_typed_answers_stay(
    made: Path, home: Path, handed: Callable[[], str], monkeypatch: pytest.MonkeyPatch
) -> None:
    enter(filled(made, "k01"), "--new")
    handed()
    lines = unpacked(Path("h.handout").read_bytes())["paper.jsonl"].splitlines()
    good = json.loads(lines[0])
    bad = [
        {**good, "seed": -1}, {**good, "seed": "1"}, {**good, "at": 1e300}, {**good, "parts": []},
        {**good, "parts": [["a", 1, "00"]]}, {**good, "parts": [["a", 1.5, "00" * 16]]},
        {**good, "template": 7}, {**good, "judged": None}, [], 3, None,
    ]  # fmt: skip
    assert list(paper_lines("\n".join([*map(json.dumps, bad), "{", "[" * 9999]))) == []
    monkeypatch.setenv("DRILL_HOME", str(home.parent / "pupil"))
    later = {"judged": good["judged"] + 10**9}
    forged = [
        {**good, **later, "version": "0" * 16},
        {**good, **later, "template": "no/such"},
        {**good, **later, "seed": good["seed"] + 1, "parts": [["a", 99, "ab" * 16]]},
    ]
    with open_store() as store:
        text = "\n".join(map(json.dumps, forged))
        assert take_paper_marks(store, open_bank(), "first-steps", text, datetime.now(UTC)) == 0


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
