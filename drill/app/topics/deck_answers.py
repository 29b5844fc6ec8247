"""What a teacher types for a new deck, read: the value meant, or what is wrong with it."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from datetime import date
from typing import NamedTuple

from drill.typed.dates import date_of

_MINUTES = re.compile(r"(\d{1,6}) ?(?:m|mins?|minutes?)?\.?(?: (?:a|per|each) day)?", re.ASCII)
SEPARATORS = re.compile(r"(\s*[,;&+/]\s*|\s+and\s+)", re.IGNORECASE)
"""What parts the names of a list."""
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
    tokens = SEPARATORS.split(typed)  # every second one is what stands between two names
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


# ---------------------------------------------------------------- days, minutes, papers


def day_of(typed: str, today: date | None = None, ahead: bool = False) -> str | Wrong:
    """The date as ISO text; "" for none."""
    if typed.casefold() in (*NONE, "none yet", "no more", "already"):
        return ""
    found = date_of(typed, today, ahead)
    return Wrong(found) if isinstance(found, str) else found.isoformat()


def line_of(typed: str) -> str | Wrong:
    """A line of text; "" for none."""
    if len(typed) > 400 or not typed.isprintable():
        return Wrong("Type one printable line of at most 400 characters, or Enter for none.")
    return "" if typed.casefold() in NONE else typed


def minutes_of(typed: str) -> int | Wrong:
    """Whole minutes from 1 to 240."""
    match = _MINUTES.fullmatch(_folded(typed))
    if match and 1 <= int(match[1]) <= 240:
        return int(match[1])
    return Wrong("Type whole minutes, from 1 to 240.")


def paper_of(typed: str, papers: Sequence[str]) -> int | Wrong:
    """The number of the paper that examines a practical; of several the earliest.

    Args:
        typed: as 2, paper 2, both, 1 and 2.
        papers: their dates, ISO.
    """
    text = _folded(typed).replace("papers", "").replace("paper", "").strip()
    every = [str(number) for number in range(1, len(papers) + 1)]
    named = every if text in ("both", "all") else SEPARATORS.split(text)[::2]
    named = [one.strip() for one in named]
    if not all(one in every for one in named):
        listed = ", ".join(every[:-1])
        return Wrong(f"Type {listed} or {every[-1]}; or {both(papers)}.")
    return min((int(one) for one in named), key=lambda number: papers[number - 1])


def both(papers: Sequence[str]) -> str:
    """The word for every paper."""
    return "both" if len(papers) == 2 else "all"
