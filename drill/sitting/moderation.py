"""A teacher or tutor settles a mark: their verdict stands, and is kept as a sample answer.

The sample answers of settled marks are the user's own and stay in the data folder; they name no
learner. `drill bank check` holds the marker against them.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from drill.errors import DrillError, WrongValue
from drill.frozen import replace
from drill.places import data_dir, private_folder, put
from drill.plaintext import one_line

if TYPE_CHECKING:
    from drill.model import Mark
    from drill.store import AnswerRow, AskingRow, OpenMark, Store

JUDGES = ("teacher", "tutor")


def settled_dir() -> Path:
    """Where sample answers of settled marks are kept: `<template>.answers.jsonl` below it."""
    return data_dir() / "settled"


def settle(
    store: Store,
    mark: OpenMark,
    points: Mapping[str, int],
    by: str,
    now: datetime,
    reply: str = "",
) -> Mark:
    """Store the verdict of a person in charge and keep the answer as a sample.

    Args:
        points: marks given, by marking point; a point left out keeps the marks it has.
        by: teacher or tutor.
        reply: a line to the learner, "" for none.

    Raises:
        DrillError: an unknown point, or marks it cannot earn.
    """
    if by not in JUDGES:
        raise WrongValue(f'--by "{one_line(by, 40)}": it is one of {", ".join(JUDGES)}.')
    verdict = judged(_marked(mark.answer), points)
    # both have the teacher's authority; the words keep who it was
    store.verdict(mark.answer.id, "teacher", f"by hand, {by}", verdict, now, reply or None)
    asking, answer = mark.asking, mark.answer
    given = {point.id: point.marks for point in verdict.points}
    keep_sample(asking.template, asking.version, asking.seed, answer.part, answer.text, given)
    return verdict


def judge(
    store: Store,
    mark: OpenMark,
    points: Mapping[str, int],
    by: str,
    now: datetime,
    reply: str = "",
) -> bool:
    """Store a verdict that a person in charge gave elsewhere, where it is not in force already.

    Points that the answer does not have are passed over: it may have been marked otherwise here.

    Returns:
        Whether anything is new.
    """
    before = mark.answer.verdict
    if before is None:
        return False
    known = {point.id: point for point in before.mark.points}
    fit = {id_: min(marks, known[id_].of) for id_, marks in points.items() if id_ in known}
    verdict = judged(before.mark, fit)
    given = {point.id: point.marks for point in before.mark.points}
    same = before.settled and given == {one.id: one.marks for one in verdict.points}
    if not fit or (same and reply == (before.note or "")):
        return False
    store.verdict(mark.answer.id, "teacher", f"by hand, {by}", verdict, now, reply or None)
    return True


def _marked(answer: AnswerRow) -> Mark:
    if answer.mark is None:
        raise DrillError("this answer has no mark yet.")
    return answer.mark


def judged(before: Mark, points: Mapping[str, int]) -> Mark:
    """The mark with a person's marks by point in place of the marker's.

    Raises:
        DrillError: an unknown point, or marks it cannot earn.
    """
    known = {point.id: point for point in before.points}
    for id_, marks in points.items():
        if id_ not in known:
            raise DrillError(
                f'no marking point "{one_line(id_, 60)}". There are: {", ".join(known)}.'
            )
        if not 0 <= marks <= known[id_].of:
            raise DrillError(f'point "{id_}" earns from 0 to {known[id_].of}, not {marks}.')
    judged = tuple(
        replace(point, marks=points.get(point.id, point.marks), unsure=False, because="by hand")
        for point in before.points
    )
    total = min(before.of, sum(point.marks for point in judged))
    return replace(
        before, points=judged, marks=total, says="", readable=True, self_marked=False, slip=None
    )


# ---------------------------------------------------------------- sample answers


def keep_sample(
    template: str, version: str, seed: int, part: str, text: str, points: Mapping[str, int]
) -> None:
    """One line for this answer; an earlier line of the very same answer is replaced."""
    line: dict[str, object] = {"version": version, "seed": seed, "part": part, "answer": text}
    line["points"] = dict(points)
    path = _path(template)
    private_folder(path.parent)
    rows = [row for row in _rows(path) if not _same(row, line)]
    _write(path, [*rows, line])


def forget_sample(template: str, version: str, seed: int, part: str, text: str) -> None:
    """Take one answer out of the settled ones."""
    key = {"version": version, "seed": seed, "part": part, "answer": text}
    path = _path(template)
    rows = _rows(path)
    kept = [row for row in rows if not _same(row, key)]
    if len(kept) < len(rows):
        _write(path, kept)


def forget_settled(askings: Iterable[AskingRow]) -> int:
    """Take a learner's answers out of the settled ones; returns how many lines went."""
    gone = 0
    for asking in askings:
        path = _path(asking.template)
        for answer in asking.answers:
            rows = _rows(path)
            kept = [row for row in rows if not _same(row, _key(asking, answer))]
            if len(kept) < len(rows):
                gone += len(rows) - len(kept)
                _write(path, kept)
    return gone


def _key(asking: AskingRow, answer: AnswerRow) -> dict[str, object]:
    return {
        "version": asking.version,
        "seed": asking.seed,
        "part": answer.part,
        "answer": answer.text,
    }


def _same(row: object, key: Mapping[str, object]) -> bool:
    names = ("version", "seed", "part", "answer")
    return isinstance(row, dict) and all(row.get(name) == key[name] for name in names)


def _path(template: str) -> Path:
    """The file of a template's settled answers; an id from an imported file may hold anything."""
    pieces = template.split("/")
    if any(not piece.strip(".") or "\\" in piece or "\0" in piece for piece in pieces):
        raise DrillError(f'"{template}" is no template id.')
    return settled_dir().joinpath(*pieces[:-1], f"{pieces[-1]}.answers.jsonl")


def _rows(path: Path) -> list[object]:
    """The lines there are; one that cannot be read is dropped, as nothing could be made of it."""
    if not path.is_file():
        return []
    rows: list[object] = []
    for line in path.read_text("utf-8", errors="replace").splitlines():
        try:
            rows.append(json.loads(line))
        except (ValueError, RecursionError):
            continue
    return rows


def _write(path: Path, rows: list[object]) -> None:
    if not rows:
        path.unlink(missing_ok=True)
        return
    text = "".join(json.dumps(row, ensure_ascii=False) + "\n" for row in rows)
    put(path, text.encode(), private=True)
