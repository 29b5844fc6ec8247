"""Sample answers beside a question: whether our marker gives them the marks a person gave."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from drill.bank import ENOUGH_ANSWERS, answers_path
from drill.errors import Problem
from drill.frozen import replace
from drill.generate import generate
from drill.marking import mark
from drill.model import LevelsKey, Part, Question, Template
from drill.plaintext import part_letter

# written answers are marked by pattern: this share of a question's samples may differ
_MAY_DIFFER = 0.05
_BY_PATTERN = ("written", "levels")
_MOST_LINES = 5000


@dataclass(frozen=True)
class Sample:
    """One line: an answer to a part, and the marks a person gave it."""

    line: int
    part: str
    answer: str
    seed: int
    points: dict[str, int] | None
    marks: int | None
    version: str = ""


def check_samples(template: Template) -> tuple[list[Problem], int]:
    """Problems of the file of sample answers, and how many answers it holds.

    One that is marked otherwise than by hand is an error; of written and extended answers, which
    are judged by pattern, one in twenty may be, and is then a note. Of an extended answer, whose
    mark is only suggested, the suggestion is held to the level the answer deserves.
    """
    path = answers_path(Path(template.path))
    samples, problems = read_samples(path)
    questions: dict[int, Question | Problem] = {}
    differ: list[tuple[Sample, str, str]] = []
    for sample in samples:
        question = questions.setdefault(sample.seed, generate(template, sample.seed))
        part = _part(question, sample.part)
        if part is None:
            says = f'there is no part "{sample.part}" at seed {sample.seed}.'
            problems.append(Problem(str(path), sample.line, 0, says, "Parts are a, b, c in order."))
        elif fault := _differs(sample, part):
            differ.append((sample, part.kind, fault))
    few = len(differ) <= _MAY_DIFFER * len(samples)
    for sample, kind, fault in differ:
        level = "note" if kind in _BY_PATTERN and few else "error"
        hint = "Look at the marks given by hand, then at the patterns."
        problems.append(Problem(str(path), sample.line, 0, fault, hint, level))
    return problems + list(_unproven(template, samples)), len(samples)


def check_settled(template: Template, folder: Path) -> tuple[list[Problem], int]:
    """The same for answers a teacher settled on this computer: a note where the marker differs.

    They are the user's own, so they never stop a question from passing. Those settled with another
    version of the question are skipped: its numbers or points may have changed.

    Args:
        folder: holds `<template id>.answers.jsonl`.
    """
    path = folder / f"{template.id}.answers.jsonl"
    samples, problems = read_samples(path)
    ours = [sample for sample in samples if sample.version == template.version]
    notes = [replace(problem, level="note") for problem in problems]
    for sample in ours:
        part = _part(generate(template, sample.seed), sample.part)
        if part is not None and (fault := _differs(sample, part)):
            says = f"settled by a teacher: {fault}"
            hint = "Look at the patterns; then: drill regrade"
            notes.append(Problem(str(path), sample.line, 0, says, hint, "note"))
    return notes, len(ours)


def _unproven(template: Template, samples: list[Sample]) -> Iterator[Problem]:
    for index, spec in enumerate(template.parts):
        if not spec.unproven:
            continue
        letter = part_letter(index)
        count = sum(sample.part == letter for sample in samples)
        says = f"part {letter} is unproven: {count} sample answers, {ENOUGH_ANSWERS} are wanted."
        hint = f"Write them in {answers_path(Path(template.path)).name}."
        yield Problem(template.path, spec.line, 0, says, hint, "note")


def _part(question: Question | Problem, letter: str) -> Part | None:
    parts = question.parts if isinstance(question, Question) else ()
    return next((part for part in parts if part.id == letter), None)


def _differs(sample: Sample, part: Part) -> str:
    """How the marks differ from those given by hand; "" when they do not."""
    got = mark(part, sample.answer)
    by_hand = sample.marks if sample.points is None else sum(sample.points.values())
    answer = f'"{sample.answer[:60]}"'
    if isinstance(part.key, LevelsKey) and by_hand is not None:
        level, deserved = _level(part.key, got.marks), _level(part.key, by_hand)
        says = f"{answer} is suggested {got.marks}, level {level}; by hand {by_hand}, {deserved}."
        return says if level != deserved else ""
    if sample.marks is not None and got.marks != sample.marks:
        return f"{answer} earns {got.marks}, by hand {sample.marks}: {got.says}"
    ours = {point.id: point.marks for point in got.points}
    for id_, marks in (sample.points or {}).items():
        if id_ not in ours:
            return f'{answer}: the part has no point "{id_}".'
        if ours[id_] != marks:
            return f'{answer} earns {ours[id_]} for "{id_}", by hand {marks}.'
    return ""


def _level(key: LevelsKey, marks: int) -> int:
    """Which level a mark lies in, counted from the lowest, which is 1; 0 for no mark."""
    below = [0, *sorted(top for top, _ in key.levels)[:-1]]
    return sum(marks > top for top in below)


def read_samples(path: Path) -> tuple[list[Sample], list[Problem]]:
    """The answers of a file, and a problem for each invalid line."""
    samples: list[Sample] = []
    problems: list[Problem] = []
    try:
        rows = path.read_text("utf-8", errors="replace").splitlines()[:_MOST_LINES]
    except OSError:
        return [], []
    for line, row in enumerate(rows, 1):
        if not row.strip():
            continue
        sample = _sample(line, row)
        if sample is None:
            hint = 'Write {"part": "a", "answer": "…", "marks": 1}, one on a line.'
            problems.append(Problem(str(path), line, 0, "cannot be read as an answer.", hint))
        else:
            samples.append(sample)
    return samples, problems


def _sample(line: int, text: str) -> Sample | None:
    try:
        row: Any = json.loads(text)
    except (ValueError, RecursionError):
        return None
    if not isinstance(row, dict):
        return None
    part, answer, seed = row.get("part", "a"), row.get("answer"), row.get("seed", 0)
    if not isinstance(part, str) or not isinstance(answer, str) or type(seed) is not int:
        return None
    marks, points = row.get("marks"), row.get("points")
    by_point = points if isinstance(points, dict) else None
    whole = [marks] if by_point is None else list(by_point.values())
    if not all(type(value) is int for value in whole):
        return None
    whole_marks = marks if type(marks) is int else None
    return Sample(line, part, answer, seed, by_point, whole_marks, str(row.get("version", "")))
