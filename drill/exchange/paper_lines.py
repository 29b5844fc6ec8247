"""Marks from paper as lines of a handout: a line a question that a pupil answered on paper.

Each is for one learner on one machine, by that learner's id there, which nobody else knows: a
handout goes to a whole class. A line that is not sound is passed over.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from datetime import UTC, datetime
from typing import Any, NamedTuple

_LARGEST = 1_500_000
_LONGEST, _MOST_PARTS, _MOST_MARKS = 200, 26, 100
_TIMES = ("at", "judged")
_SEEDS = 2**63 - 1


class PaperPartMark(NamedTuple):
    """`marks` None for a part that was not tried; `answer` the id its answer has everywhere."""

    part: str
    marks: int | None
    answer: bytes


class PaperLine(NamedTuple):
    """One question with its marks; `paper` tells which ones were written together.

    `at` is when it was entered, `judged` when a mark of it was given or changed last.
    """

    learner: str
    paper: str
    at: datetime
    judged: datetime
    template: str
    version: str
    seed: int
    skill: str
    parts: tuple[PaperPartMark, ...]


def as_text(lines: Iterable[PaperLine]) -> str:
    """The lines, the newest papers first; the oldest are left out where it gets too large."""
    found, size = [], 0
    for line in sorted(lines, key=lambda one: one.judged, reverse=True):
        text = json.dumps(_row(line), ensure_ascii=False, separators=(",", ":"))
        size += len(text.encode()) + 1
        if size > _LARGEST:
            break
        found.append(text + "\n")
    return "".join(found)


def _row(line: PaperLine) -> dict[str, Any]:
    parts = [[one.part, one.marks, one.answer.hex()] for one in line.parts]
    times = {name: round(getattr(line, name).timestamp() * 1000) for name in _TIMES}
    return {**line._asdict(), **times, "parts": parts}


def paper_lines(text: str) -> Iterator[PaperLine]:
    """The sound lines of a handout's text."""
    for row in text.splitlines():
        try:
            yield _line(json.loads(row))
        except (ValueError, TypeError, KeyError, AttributeError, OverflowError, RecursionError):
            continue


def _line(row: dict[str, Any]) -> PaperLine:
    names = ("learner", "paper", "template", "version", "skill")
    texts = {name: row[name] for name in names}
    if any(type(one) is not str or len(one) > _LONGEST for one in texts.values()):
        raise ValueError("a text is wanted")
    at, judged = (datetime.fromtimestamp(row[name] / 1000, UTC) for name in _TIMES)
    parts = tuple(_part(*one) for one in row["parts"])
    if type(row["seed"]) is not int or not 0 <= row["seed"] <= _SEEDS:
        raise ValueError("a seed is wanted")
    if not 0 < len(parts) <= _MOST_PARTS:
        raise ValueError("parts are wanted")
    return PaperLine(**texts, at=at, judged=judged, seed=row["seed"], parts=parts)


def _part(part: str, marks: int | None, answer: str) -> PaperPartMark:
    id = bytes.fromhex(answer)
    whole = marks is None or (type(marks) is int and 0 <= marks <= _MOST_MARKS)
    if type(part) is not str or len(part) > 2 or not whole or len(id) != 16:
        raise ValueError("a mark is wanted")
    return PaperPartMark(part, marks, id)
