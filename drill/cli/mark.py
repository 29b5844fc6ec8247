"""`drill mark`: answers in as JSON Lines, marks out as JSON Lines."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import TYPE_CHECKING, Any, BinaryIO

import typer

from drill.cli.ask import question_of
from drill.cli.common import AsJson, open_bank
from drill.errors import DrillError

if TYPE_CHECKING:
    from drill.bank import Bank
    from drill.model import Mark, Part, Question

# one line of answers is never this long; more is refused unread
_LONGEST = 1_000_000


def mark(as_json: AsJson = True) -> None:
    """Mark answers from standard input.

    A line each: {"template": "salts/percentage-yield", "seed": 7, "answers": {"a": "4.12 g"}}.
    A bad line gives {"line": n, "error": "…"}, the rest goes on, and the exit code is 1.

    Written answers are marked by pattern, measured on invented answers marked by their author; on
    real pupils expect worse. Published systems agree with a person on 84 to 96 answers in 100.
    """
    failed = False
    for row in marked_lines(sys.stdin.buffer):
        failed = failed or "error" in row
        sys.stdout.write(json.dumps(row, ensure_ascii=False) + "\n")
    if failed:
        raise typer.Exit(1)


def marked_lines(stream: BinaryIO) -> Iterator[dict[str, Any]]:
    """A row of marks, or of what is wrong, for every line that is not empty."""
    bank = open_bank()
    for number, raw in enumerate(stream, start=1):
        if not raw.strip():
            continue
        try:
            yield _marked(bank, _read(raw))
        except DrillError as error:
            yield {"line": number, "error": str(error)}


def _read(raw: bytes) -> dict[str, Any]:
    if len(raw) > _LONGEST:
        raise DrillError(f"the line has {len(raw):,} bytes; at most {_LONGEST:,} are read")
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


def _marked(bank: Bank, row: Mapping[str, Any]) -> dict[str, Any]:
    question = question_of(bank, row["template"], row.get("seed", 0))
    answers = row.get("answers", {})
    unknown = sorted(set(answers) - {part.id for part in question.parts})
    if unknown:
        raise DrillError(f'{question.template} has no part "{unknown[0][:20]}"')
    marks = marks_of(question, answers)
    return {
        "template": question.template,
        "seed": question.seed,
        "marks": sum(mark.marks for mark in marks.values()),
        "of": question.marks,
        "parts": {letter: as_object(mark) for letter, mark in marks.items()},
    }


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


def _typed(part: Part, answer: object) -> str:
    """What was typed; a table's cells become the lines a learner would type."""
    if isinstance(answer, str):
        return answer
    if isinstance(answer, dict):
        return "\n".join(f"{name} = {text}" for name, text in answer.items())
    raise DrillError(f'answer to part "{part.id}" must be text')


def as_object(mark: Mark) -> dict[str, Any]:
    """One part's mark as the JSON contract has it."""
    return {
        "marks": mark.marks,
        "of": mark.of,
        "points": {point.id: point.marks for point in mark.points},
        "unsure": list(mark.unsure),
        "slip": mark.slip,
        "readable": mark.readable,
        "says": mark.says,
    }
