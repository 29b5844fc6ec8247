"""Checks the `when` of marking points: each should hold for some draws but not for all."""

from __future__ import annotations

from collections.abc import Iterator

from drill.errors import Problem
from drill.generate import generate
from drill.model import LevelsKey, PartSpec, PointSpec, Question, Template, WrittenKey

_SEEDS = 300  # a condition that showed only one of its sides by then is taken for settled


def check_conditions(template: Template) -> list[Problem]:
    """An error for each point that is never asked for, a note for one that always is."""
    waiting = {
        (index, point.id): (part, point)
        for index, part in enumerate(template.parts)
        for point in part.points
        if point.when is not None
    }
    seen: dict[tuple[int, str], set[bool]] = {place: set() for place in waiting}
    for seed in range(_SEEDS if waiting else 0):
        if all(len(sides) == 2 for sides in seen.values()):
            break
        question = generate(template, seed)
        if isinstance(question, Question):
            asked = set(_asked_for(question))
            for place, sides in seen.items():
                sides.add(place in asked)
    return [
        _settled(template, *waiting[place], True in sides)
        for place, sides in seen.items()
        if len(sides) == 1
    ]


def _asked_for(question: Question) -> Iterator[tuple[int, str]]:
    for index, part in enumerate(question.parts):
        if isinstance(part.key, WrittenKey | LevelsKey):
            yield from ((index, point.id) for point in part.key.points)


def _settled(template: Template, part: PartSpec, point: PointSpec, always: bool) -> Problem:
    how, level = ("always", "note") if always else ("never", "error")
    says = f'the point "{point.id}" is {how} asked for: its condition {how} holds.'
    hint = "Leave out its when." if always else "Mend its when, or take the point out."
    return Problem(template.path, point.line or part.line, 0, says, hint, level)
