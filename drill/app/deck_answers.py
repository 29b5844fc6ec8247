"""What a teacher types for a new deck, read: the value meant, or what is wrong with it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from drill.app.dates import date_of
from drill.model import COURSES


class Wrong(NamedTuple):
    """What is wrong with an answer, and what is wanted instead."""

    says: str


def title_of(typed: str) -> str | Wrong:
    """A title with something in it that can be shown."""
    from drill.bank.schema.fields import unprintable

    if not typed.strip() or unprintable(typed):
        return Wrong("A title is a few printable words.")
    return typed.strip()


def practicals_of(typed: str, titles: Mapping[str, str]) -> list[str] | Wrong:
    """Ids, each once; a title will do. `titles` are the practicals there are, {id: title}."""
    from drill.bank.reading.deck_reader import practical_hint

    by_name = {title.casefold(): id_ for id_, title in titles.items()}
    by_name |= {id_.casefold(): id_ for id_ in titles}
    names = [" ".join(name.split()) for name in typed.split(",") if name.strip()]
    for name in names:
        if name.casefold() not in by_name:
            # the list stands on the screen already: it is said again only when nothing is near
            hint = practical_hint(name, titles).partition(" There are:")[0]
            return Wrong(f'There is no practical "{name}". {hint}')
    if not names:
        return Wrong("Name at least one practical.")
    return list(dict.fromkeys(by_name[name.casefold()] for name in names))


def course_of(typed: str) -> str | Wrong:
    """One of the four courses, the two words in either order."""
    words = set(typed.casefold().split())
    for course in COURSES:
        if words == set(course.split()):
            return course
    return Wrong(f"That is no course. Type {', '.join(COURSES[:-1])} or {COURSES[-1]}.")


def exam_of(typed: str) -> str | Wrong:
    """The date as ISO text; "" for none yet."""
    if typed.casefold() in ("", "none", "none yet"):
        return ""
    found = date_of(typed)
    return Wrong(found) if isinstance(found, str) else found.isoformat()


def minutes_of(typed: str) -> int | Wrong:
    """Whole minutes from 1 to 240."""
    if typed.isascii() and typed.isdecimal() and 1 <= int(typed[:6]) <= 240:
        return int(typed)
    return Wrong("Type whole minutes, from 1 to 240.")
