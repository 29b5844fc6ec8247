"""Marks from paper on their way: to the pupil's machine, the class and the reports."""

from __future__ import annotations

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
from tests.common.paper_sheets import enter, filled, put

UNANSWERED = 1
"""Marks of the one part that the pupil of `handed` passed."""


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
