"""A class gathered here, as commands show it: the report, its answers, its machines."""

from __future__ import annotations

import csv
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta, timezone
from io import StringIO
from typing import TYPE_CHECKING

from drill.app.classes.class_report import ClassReport, class_report
from drill.app.classes.class_room import class_named
from drill.app.context import open_bank_of_all, open_store, skill_names
from drill.errors import DrillError

if TYPE_CHECKING:
    from drill.app.classes.class_questions import Questions
    from drill.bank import Bank
    from drill.exchange.hand_in import HandedIn

ANSWER_HEAD = (
    "pupil", "name", "answered", "question", "part", "skill", "asked", "answer", "option",
    "right answer", "marks", "of", "wrong route", "judged by", "not sure", "appeal", "faulty",
    "seconds",
)  # fmt: skip


def report_on(name: str, now: datetime) -> ClassReport:
    """The report on a class; "" is the one gathered last.

    Raises:
        DrillError: there is no such class, or nobody has handed anything in.
    """
    room = class_named(name)
    everybody = room.pupils()
    if not everybody:
        raise DrillError(f"nobody of {room.title} has handed anything in.")
    return class_report(
        room.title, everybody, room.names(), skill_names(), now.date(), room.list_gone
    )


def _bank() -> Bank:
    """The bank with the school's own questions."""
    with open_store(reading=True) as store:
        return open_bank_of_all(store)


def answers_csv(name: str, with_names: bool) -> str:
    """A row an answer, with what was asked and what was right; it begins with a byte-order mark.

    Without names there is no column of them: codes mean somebody only beside the teacher's list.
    """
    from drill.app.classes.class_questions import Questions
    from drill.exchange.spreadsheet import harmless_cells

    room = class_named(name)
    names, questions = room.names() if with_names else {}, Questions(_bank())
    out = StringIO(newline="")
    writer = csv.writer(out)
    writer.writerow(one for one in ANSWER_HEAD if with_names or one != "name")
    for code, one in room.handed_in():
        for row in one.rows:
            named = (names.get(code.casefold(), ""),) if with_names else ()
            writer.writerow(harmless_cells((code, *named, *_cells(row, questions))))
    return "\ufeff" + out.getvalue()


def _cells(row: HandedIn, questions: Questions) -> Iterator[object]:
    asked = questions.told(row.item, row.seed, row.text)
    when = datetime.fromtimestamp(row.at / 1000, UTC).astimezone(
        timezone(timedelta(minutes=row.zone))
    )
    yield from (when.isoformat(timespec="seconds"), row.item.template, row.item.part)
    yield from (row.item.skill, asked.ask, row.text, asked.option, asked.right)
    yield from (row.marks, row.of, row.mistake, row.judge, row.unsure, row.appeal or "")
    yield from ("yes" if row.faulty else "no", row.ms / 1000)


@dataclass(frozen=True)
class MachineRow:
    """A machine that work came from, and its pupil; `own` is the code there, or paper."""

    code: str
    name: str
    machine: str
    own: str
    answers: int
    made: str


def machines(name: str) -> list[MachineRow]:
    """Every machine, those of one pupil beside each other."""
    room = class_named(name)
    names = room.names()
    rows = []
    for learner, head in room.heads():
        code = room.counts_for(learner, head["code"])
        made = datetime.fromtimestamp(head["made"] / 1000, UTC).date().isoformat()
        rows.append(
            MachineRow(code, names.get(code.casefold(), ""), learner[-8:],
                       "paper" if head["paper"] else head["code"],
                       head["sums"]["answers"], made)
        )  # fmt: skip
    return sorted(rows, key=lambda row: (row.code, row.machine))
