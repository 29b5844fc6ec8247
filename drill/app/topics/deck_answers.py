"""What a teacher types for a new deck, read: the value meant, or what is wrong with it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import NamedTuple

from drill.model import COURSES
from drill.typed.dates import date_of

_DIVISION = re.compile(r"\d{1,3}(?:\.\d{1,4})?", re.ASCII)


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
    """Ids, each once; a title or a number of the list will do.

    `titles` are the practicals there are, {id: title}, in the order they are listed. A title may
    itself have commas in it.
    """
    from drill.bank.reading.deck_reader import practical_hint

    by_name = {str(number): id_ for number, id_ in enumerate(titles, 1)}
    by_name |= {_folded(title): id_ for id_, title in titles.items()}
    by_name |= {id_.casefold(): id_ for id_ in titles}
    pieces = [piece for piece in typed.split(",") if piece.strip()]
    found: list[str] = []
    while pieces:
        for end in range(len(pieces), 0, -1):
            name = _folded(",".join(pieces[:end]))
            if name in by_name:
                found.append(by_name[name])
                pieces = pieces[end:]
                break
        else:
            # the list stands on the screen already: it is said again only when nothing is near
            wrong = " ".join(pieces[0].split())
            hint = practical_hint(wrong, titles).partition(" There are:")[0]
            return Wrong(f'There is no practical "{wrong}". {hint}')
    return list(dict.fromkeys(found)) or Wrong("Name at least one practical.")


def _folded(name: str) -> str:
    return " ".join(name.split()).casefold()


def courses_of(typed: str) -> tuple[str, ...] | Wrong:
    """One or more of the four courses, with commas; the two words of each in either order."""
    found: list[str] = []
    for piece in typed.casefold().split(","):
        meant = [course for course in COURSES if set(course.split()) == set(piece.split())]
        if not meant:
            listed = f"{', '.join(COURSES[:-1])} or {COURSES[-1]}"
            return Wrong(f"That is no course. Type {listed}; for a mixed class several, with ,.")
        found += meant
    return tuple(dict.fromkeys(found))


def day_of(typed: str) -> str | Wrong:
    """The date as ISO text; "" for none."""
    if typed.casefold() in ("", "none", "none yet", "no more", "already", "as it is"):
        return ""
    found = date_of(typed)
    return Wrong(found) if isinstance(found, str) else found.isoformat()


def division_of(typed: str) -> str | Wrong:
    """The finest division of an instrument as a plain decimal; "" to say nothing of it."""
    if typed.casefold() in ("", "none", "as it is"):
        return ""
    if not _DIVISION.fullmatch(typed) or not any(sign in "123456789" for sign in typed):
        return Wrong("Type a number, as 0.01.")
    return typed


def names_of(typed: str) -> dict[str, str] | Wrong:
    """{usual word: the school's own}, from "evaporating basin = evaporating dish, …"."""
    found: dict[str, str] = {}
    for piece in filter(str.strip, typed.split(",")) if typed.casefold() != "none" else ():
        usual, sign, own = (one.strip() for one in piece.partition("="))
        if not (usual and sign and own) or len(own) > 80 or not typed.isprintable():
            return Wrong("Write it as: evaporating basin = evaporating dish")
        found[usual] = own
    return found


def line_of(typed: str) -> str | Wrong:
    """A line of text; "" for none."""
    if len(typed) > 400 or not typed.isprintable():
        return Wrong("Type one printable line, or Enter for none.")
    return "" if typed.casefold() == "none" else typed


def minutes_of(typed: str) -> int | Wrong:
    """Whole minutes from 1 to 240."""
    if typed.isascii() and typed.isdecimal() and 1 <= int(typed[:6]) <= 240:
        return int(typed)
    return Wrong("Type whole minutes, from 1 to 240.")
