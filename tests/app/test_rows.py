"""What `--json` prints has exactly the fields of the use case's rows, of their types."""

from __future__ import annotations

import json
import shutil
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from pathlib import Path
from types import NoneType, UnionType
from typing import Any, Union, get_args, get_origin, get_type_hints

import pytest

from drill.app.answers import AnswerLine
from drill.app.appeals import Appeal, OfferedMark
from drill.app.ask import AskedQuestion
from drill.app.bank_check import BankFindings
from drill.app.bank_list import TemplateRow
from drill.app.bench_results import BenchRows
from drill.app.classes.class_collect import Collected
from drill.app.classes.class_report import ClassReport
from drill.app.classes.class_views import MachineRow
from drill.app.classes.trust import TrustReport
from drill.app.coverage import CoveredPractical, CoveredSkill
from drill.app.data import ImportRow, Verified
from drill.app.learners import LearnerRow
from drill.app.mark import BadLine, QuestionMark
from drill.app.papers.paper_entry import Entered
from drill.app.papers.paper_rows import MadePaper
from drill.app.plan import PlanFigures
from drill.app.regrade import Regraded
from drill.app.topics.deck_check import DeckFindings
from drill.app.topics.decks import DeckRow, FaultyDeck
from drill.app.weakness.weak import LearnerReport
from drill.checking.close_look import TriedAnswer
from drill.errors import Problem
from drill.exchange.hand_in import packed
from drill.store import Arrival, Store
from tests.cli.test_appeals import answered
from tests.common.classes import SKILLS, class_of
from tests.common.desk import drill
from tests.common.history import slipped_twice
from tests.store.making import NOW, asked, mark, typed

ROWS: dict[tuple[str, ...], Any] = {
    ("weak",): list[LearnerReport],
    ("plan",): PlanFigures,
    ("answers",): list[AnswerLine],
    ("results", "readings.csv"): BenchRows,
    ("appeals",): list[Appeal],
    ("regrade",): Regraded,
    ("ask", "salts/percentage-yield"): AskedQuestion,
    ("ask", "titration/concordant-table"): AskedQuestion,
    ("ask", "salts/order-crystals"): AskedQuestion,
    ("deck", "list"): list[DeckRow | FaultyDeck],
    ("deck", "check", "first-steps"): DeckFindings,
    ("deck", "check", "bad"): DeckFindings,
    ("bank", "list"): list[TemplateRow],
    ("bank", "cover"): list[CoveredPractical | CoveredSkill],
    ("bank", "check", "salts/why-excess", "--seeds", "2", "--jobs", "1"): BankFindings,
    ("class", "collect", "handed-in"): Collected,
    ("class", "report"): ClassReport,
    ("class", "pupils"): list[MachineRow],
    ("class", "trust", "trust"): TrustReport,
    ("learner", "list"): list[LearnerRow],
    ("paper", "make", "first-steps", "--marks", "10", "--format", "text", "--out", "papers"): (
        list[MadePaper]
    ),
    ("paper", "enter", "marks.csv", "--new"): Entered,
    ("data", "verify"): Verified,
    ("data", "imports"): list[ImportRow],
    ("appeals", "accept"): list[OfferedMark],
}


def misfit(value: Any, wanted: Any) -> str:
    """Where a JSON value is not what the type says; "" when it is."""
    origin = get_origin(wanted)
    if origin in (Union, UnionType):
        said = [misfit(value, one) for one in get_args(wanted)]
        return "" if "" in said else " or ".join(said)
    if wanted is Problem:
        return "" if set(value) == {one.name for one in fields(Problem)} else f"{value!r}"
    if is_dataclass(wanted):
        return _misfit_row(value, wanted)
    if origin in (list, tuple):
        wrong = "" if isinstance(value, list) else f"{value!r} is no list"
        return wrong or next(filter(None, (misfit(v, get_args(wanted)[0]) for v in value)), "")
    if origin is Mapping:
        return next(filter(None, (misfit(v, get_args(wanted)[1]) for v in value.values())), "")
    kinds = (int, float) if wanted is float else (NoneType if wanted is None else wanted,)
    right = isinstance(value, kinds) and (wanted is bool or not isinstance(value, bool))
    return "" if right else f"{value!r} is no {wanted}"


def _misfit_row(value: Any, wanted: Any) -> str:
    types = get_type_hints(wanted)
    types = {one.metadata.get("name", one.name): (one, types[one.name]) for one in fields(wanted)}
    needed = [name for name, (one, _) in types.items() if not one.metadata.get("optional")]
    if not isinstance(value, dict) or [name for name in value if name in needed] != needed:
        return f"{value!r} is no {wanted.__name__}"
    if unknown := set(value) - set(types):
        return f"{unknown} are no fields of {wanted.__name__}"
    wrong = (misfit(inner, types[name][1]) for name, inner in value.items())
    return next((f"{wanted.__name__}: {one}" for one in wrong if one), "")


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory, bank_index: Path) -> Path:
    """The folder `practised` is a copy of, made once."""
    folder = tmp_path_factory.mktemp("desk")
    home = folder / "drill-home"
    home.mkdir()
    shutil.copy(bank_index, home)
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("DRILL_HOME", str(home))
        patch.chdir(folder)
        _practise(home)
    return folder


@pytest.fixture
def practised(desk: Path, home: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A slip that came back, a contested mark, a deck with a fault."""
    shutil.copytree(desk, tmp_path, dirs_exist_ok=True)
    monkeypatch.chdir(tmp_path)
    gathered(home)  # a class keeps the place of its files


def _practise(home: Path) -> None:
    slipped_twice(home)
    answered(home, appeal="used up is the same")
    came_from_elsewhere(home)
    on_paper()
    rows = "kind,rf\nline,1.5\nspot,4.7\nfront,8.5\n"
    Path("readings.csv").write_text(rows, encoding="utf-8")
    (home / "decks").mkdir()
    bad = 'format = 1\nid = "bad"\ntitle = "T"\nminuts_a_day = 3\n'
    (home / "decks" / "bad.toml").write_text(bad, encoding="utf-8")


def on_paper() -> None:
    """A sheet of marks with one pupil who got all of them."""
    drill("paper", "make", "first-steps", "--marks", "10", "--format", "text", "--out", "printed")
    sheet = Path("printed/first-steps-1-marks.csv").read_text("utf-8-sig")
    head, most, blank = sheet.splitlines()
    full = most.replace("out of,,", f"p1,{blank.split(',')[1]},")
    Path("marks.csv").write_text("\n".join((head, most, full)))


def gathered(home: Path) -> None:
    """A class of which something is to be taught again, and a file that is none of theirs."""
    from drill.app.classes.class_collect import collect

    folder = Path("handed-in")
    folder.mkdir()
    for one in class_of(12, 1, SKILLS[0]):
        (folder / f"{one.code}.handin").write_bytes(packed(one))
    (folder / "other").write_bytes(b"x")
    collect(folder, "", "")
    drill("class", "share", "trust", "--school", "north", "--term", "2027-spring")


def came_from_elsewhere(home: Path) -> None:
    """An import with a mark that a teacher gave there."""
    with Store.open(home.parent / "other.db") as there:
        asking = asked(there, "K9")
        answer = typed(there, asking)
        there.verdict(answer, "engine", "1", mark(0), NOW)
        there.verdict(answer, "teacher", "by hand, teacher", mark(1), NOW)
        lines = list(there.history(there.learners()[0]).records)
    with Store.open(home / "drill.db") as here:
        here.merge((Arrival(n, "K9", one) for n, one in enumerate(lines)), NOW, file="k9.jsonl")


@pytest.mark.usefixtures("practised")
@pytest.mark.parametrize("command", ROWS, ids=" ".join)
def test_json_has_the_fields_of_the_rows(command: tuple[str, ...]) -> None:
    result = drill(*command, "--json")
    value = json.loads(result.output)
    assert value
    assert misfit(value, ROWS[command]) == ""


def test_an_answer_tried_is_a_row() -> None:
    result = drill("bank", "try", "salts/why-excess", "--json", typed=["the acid is used up"])
    assert misfit(json.loads(result.output), TriedAnswer) == ""


def test_each_line_of_mark_is_a_row() -> None:
    asked = '{"template": "salts/percentage-yield", "seed": 7, "answers": {"a": "4.12 g"}}'
    marked, bad = map(json.loads, drill("mark", typed=[asked, "[]"]).output.splitlines()[:2])
    assert misfit(marked, QuestionMark) == ""
    assert misfit(bad, BadLine) == ""


def test_a_field_missing_or_of_another_type_is_noticed() -> None:
    right = {"code": "ada", "since": "2027-01-12"}
    assert misfit([right], list[LearnerRow]) == ""
    assert misfit([{"code": "ada"}], list[LearnerRow])
    assert misfit([right | {"more": 1}], list[LearnerRow])
    assert misfit([right | {"since": 3}], list[LearnerRow])


def test_every_command_with_json_is_held_to_its_rows() -> None:
    from tests.test_docs import leaves

    held = {" ".join(command[:2]) for command in ROWS} | {command[0] for command in ROWS}
    told = {name for name, leaf in leaves() if any("--json" in one.opts for one in leaf.params)}
    assert told - held == {"mark", "bank try"}
