"""Practicals of a deck that have no question for a course: named, never left out in silence."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from drill.plaintext import listed

if TYPE_CHECKING:
    from drill.bank import Bank
    from drill.model import Deck


class LeftOut(NamedTuple):
    """A practical by its title, and the deck's courses it has nothing for."""

    title: str
    courses: tuple[str, ...]


def left_out(deck: Deck, bank: Bank) -> tuple[LeftOut, ...]:
    """What a deck names and its courses are not asked; only of its own course once that is known.

    A topic of skills alone is not among them: most skills are for some course only.
    """
    from drill.bank import courses_of_topic

    wanted = (deck.course,) if deck.course else deck.courses
    entries = [entry for entry in bank.entries() if entry.ok and not entry.retired]
    titles = {id_: one.title for id_, one in bank.practicals().items()}
    found = []
    for topic in deck.topics if wanted else ():
        has = courses_of_topic(topic, entries)
        lacks = tuple(course for course in wanted if course not in has)
        if topic.practical and lacks:
            found.append(LeftOut(titles.get(topic.practical, topic.practical), lacks))
    return tuple(found)


def for_teacher(found: Sequence[LeftOut]) -> list[str]:
    """A line a practical, for whoever sets the deck or prints from it."""
    return [
        f"{one.title} has no question for {' or '.join(one.courses)}: not asked there."
        for one in found
    ]


def for_pupil(found: Sequence[LeftOut]) -> str:
    """One line for a pupil, whose course is known; "" when all is asked."""
    titles = listed([one.title for one in found])
    return f"Not asked, since there is nothing on it for your course: {titles}." if found else ""
