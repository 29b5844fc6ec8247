"""Appeals: listed with all that settling needs, settled by hand, answers marked again."""

from __future__ import annotations

import json
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from drill.app.appeals import options_of
from drill.errors import DrillError
from drill.generate import generate
from drill.marking import mark
from drill.model import Mark, PointMark, Question
from drill.sitting.history import keep, remembered
from drill.store import NewAsking, Store
from tests.common.desk import drill
from tests.common.shipped import shipped_bank

START = datetime(2027, 1, 12, 17, tzinfo=UTC)
TEMPLATE = "salts/why-excess"
LATER = ("--at", "2027-02-01T09:00")
TYPED = "so it all gets used"
NOTHING = Mark(
    0, 2, (PointMark("acid-used-up", 0, 1), PointMark("pure-product", 0, 1)), "0 of 2.", None
)


def answered(
    home: Path, typed: str = TYPED, stored: Mark | None = NOTHING, appeal: str = ""
) -> str:
    """A written answer of ada's with the mark it was given; returns its id as shown."""
    template = shipped_bank().template(TEMPLATE)
    assert not isinstance(template, tuple)
    question = generate(template, 3)
    assert isinstance(question, Question)
    home.mkdir(exist_ok=True)
    with Store.open(home / "drill.db") as store:
        known = store.learners()
        learner = known[0] if known else store.new_learner("ada", START)
        store.keep_template(template.version, template.id, template.text, [], {})
        sitting = store.start_sitting(learner, "first-steps", START, {})
        skill = template.skills[0]
        asking = store.ask(
            NewAsking(sitting, learner, template.version, template.id, 3, skill, False), START
        )
        answer = store.answer(asking, "a", typed, "answer", None, 20.0, START)
        given = stored or mark(question.parts[0], typed)
        store.verdict(answer, "engine", "1+old", given, START)
        if appeal:
            store.appeal(answer, appeal, START + timedelta(minutes=1))
        return answer.hex()[-8:]


def rows() -> list[dict[str, object]]:
    return json.loads(drill("appeals", "--json").output)


def mark_in_force(home: Path):
    with Store.open(home / "drill.db") as store:
        (asking,) = store.askings(store.learners()[0])
        return asking.answers[0].verdict


def test_a_contested_mark_is_listed_with_what_settling_needs(home: Path) -> None:
    id = answered(home, appeal="used up is the same")
    (row,) = rows()
    assert (row["id"], row["why"], row["reason"]) == (id, "contested", "used up is the same")
    assert (row["learner"], row["answer"], row["marks"], row["of"]) == ("ada", TYPED, 0, 2)
    assert "excess" in str(row["ask"])
    assert [point["id"] for point in row["points"]] == ["acid-used-up", "pure-product"]
    assert all(point["says"] != point["id"] for point in row["points"])


def test_nothing_is_listed_for_a_mark_nobody_doubts(home: Path) -> None:
    answered(home, typed="it looks nicer")
    assert rows() == []
    assert "No mark is waiting." in drill("appeals").output


def test_settling_for_scripts_replaces_the_mark_and_closes_the_appeal(home: Path) -> None:
    id = answered(home, appeal="why not")
    result = drill("appeals", "settle", id, "--points", "acid-used-up=1", "--by", "tutor")
    assert result.output == f"{id}: 1 of 2, by tutor.\n"
    verdict = mark_in_force(home)
    assert (verdict.by, verdict.marker, verdict.mark.marks) == ("teacher", "by hand, tutor", 1)
    assert rows() == []


@pytest.mark.parametrize(
    ("points", "says"),
    [
        ("acid=1", 'no marking point "acid". There are: acid-used-up, pure-product.'),
        ("acid-used-up=2", 'point "acid-used-up" earns from 0 to 1, not 2.'),
        ("acid-used-up", '--points "acid-used-up": write it as acid-used-up=1,pure=0.'),
    ],
)
def test_what_cannot_be_given_is_refused(home: Path, points: str, says: str) -> None:
    id = answered(home, appeal="why not")
    result = drill("appeals", "settle", id, "--points", points)
    assert result.exit_code == 1
    assert str(result.exception) == says
    assert mark_in_force(home).by == "engine"


def test_an_unknown_id_is_refused(home: Path) -> None:
    answered(home, appeal="why not")
    with pytest.raises(DrillError, match='no mark with the id "ffffffff"'):
        raise drill("appeals", "settle", "ffffffff", "--points", "a=1").exception


def test_a_conversation_settles_point_by_point(home: Path) -> None:
    answered(home, appeal="it says so")
    screen = drill("appeals", typed=["what", "yes", ""]).output
    assert "it says so" in screen
    assert "Settled: 1 of 2, by teacher." in screen
    assert "1 settled, 0 still waiting." in screen
    points = {point.id: point.marks for point in mark_in_force(home).mark.points}
    assert points == {"acid-used-up": 1, "pure-product": 0}


@pytest.mark.parametrize("typed", [["skip"], ["stop"], ["yes", "skip"], []])
def test_what_is_left_stays_as_it_was(home: Path, typed: list[str]) -> None:
    answered(home, appeal="it says so")
    assert "0 settled, 1 still waiting." in drill("appeals", typed=typed).output
    assert mark_in_force(home).by == "engine"


def test_memory_is_rebuilt_with_the_settled_mark(home: Path) -> None:
    id = answered(home, appeal="it says so")

    def held(store: Store) -> float:
        learner = store.learners()[0]
        seen = store.seen()
        memory = remembered(store, learner)
        keep(store, learner, memory, seen)
        return memory.chance("salts.excess", TEMPLATE, START + timedelta(days=1))

    with Store.open(home / "drill.db") as store:
        before = held(store)
    drill("appeals", "settle", id, "--points", "acid-used-up=1,pure-product=1")
    with Store.open(home / "drill.db") as store:
        assert held(store) > before


# ---------------------------------------------------------------- kept as sample answers


def settled_file(home: Path) -> Path:
    return home / "settled" / f"{TEMPLATE}.answers.jsonl"


def test_a_settled_answer_becomes_a_sample_without_a_name(home: Path) -> None:
    id = answered(home, appeal="it says so")
    drill("appeals", "settle", id, "--points", "acid-used-up=1")
    (line,) = settled_file(home).read_text("utf-8").splitlines()
    row = json.loads(line)
    assert row["answer"] == TYPED
    assert row["points"] == {"acid-used-up": 1, "pure-product": 0}
    assert set(row) == {"version", "seed", "part", "answer", "points"}
    assert "ada" not in line


def test_bank_check_reads_settled_answers_and_only_notes_a_difference(home: Path) -> None:
    id = answered(home, appeal="it says so", typed="purple elephants")
    drill("appeals", "settle", id, "--points", "acid-used-up=1")
    result = drill("bank", "check", TEMPLATE, "--seeds", "1", "--jobs", "1", "--json")
    assert result.exit_code == 0, result.output
    (note,) = [row for row in json.loads(result.output)["problems"] if "settled" in row["message"]]
    assert note["level"] == "note"
    assert '"purple elephants" earns 0 for "acid-used-up", by hand 1.' in note["message"]


def test_erasing_a_learner_takes_the_settled_answers_along(home: Path) -> None:
    id = answered(home, appeal="it says so")
    drill("appeals", "settle", id, "--points", "acid-used-up=1")
    assert drill("data", "erase", "ada", "--yes").exit_code == 0
    assert not settled_file(home).exists()


# ---------------------------------------------------------------- marked again


def test_marking_again_shows_first_and_stores_when_told(home: Path) -> None:
    right = "so that all of the acid reacts and the salt is pure with no acid left in it"
    answered(home, typed=right)
    shown = drill("regrade", TEMPLATE).output
    assert "1 answer marked again, 1 would change." in shown
    assert "0 → 2 of 2" in shown
    assert mark_in_force(home).mark.marks == 0
    assert "1 changed" in drill("regrade", "--yes", *LATER).output
    verdict = mark_in_force(home)
    assert (verdict.by, verdict.mark.marks) == ("engine", 2)
    assert verdict.marker != "1+old"
    assert "0 would change" in drill("regrade").output


def test_a_teachers_mark_stands_when_marking_again(home: Path) -> None:
    right = "so that all of the acid reacts and the salt is pure with no acid left in it"
    id = answered(home, typed=right, appeal="look again")
    drill("appeals", "settle", id, "--points", "acid-used-up=0,pure-product=1")
    assert "0 answers marked again, 0 changed." in drill("regrade", "--yes", *LATER).output
    assert mark_in_force(home).mark.marks == 1


def test_marking_again_without_a_change_changes_nothing(home: Path) -> None:
    answered(home, stored=None)
    row = json.loads(drill("regrade", "--json").output)
    assert row == {"looked_at": 1, "left": 0, "stored": False, "changes": []}


def test_a_question_mark_explains_and_patterns_are_shown_on_request(home: Path) -> None:
    answered(home, typed="so that all the acid is used up", appeal="it says so")
    plain = drill("appeals", typed=["skip"]).output
    assert "accepts:" not in plain
    asked = drill("appeals", typed=["?", "lines", "skip"]).output
    assert "Say whether the answer earns this point" in asked
    assert "accepts:" in asked


def test_a_choice_is_shown_with_its_options() -> None:
    entry = next(one for one in shipped_bank().entries() if "choice" in one.kinds and one.ok)
    template = shipped_bank().template(entry.id)
    assert not isinstance(template, tuple)
    question = generate(template, 3)
    assert isinstance(question, Question)
    (part, *_) = (one for one in question.parts if one.kind == "choice")
    shown = options_of(part)
    assert [one.split()[0] for one in shown] == [one.letter for one in part.key.options]
    assert all(one.text in line for one, line in zip(part.key.options, shown, strict=True))


def test_an_appeal_before_an_answer_names_the_question_before() -> None:
    typed = ["water", "water", "", "appeal", "", "stop"]
    said = drill("sit", "first-steps", "--learner", "k7", "--seed", "1", typed=typed).output
    about = said.partition("About the question before this one, ")
    title = about[2].partition(":")[0]
    assert title
    assert title in about[0]
    assert "Left as it is." in about[2]
