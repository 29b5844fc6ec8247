"""What a teacher types for a new deck, read: the value meant, or what is wrong with it."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from datetime import date
from decimal import Decimal
from typing import NamedTuple

from drill import subjects
from drill.model import COURSES
from drill.typed.dates import date_of

_MEASURED = re.compile(
    r"(?:to |every |\+/- ?|± ?)?(\d{1,3}(?:[.,]\d{1,4})?) ?([a-z°µ]*(?: c)?)\.?", re.ASCII | re.I
)
_PLACES = re.compile(r"([0-4]) ?(?:d\.? ?p\.?|decimal places?|places?|decimals?)", re.ASCII | re.I)
_UNITS = {
    "g": {"": "1", "g": "1", "gram": "1", "grams": "1", "mg": "0.001"},
    "°C": dict.fromkeys(("", "°c", "° c", "°", "c", "degree", "degrees", "degrees c", "deg"), "1"),
}
_MINUTES = re.compile(r"(\d{1,6}) ?(?:m|mins?|minutes?)?\.?(?: (?:a|per|each) day)?", re.ASCII)
_SEPARATORS = re.compile(r"(\s*[,;&+/]\s*|\s+and\s+)", re.IGNORECASE)
_LITTLE = {"a", "an", "the", "of", "in", "on", "by", "for", "to", "and", "or", "with", "practical"}
_STEM = 4
NONE = ("", "none", "no", "nothing", "as it is")


class Wrong(NamedTuple):
    """What is wrong with an answer, and what is wanted instead."""

    says: str


def title_of(typed: str) -> str | Wrong:
    """A title with something in it that can be shown."""
    from drill.bank.schema.fields import unprintable

    if not typed.strip() or unprintable(typed):
        return Wrong("A title is a few printable words.")
    return typed.strip()


# ---------------------------------------------------------------- practicals


def practicals_of(typed: str, titles: Mapping[str, str]) -> list[str] | Wrong:
    """Ids, each once; an id, a number of the list, a title or words that only one title has.

    `titles` are the practicals there are, {id: title}, in the order they are listed. Commas, "and"
    and the like part them; a title may itself have such in it.
    """
    if _folded(typed) in ("all", "all of them", "everything"):
        return list(titles)
    by_name = {str(number): id_ for number, id_ in enumerate(titles, 1)}
    by_name |= {_folded(title): id_ for id_, title in titles.items()}
    by_name |= {id_.casefold(): id_ for id_ in titles}
    if all(map(str.isdecimal, typed.split())):
        typed = ",".join(typed.split())
    tokens = _SEPARATORS.split(typed)  # every second one is what stands between two names
    found: list[str] = []
    while tokens:
        meant = _longest(tokens, by_name, titles) if tokens[0].strip() else ("", 1)
        if isinstance(meant, Wrong):
            return meant
        id_, taken = meant
        found += [id_] if id_ else []
        tokens = tokens[taken + 1 :]
    return list(dict.fromkeys(found)) or Wrong("Name at least one practical.")


def _longest(
    tokens: Sequence[str], by_name: Mapping[str, str], titles: Mapping[str, str]
) -> tuple[str, int] | Wrong:
    """The practical that most of the first tokens name together, and how many they are."""
    for end in range(len(tokens), 0, -2):
        if (name := _folded("".join(tokens[:end]))) in by_name:
            return by_name[name], end
    meant = _by_words(tokens[0], titles)
    if len(meant) == 1:
        return meant[0], 1
    return _no_practical(" ".join(tokens[0].split()), meant, titles)


def _by_words(typed: str, titles: Mapping[str, str]) -> list[str]:
    """Practicals in whose id or title all its words stand, endings aside."""
    wanted = _stems(typed)
    return [id_ for id_, title in titles.items() if wanted and wanted <= _stems(f"{id_} {title}")]


def _stems(words: str) -> set[str]:
    return {
        word[:_STEM] for word in re.findall(r"[a-z0-9]+", words.casefold()) if word not in _LITTLE
    }


def _no_practical(wrong: str, near: Sequence[str], titles: Mapping[str, str]) -> Wrong:
    from drill.bank.reading.deck_reader import practical_hint

    if near:
        listed = " or ".join(f"{id_} ({titles[id_]})" for id_ in near)
        return Wrong(f'"{wrong}" could be {listed}. Type the short name.')
    # the list stands on the screen already: it is said again only when nothing is near
    hint = practical_hint(wrong, titles).partition(" There are:")[0]
    return Wrong(f'There is no practical "{wrong}". {hint}')


def _folded(name: str) -> str:
    return " ".join(name.split()).casefold()


# ---------------------------------------------------------------- courses

_AWARDS = {"combined": "combined", "double": "combined", "separate": "separate",
           "triple": "separate"}  # fmt: skip
_TIERS = {"foundation": "foundation", "higher": "higher"}
_BESIDE = {"science", "sciences", "tier", "tiers", "course", "courses", "award", "the"}


def courses_of(typed: str) -> tuple[str, ...] | Wrong:
    """One or more of the four courses, by name or number, however they are put together.

    "combined and separate higher" leaves a word out, which the next course has; "combined
    foundation and higher" one that the course before has.
    """
    text = _folded(typed)
    if text in ("all", "all four", "all of them"):
        return COURSES
    pieces = [piece for piece in _SEPARATORS.split(text)[::2] if piece.strip()]
    read = [_axes(piece) for piece in pieces]
    if not read or None in read:
        return Wrong(f"That is no course. There are: {listed_courses()}.")
    found = [one for one in read if one is not None]
    named = tuple(
        f"{award or _before(found, n)} {tier or _after(found, n)}"
        for n, (award, tier) in enumerate(found)
    )
    for one in named:
        if one not in COURSES:
            return Wrong(f'"{one.strip()}" leaves a word out. There are: {listed_courses()}.')
    return tuple(dict.fromkeys(named))


def listed_courses() -> str:
    """The four with their numbers."""
    return ", ".join(f"{number} {course}" for number, course in enumerate(COURSES, 1))


def _axes(piece: str) -> tuple[str, str] | None:
    """(award, tier) of a piece, "" where it says nothing of it; None when it is no course."""
    words = [word for word in piece.split() if word not in _BESIDE and word not in subjects.known()]
    if len(words) == 1 and words[0] in ("1", "2", "3", "4"):
        award, tier = COURSES[int(words[0]) - 1].split()
        return award, tier
    awards = {_AWARDS[word] for word in words if word in _AWARDS}
    tiers = {_TIERS[word] for word in words if word in _TIERS}
    known = all(word in _AWARDS or word in _TIERS for word in words)
    if not words or not known or len(awards) > 1 or len(tiers) > 1:
        return None
    return "".join(awards), "".join(tiers)


def _before(found: Sequence[tuple[str, str]], place: int) -> str:
    return next((award for award, _ in reversed(found[:place]) if award), "")


def _after(found: Sequence[tuple[str, str]], place: int) -> str:
    return next((tier for _, tier in found[place + 1 :] if tier), "")


# ---------------------------------------------------------------- days, minutes, the bench


def day_of(typed: str, today: date | None = None, ahead: bool = False) -> str | Wrong:
    """The date as ISO text; "" for none."""
    if typed.casefold() in (*NONE, "none yet", "no more", "already"):
        return ""
    found = date_of(typed, today, ahead)
    return Wrong(found) if isinstance(found, str) else found.isoformat()


def division_of(typed: str, unit: str) -> str | Wrong:
    """The finest division of an instrument as a plain decimal; "" to say nothing of it.

    Args:
        typed: as 0.01, 0.01 g, 2 d.p. unit: g or °C.
    """
    text = _folded(typed)
    if text in NONE:
        return ""
    if places := _PLACES.fullmatch(text):
        return f"{Decimal(1).scaleb(-int(places[1])):f}"
    match = _MEASURED.fullmatch(text)
    scale = _UNITS[unit].get(match[2].casefold()) if match else None
    value = Decimal(match[1].replace(",", ".")) * Decimal(scale) if match and scale else Decimal(0)
    if not value:
        return Wrong(f"Type a number of {unit}, as 0.01.")
    return f"{value.normalize():f}"


def names_of(typed: str) -> dict[str, str] | Wrong:
    """{usual word: the school's own}, from "evaporating basin = evaporating dish, …"."""
    found: dict[str, str] = {}
    for piece in filter(str.strip, typed.split(",")) if typed.casefold() not in NONE else ():
        usual, sign, own = (one.strip() for one in piece.partition("="))
        if not (usual and sign and own) or len(own) > 80 or not typed.isprintable():
            return Wrong("Write it as: evaporating basin = evaporating dish")
        found[usual] = own
    return found


def line_of(typed: str) -> str | Wrong:
    """A line of text; "" for none."""
    if len(typed) > 400 or not typed.isprintable():
        return Wrong("Type one printable line, or Enter for none.")
    return "" if typed.casefold() in NONE else typed


def minutes_of(typed: str) -> int | Wrong:
    """Whole minutes from 1 to 240."""
    match = _MINUTES.fullmatch(_folded(typed))
    if match and 1 <= int(match[1]) <= 240:
        return int(match[1])
    return Wrong("Type whole minutes, from 1 to 240.")


def number_of(typed: str, most: int) -> int | Wrong:
    """The number of a paper, as 2 or paper 2."""
    known = {str(number): number for number in range(1, most + 1)}
    found = known.get(_folded(typed).removeprefix("paper "))
    return found or Wrong(f"Type the number of a paper, 1 to {most}.")
