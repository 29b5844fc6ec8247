"""Checks that another seed really gives a different question."""

from __future__ import annotations

from hashlib import blake2b
from math import factorial, perm

from drill.errors import Problem
from drill.generate import PEOPLE
from drill.model import ChoiceKey, Draw, OrderKey, Part, Question, Template
from drill.quantities import Quantity, evaluate

ENOUGH = 10  # distinct instances a template with draws must have
FEWEST = 4  # where little can be drawn: fewer than 50 sets of values together
_LITTLE = 50
_MANY = 10**6


def fingerprint(question: Question) -> bytes:
    """The same for two instances a student would take for the same question.

    People's names and the order of options and steps do not make another question.
    """
    pieces = [question.text]
    for part in question.parts:
        pieces += [part.ask, *_shown(part), _answer(part)]
    if question.graph is not None:
        pieces.append(str(question.graph))
    text = "\n".join(pieces)
    for person in PEOPLE:
        text = text.replace(person, "")
    return blake2b(text.encode(), digest_size=8).digest()


def _shown(part: Part) -> list[str]:
    if isinstance(part.key, ChoiceKey):
        return sorted(option.text for option in part.key.options)
    return sorted(text for _, text in part.key.steps) if isinstance(part.key, OrderKey) else []


def _answer(part: Part) -> str:
    if isinstance(part.key, ChoiceKey):
        return "|".join(sorted(option.text for option in part.key.options if option.right))
    return "" if isinstance(part.key, OrderKey) else part.model_answer


def check_variety(template: Template, distinct: int, seeds: int) -> list[Problem]:
    """A problem when draws hardly ever change anything.

    Args:
        distinct: different instances seen.
        seeds: how many were made; few seeds cannot show many instances.
    """
    if not template.draws:
        return []
    possible = combinations(template)
    most = max(1, seeds // 3)
    wanted = min(ENOUGH if possible >= _LITTLE else FEWEST, most)
    if possible >= FEWEST and distinct >= wanted:
        return []
    line = template.draws[0].line
    says = f"the draws make only {distinct} different questions in {seeds} seeds."
    return [Problem(template.path, line, 0, says, "Widen them, or take them out.")]


def combinations(template: Template) -> int:
    """How many different sets of values can be drawn; names of people do not count."""
    total = 1
    for draw in template.draws:
        total = min(total * _size(draw), _MANY)
    return total


def _size(draw: Draw) -> int:
    if draw.kind == "names":
        return 1
    if draw.kind == "row":
        return len(draw.rows)
    if draw.kind == "choice":
        return len(draw.choices)
    if draw.kind == "shuffle":
        return factorial(min(len(draw.choices), 12))
    if draw.kind == "pick":
        return perm(len(draw.choices), min(draw.count, len(draw.choices)))
    return _steps(draw) if draw.kind == "range" else _MANY


def _steps(draw: Draw) -> int:
    """Values of a range whose ends are numbers; many if the ends depend on other draws."""
    ends = (draw.start, draw.stop, draw.step)
    values = [evaluate(end, {}) for end in ends if end is not None and not end.names]
    numbers = [value.value for value in values if isinstance(value, Quantity)]
    if len(numbers) < 3 or numbers[2] <= 0:
        return _MANY
    return max(1, int((numbers[1] - numbers[0]) // numbers[2]) + 1)
