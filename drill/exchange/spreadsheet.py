"""A learner's answers as CSV, one row for each thing typed, for a spreadsheet."""

from __future__ import annotations

import csv
import re
from collections.abc import Callable, Iterable, Mapping
from typing import TextIO

from drill.exchange.jsonl import Exported
from drill.plaintext import one_line
from drill.store import AnswerRow, AskingRow, Learner, Store

COLUMNS = (
    "learner",
    "asked",
    "template",
    "version",
    "seed",
    "skill",
    "part",
    "kind",
    "answer",
    "sure",
    "seconds",
    "answered",
    "marks",
    "of",
    "own_marks",
    "own_of",
    "judged_by",
    "slip",
    "readable",
    "not_sure",
    "carried_forward",
    "self_marked",
    "appeal",
    "faulty",
    "question",
    "option",
    "right_answer",
)
_LONGEST = 100_000
_FORMULA = ("=", "+", "-", "@", "\t", "\r")
_NUMBER = r"[+-]?\d+([.,]\d+)?"


def export_csv(
    store: Store,
    learner: Learner,
    out: TextIO,
    harmless: bool = False,
    told: Callable[[AskingRow, AnswerRow], tuple[str, str, str]] | None = None,
) -> Exported:
    """Write a header and a row for each thing typed, by time.

    Open `out` with newline="". Times are ISO 8601 with their offset, marks those in force; `skill`
    is the part's own; what the learner decided is in `own_marks` and `own_of` and not in `marks`
    and `of`. Text a spreadsheet would take for a formula gets an apostrophe in front. Damaged rows
    are left out. `harmless`: nothing in it may be obeyed by a terminal. `told` gives what was
    asked, the words of the option and what was right; without it these are left empty.
    """
    from drill.sitting import parts_of_versions, skills_of_versions

    whole, damaged = _whole(store, learner)
    askings = [asking for asking in store.askings(learner) if asking.id in whole]
    skills = skills_of_versions(parts_of_versions(store, askings))
    rows = [
        (
            *_row(learner, asking, answer, _skill(skills, asking, answer)),
            *(told(asking, answer) if told else ("", "", "")),
        )
        for asking in askings
        for answer in asking.answers
        if answer.id in whole and (answer.verdict is None or answer.verdict.id in whole)
    ]
    writer = csv.writer(out)
    writer.writerow(COLUMNS)
    for row in rows:
        cells = harmless_cells(row)
        writer.writerow(map(_shown, cells) if harmless else cells)
    return Exported(len(rows), damaged)


def _skill(skills: Mapping[tuple[str, str], str], asking: AskingRow, answer: AnswerRow) -> str:
    return skills.get((asking.version, answer.part)) or asking.skill


def _whole(store: Store, learner: Learner) -> tuple[set[object], int]:
    """The ids of a learner's rows that are what was written, and how many others there are."""
    history = store.history(learner)
    return {record.values.get("id") for record in history.records}, history.damaged


def _shown(cell: object) -> object:
    return one_line(cell, _LONGEST) if isinstance(cell, str) else cell


def _row(learner: Learner, asking: AskingRow, answer: AnswerRow, skill: str) -> tuple[object, ...]:
    mark = answer.mark
    judged: tuple[object, ...] = ("",) * 10
    if mark is not None and answer.verdict is not None:
        judged = (
            *mark.shares(answer.verdict.decided),
            answer.verdict.who,
            mark.slip or "",
            _yes(mark.readable),
            " ".join(mark.unsure),
            _yes(mark.carried),
            _yes(mark.self_marked),
        )
    return (
        learner.code,
        asking.when.isoformat(timespec="seconds"),
        asking.template,
        asking.version,
        asking.seed,
        skill,
        answer.part,
        answer.kind,
        answer.text,
        answer.sure or "",
        answer.seconds,
        answer.when.isoformat(timespec="seconds"),
        *judged,
        answer.appeal or "",
        _yes(asking.faulty),
    )


def _yes(true: bool) -> str:
    return "yes" if true else "no"


def harmless_cells(row: Iterable[object]) -> list[object]:
    """A row whose texts no spreadsheet takes for formulae."""
    return [_harmless(cell) if isinstance(cell, str) else cell for cell in row]


def _harmless(cell: str) -> str:
    is_formula = cell.startswith(_FORMULA) and not re.fullmatch(_NUMBER, cell, re.ASCII)
    return f"'{cell}" if is_formula else cell
