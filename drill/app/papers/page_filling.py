"""In which order questions fill their pages: as wished, but for one that would leave a page empty.

How high a question stands on paper is estimated from its texts and marks; the page itself is set
later, and leaves no more at its end than an estimate is wrong by.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, TypeVar

if TYPE_CHECKING:
    from drill.model import Part, Question

T = TypeVar("T")

_PAGE, _TITLE, _GAP = 261, 43, 8
"""Millimetres of a page of text, of its head on the first one, and between two questions."""
_LINE, _OPTION, _HEADING, _SAFETY, _DRAWING, _GRAPH = 5, 6, 6, 5, 67, 102
_SIGNS = 84  # in a line of text
_ROOM = {"written": 18, "levels": 22, "number": 16, "table": 10, "reading": 0}  # for each mark
_ANSWER = 9
_AHEAD = 8  # no question comes more than so many places earlier than wished


def by_pages(wished: Sequence[tuple[T, Question]]) -> list[T]:
    """The things in the order in which their questions fill pages, the first one first."""
    left = list(wished)
    found: list[T] = []
    used = _TITLE
    while left:
        fits = (n for n, (_, one) in enumerate(left[:_AHEAD]) if used + height(one) <= _PAGE)
        place = next(fits, None)
        if place is None:
            used = 0
        thing, question = left.pop(place or 0)
        found.append(thing)
        used += height(question) + _GAP
    return found


def height(question: Question) -> int:
    """Millimetres that a question takes on paper."""
    drawn = _GRAPH if question.graph else _DRAWING if question.picture or question.scale else 0
    safety = _SAFETY if question.safety else 0
    text = _lines(question.text) if question.text else 0
    return _HEADING + safety + text + drawn + sum(map(_part, question.parts))


def _part(part: Part) -> int:
    from drill.model import ChoiceKey, OrderKey

    asked = _lines(part.ask) + 1
    if isinstance(part.key, ChoiceKey):
        return asked + _OPTION * len(part.key.options) + _LINE
    if isinstance(part.key, OrderKey):
        return asked + _OPTION * len(part.key.steps) + 2 * _ANSWER
    return asked + _ROOM.get(part.kind, 0) * part.marks + _ANSWER


def _lines(text: str) -> int:
    return _LINE * sum(1 + len(row) // _SIGNS for row in text.split("\n"))
