"""In which order questions fill their pages: near the order wished for, each page about as full.

How high a question stands on paper is estimated from its texts and marks. The figures are a fit to
the heights of the bank's questions as the typesetter measured them: four in five are within 5 mm.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations
from math import ceil
from typing import TYPE_CHECKING, TypeVar

if TYPE_CHECKING:
    from drill.model import Part, Question

T = TypeVar("T")

_PAGE, _TITLE, _GAP = 252, 44, 8
"""Millimetres of a page of text, of its head on the first one, and between two questions."""
_FULL = 236  # what a page may be expected to hold on average: questions do not come to measure
_BEGUN = 0.7  # a page less full than this gets the beginning of a question that must go on overleaf
_AHEAD = 8  # no question comes more than so many places earlier than wished
_HEAD, _NEXT = 9, 7  # of a question, and before each further part
_TEXT, _ASKED, _SAFETY, _OPTION = (5.8, 84), (5.3, 80), (5.1, 105), (5.8, 72)  # a line, its signs
_ROW, _CELL = 9, 10  # a line to write on, a row of a table
_BAR, _BARRED = " | ", 7  # between the cells of a table that is typed as text, and its row
_LINES = {"written": 2, "levels": 2}  # to write on, for each mark
_NUMBER, _WORKING, _READING, _TABLE, _CHOICE = 5, 16, 2, 6, 4
_GRAPH, _PICTURE = 120, 78
_SCALES = {"ruler": 46, "display": 54, "syringe": 58, "meter": 73}
_UPRIGHT = 67  # a cylinder, a burette, a thermometer


def by_pages(wished: Sequence[tuple[T, Question]], behind: Sequence[Question] = ()) -> list[T]:
    """The things in the order in which their questions fill pages, the first one first.

    Args:
        behind: questions that follow them all.
    """
    left = [(thing, heights(question)) for thing, question in wished]
    last = sum(sum(heights(question)) + _GAP for question in behind)
    found: list[T] = []
    used = float(_TITLE)
    while left:
        near = [sum(tall) for _, tall in left[:_AHEAD]]
        all_left = used + last + sum(sum(tall) + _GAP for _, tall in left)
        page = _filled(near, used, all_left / ceil(all_left / _FULL))
        used += sum(near[place] + _GAP for place in page)
        begun = _begins(left, page, used)
        if begun is not None:
            page = (*page, begun)
        used = sum(left[begun][1][1:]) + _GAP if begun is not None else 0.0
        found += [left[place][0] for place in page]
        left = [one for place, one in enumerate(left) if place not in page]
    return found


def _filled(near: Sequence[float], used: float, best: float) -> tuple[int, ...]:
    """The places of what fills a page to about `best`, the first of all where it fits.

    On an empty page the first stands in any case.
    """
    first = () if used and used + near[0] > _PAGE else (0,)
    others = range(1, len(near))
    choices = [
        (*first, *some) for count in range(len(near)) for some in combinations(others, count)
    ]
    sums = {some: used + sum(near[place] + _GAP for place in some) - _GAP for some in choices}
    fitting = [some for some in choices if sums[some] <= _PAGE or some == first]
    return min(fitting, key=lambda some: (round(abs(sums[some] - best) / _GAP), some))


def _begins(
    left: Sequence[tuple[T, Sequence[float]]], page: Sequence[int], used: float
) -> int | None:
    """The place of the next question, if it goes on overleaf as the page would be too empty."""
    if used > _BEGUN * _PAGE:
        return None
    waiting = (place for place in range(min(len(left), 2 * _AHEAD)) if place not in page)
    long = ((place, left[place][1]) for place in waiting if len(left[place][1]) > 1)
    return next((place for place, tall in long if used + tall[0] < _PAGE), None)


def heights(question: Question) -> list[float]:
    """Millimetres of a question's head with its first part, then of each further part."""
    first, *others = (_part(part) for part in question.parts)
    safety = _high(question.safety, _SAFETY) if question.safety else 0
    text = _high(question.text, _TEXT) if question.text else 0
    return [_HEAD + safety + text + _drawn(question) + first, *(_NEXT + one for one in others)]


def _drawn(question: Question) -> int:
    if question.graph:
        return _GRAPH
    if question.scale:
        return _SCALES.get(question.scale.shape, _UPRIGHT)
    return _PICTURE if question.picture else 0


def _part(part: Part) -> float:
    return _high(part.ask, _ASKED) + sum(_room(part))


def _room(part: Part) -> Iterator[float]:
    """What the answer takes."""
    from drill.model import ChoiceKey, OrderKey, TableKey

    if isinstance(part.key, ChoiceKey):
        yield from (_CHOICE, *(_high(option.text, _OPTION) for option in part.key.options))
    elif isinstance(part.key, OrderKey):
        yield from (_CHOICE, *(_high(text, _OPTION) for _, text in part.key.steps))
    elif isinstance(part.key, TableKey):
        yield _TABLE + _CELL * len(part.key.cells)
    elif part.kind == "number":
        yield _NUMBER + _WORKING * part.marks
    elif part.kind == "reading":
        yield _READING
    else:
        yield _ROW * (_LINES.get(part.kind, 1) * part.marks + 2 * (part.kind == "levels"))


def _high(text: str, line: tuple[float, int]) -> float:
    high, signs = line
    rows = text.split("\n")
    return sum(_BARRED if _BAR in row else high * (1 + len(row) // signs) for row in rows)
