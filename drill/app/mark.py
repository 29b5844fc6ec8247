"""Answers in as JSON Lines, marks out as rows."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, BinaryIO

from drill.app.ask import question_of
from drill.errors import DrillError
from drill.plaintext import short_lines

if TYPE_CHECKING:
    from fractions import Fraction

    from drill.bank import Bank
    from drill.model import Mark, Part, Question

# one line of answers is never this long; more is refused unread
_LONGEST = 1_000_000


@dataclass(frozen=True)
class PartMark:
    """One part's mark; `points` are marks by marking point, `unsure` those not sure of."""

    marks: int
    of: int
    points: Mapping[str, int]
    unsure: tuple[str, ...]
    slip: str | None
    readable: bool
    says: str


@dataclass(frozen=True)
class QuestionMark:
    """A question's marks, with every part by its letter."""

    template: str
    seed: int
    marks: int
    of: int
    parts: Mapping[str, PartMark]


@dataclass(frozen=True)
class BadLine:
    """A line that could not be marked, and why."""

    line: int
    error: str


def marked_lines(bank: Bank, file: BinaryIO) -> Iterator[QuestionMark | BadLine]:
    """A row of marks, or of what is wrong, for every line that is not empty."""
    for number, raw in enumerate(short_lines(file, _LONGEST), start=1):
        if not raw.strip():
            continue
        try:
            yield _marked(bank, _read(raw))
        except DrillError as error:
            yield BadLine(number, str(error))


def marks_of(question: Question, answers: Mapping[str, Any]) -> dict[str, Mark]:
    """Every part marked in order, earlier values carried forward; a missing part is empty."""
    from drill import marking

    earlier: dict[str, Fraction] = {}
    marks: dict[str, Mark] = {}
    for part in question.parts:
        result = marking.mark(part, _typed(part, answers.get(part.id, "")), earlier)
        marks[part.id] = result
        if result.value is not None:
            earlier[part.id] = result.value
    return marks


def _read(raw: bytes) -> dict[str, Any]:
    if len(raw) > _LONGEST:
        raise DrillError(f"the line has more than {_LONGEST:,} bytes; no answers are as long")
    try:
        row = json.loads(raw)
    except (ValueError, RecursionError) as error:
        raise DrillError(f"not JSON: {error}") from None
    if not isinstance(row, dict) or not isinstance(row.get("template"), str):
        raise DrillError('needs {"template": "…", "seed": 0, "answers": {"a": "…"}}')
    answers, seed = row.get("answers", {}), row.get("seed", 0)
    if not isinstance(seed, int) or isinstance(seed, bool) or seed < 0:
        raise DrillError(f"seed must be a whole number from 0, got {json.dumps(seed)[:40]}")
    if not isinstance(answers, dict):
        raise DrillError('answers must be an object, as {"a": "4.12 g"}')
    return row


def _marked(bank: Bank, row: Mapping[str, Any]) -> QuestionMark:
    question = question_of(bank, row["template"], row.get("seed", 0))
    answers = row.get("answers", {})
    unknown = sorted(set(answers) - {part.id for part in question.parts})
    if unknown:
        raise DrillError(f'{question.template} has no part "{unknown[0][:20]}"')
    marks = marks_of(question, answers)
    return QuestionMark(
        question.template,
        question.seed,
        sum(mark.marks for mark in marks.values()),
        question.marks,
        {letter: _part(mark) for letter, mark in marks.items()},
    )


def _typed(part: Part, answer: object) -> str:
    """What was typed; a table's cells become the lines a learner would type."""
    if isinstance(answer, str):
        return answer
    if isinstance(answer, dict):
        return "\n".join(f"{name} = {text}" for name, text in answer.items())
    raise DrillError(f'answer to part "{part.id}" must be text')


def _part(mark: Mark) -> PartMark:
    return PartMark(
        mark.marks,
        mark.of,
        {point.id: point.marks for point in mark.points},
        tuple(mark.unsure),
        mark.slip,
        mark.readable,
        mark.says,
    )
