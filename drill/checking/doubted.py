"""Doubtful written marks: where the scheme and the learned leaning disagree about an answer.

The leaning is fitted to a part's sample answers when the bank is stamped. It gives no mark; where
it reads an answer otherwise than the scheme did, a person should look.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from drill.checking.close_look import look_closely
from drill.marking.written.findings import text_of
from drill.marking.written.leaning import leans
from drill.model import Part, WrittenKey

AGAINST, FOR = 0.35, 0.6
"""A given point is doubted below the first, one not given above the second; 0.5 says nothing."""


class Doubt(NamedTuple):
    """A point on which the two disagree; `lines` are those of the scheme that decided."""

    point: str
    marks: int
    lines: tuple[str, ...]


def doubted(part: Part, typed: str, given: Mapping[str, int]) -> tuple[Doubt, ...]:
    """The points of an answer on which scheme and leaning disagree; none for other kinds of part.

    Args:
        given: marks the scheme gave, by point.
    """
    if not isinstance(part.key, WrittenKey) or not part.key.learned.leanings:
        return ()
    words = text_of(typed, part.key.points, part.key.concepts).words
    leanings = part.key.learned.leanings
    found = [
        point
        for point in part.points
        if point.id in leanings
        and point.id in given
        and _disagree(given[point.id] > 0, leans(words, leanings[point.id]))
    ]
    if not found:
        return ()
    lines = {one.id: one.lines for one in look_closely(part, typed).points}
    return tuple(Doubt(one.id, one.marks, lines.get(one.id, ())) for one in found)


def _disagree(given: bool, lean: float) -> bool:
    return lean < AGAINST if given else lean > FOR
