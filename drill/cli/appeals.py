"""`drill appeals`: contested marks and marks the marker was not sure of, settled by a person."""

from __future__ import annotations

import sys
from collections.abc import Mapping
from datetime import datetime
from typing import TYPE_CHECKING, Annotated, Any

import typer

from drill.cli.common import (
    AsJson,
    At,
    LearnerCode,
    Plain,
    clock,
    existing_learner,
    open_bank,
    open_store,
    rows_as_json,
)
from drill.errors import DrillError

if TYPE_CHECKING:
    from drill.bank import Bank
    from drill.cli.screen import Screen
    from drill.sitting import Remarked
    from drill.store import OpenMark, Store

app = typer.Typer(help="Settle contested marks and marks the marker was not sure of.")

By = Annotated[str, typer.Option("--by", help="Who decides: teacher or tutor.")]
Id = Annotated[str, typer.Argument(help="The mark, by the id that drill appeals shows.")]
Points = Annotated[
    str, typer.Option("--points", help="Marks by marking point, as acid-used-up=1,pure=0.")
]
Template = Annotated[str, typer.Argument(help="Only answers to this template.")]
Yes = Annotated[bool, typer.Option("--yes", help="Store the new marks.")]


@app.callback(invoke_without_command=True)
def appeals(
    context: typer.Context,
    learner: LearnerCode = "",
    by: By = "teacher",
    plain: Plain = False,
    as_json: AsJson = False,
    at: At = "",
) -> None:
    """Go through contested marks and marks not sure of, and settle each; --json only lists them.

    Written answers are marked by pattern, measured on invented answers marked by their author: on
    real pupils expect worse than the 84 to 96 answers in 100 of published systems.
    """
    if context.invoked_subcommand is not None:
        return
    from drill.cli.screen import Screen
    from drill.sitting import JUDGES

    if by not in JUDGES:
        raise DrillError(f'--by "{by}": it is one of {", ".join(JUDGES)}.')
    bank = open_bank()
    with open_store() as store:
        marks = open_marks(store, learner)
        if as_json:
            rows_as_json([row_of(store, bank, mark) for mark in marks])
            return
        _go_through(Screen(plain), store, bank, marks, by, clock(at))


@app.command()
def settle(id: Id, points: Points, by: By = "teacher", at: At = "") -> None:
    """Settle one mark without a conversation, for scripts."""
    from drill.sitting import settle as settled

    given = _points(points)
    with open_store() as store:
        mark = _wanted(open_marks(store, ""), id)
        verdict = settled(store, mark, given, by, clock(at))
    sys.stdout.write(f"{id}: {verdict.marks} of {verdict.of}, by {by}.\n")


@app.command()
def remark(template: Template = "", yes: Yes = False, as_json: AsJson = False, at: At = "") -> None:
    """Mark stored answers again with today's schemes; shows what would change, --yes stores it.

    Marks given by a teacher, on paper or by the learner stand.
    """
    from drill.cli.screen import Screen
    from drill.sitting import remark as remarked
    from drill.sitting import store_changes

    bank = open_bank()
    with open_store() as store:
        found = remarked(store, bank, _full_id(bank, template))
        if yes:
            store_changes(store, bank, found, clock(at))
    if as_json:
        rows_as_json({"looked_at": found.looked_at, "left": found.left, "stored": yes,
                      "changes": _changes(found)})  # fmt: skip
        return
    _show_remarked(Screen(), found, yes)


# ---------------------------------------------------------------- which marks


def open_marks(store: Store, code: str) -> list[OpenMark]:
    """Marks waiting, contested ones first; of one learner, or of everybody here."""
    learners = [existing_learner(store, code)] if code else store.learners()
    marks = [mark for learner in learners for mark in store.open_marks(learner)]
    return sorted(marks, key=lambda mark: (mark.answer.appeal is None, mark.answer.when))


def row_of(store: Store, bank: Bank, mark: OpenMark) -> dict[str, Any]:
    """The mark with its question as it was asked."""
    from drill.reports import appeal_row
    from drill.sitting import as_asked, part_of

    question = as_asked(store, bank, mark.asking)
    return appeal_row(mark, question, part_of(question, mark.answer.part))


def _wanted(marks: list[OpenMark], id: str) -> OpenMark:
    found = [mark for mark in marks if len(id) >= 4 and mark.answer.id.hex().endswith(id.lower())]
    if len(found) != 1:
        what = "no open mark" if not found else "more than one open mark"
        raise DrillError(f'{what} with the id "{id}". drill appeals --json lists them.')
    return found[0]


def _points(text: str) -> dict[str, int]:
    given: dict[str, int] = {}
    for piece in text.split(","):
        name, _, marks = piece.partition("=")
        if not name.strip() or not marks.strip().isascii() or not marks.strip().isdecimal():
            raise DrillError(f'--points "{text}": write it as acid-used-up=1,pure=0.')
        given[name.strip()] = int(marks)
    return given


def _full_id(bank: Bank, template: str) -> str:
    """The template's id; one that is gone from the bank may still have answers."""
    entry = bank.entry(template) if template else None
    return entry.id if entry else template.replace(".", "/")


# ---------------------------------------------------------------- a conversation


def _go_through(
    screen: Screen, store: Store, bank: Bank, marks: list[OpenMark], by: str, now: datetime
) -> None:
    from drill.sitting import settle as settled

    if not marks:
        screen.line("No mark is waiting.")
        return
    screen.line("Enter: as it stands · skip: leave this one · stop", style="dim")
    done = 0
    try:
        for number, mark in enumerate(marks, 1):
            row = row_of(store, bank, mark)
            _show(screen, row, f"{number} of {len(marks)}")
            given = _decided(screen, row)
            if given is not None:
                verdict = settled(store, mark, given, by, now)
                screen.line(f"Settled: {verdict.marks} of {verdict.of}, by {by}.")
                done += 1
    except (_Stop, EOFError):
        pass
    screen.line()
    screen.line(f"{done} settled, {len(marks) - done} still waiting.")


class _Stop(Exception):
    """The word `stop` was typed."""


def _show(screen: Screen, row: Mapping[str, Any], place: str) -> None:
    screen.line()
    screen.pair(f"{row['template']} ({row['part']})  {row['id']}", place, style="bold")
    screen.rule()
    if row["ask"] is None:
        screen.line("This question can no longer be made as it was: its facts have changed.")
    else:
        screen.line(row["question"])
        screen.line(row["ask"])
        screen.item("answer", row["model_answer"])
    screen.item("learner", row["learner"])
    screen.item("typed", row["answer"] or "(nothing)")
    if row["reason"]:
        screen.item("reason", row["reason"])
    screen.item("marker", f"{row['marks']} of {row['of']}. {row['says']}")


def _decided(screen: Screen, row: Mapping[str, Any]) -> dict[str, int] | None:
    """Marks for every point; None when this one is left."""
    given: dict[str, int] = {}
    for point in row["points"]:
        told = " (not sure)" if point["unsure"] else ""
        screen.item("scheme", f"{point['says']}: {point['marks']} of {point['of']}{told}")
        marks = _ask_point(screen, point)
        if marks is None:
            return None
        given[point["id"]] = marks
    return given


def _ask_point(screen: Screen, point: Mapping[str, Any]) -> int | None:
    most = point["of"]
    asks = "Earned? yes or no > " if most == 1 else f"Marks, 0 to {most} > "
    while True:
        word = screen.ask(asks).strip().casefold()
        if word == "stop":
            raise _Stop
        if word == "skip":
            return None
        if word == "":
            return int(point["marks"])
        if most == 1 and word in ("yes", "y", "no", "n"):
            return int(word.startswith("y"))
        if word.isascii() and word.isdecimal() and int(word) <= most:
            return int(word)


# ---------------------------------------------------------------- marked again


def _changes(found: Remarked) -> list[dict[str, Any]]:
    from drill.reports import short_id

    return [
        {
            "id": short_id(change.answer.id),
            "learner": change.learner.code,
            "template": change.asking.template,
            "part": change.answer.part,
            "answer": change.answer.text,
            "old": change.old.marks,
            "new": change.new.marks,
            "of": change.new.of,
            "not_sure": list(change.new.unsure),
            "says": change.new.says,
        }
        for change in found.changes
    ]


def _show_remarked(screen: Screen, found: Remarked, stored: bool) -> None:
    rows = _changes(found)
    answers = "answer" if found.looked_at == 1 else "answers"
    screen.line(f"{found.looked_at} {answers} marked again, {len(rows)} would change."
                if not stored else
                f"{found.looked_at} {answers} marked again, {len(rows)} changed.")  # fmt: skip
    if found.left:
        screen.line(f"{found.left} left as they are: their question cannot be made again.")
    for row in rows:
        screen.line()
        unsure = "  (not sure)" if row["not_sure"] else ""
        screen.line(f"{row['template']} ({row['part']})  {row['learner']}  "
                    f"{row['old']} → {row['new']} of {row['of']}{unsure}")  # fmt: skip
        screen.item("typed", row["answer"])
        screen.item("marker", row["says"])
    if rows and not stored:
        screen.line()
        screen.line("Nothing is stored yet. To store it: drill appeals remark --yes")
