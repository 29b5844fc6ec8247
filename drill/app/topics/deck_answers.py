"""What a teacher types for a new deck, read: the value meant, or what is wrong with it."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from datetime import date
from typing import NamedTuple

from drill import subjects
from drill.model import COURSES
from drill.typed.dates import date_of

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
_BESIDE = {"science", "sciences", "tier", "tiers", "course", "courses", "award", "the", "both",
           "each"}  # fmt: skip


def courses_of(typed: str) -> tuple[str, ...] | Wrong:
    """One or more of the four courses, by name or number, however they are put together.

    Each clause between commas is read by itself; where one leaves a word out, all of it together:
    "combined and separate, foundation and higher" is all four.
    """
    text = _folded(typed)
    if text in ("all", "all four", "all of them"):
        return COURSES
    if all(map(str.isdecimal, text.split())):
        text = ",".join(text.split())
    clauses = [_pieces(clause) for clause in re.split("[,;]", text) if clause.strip()]
    if not clauses or not all(clauses):
        return Wrong(f"That is no course. There are: {listed_courses()}.")
    each = [_together(clause) for clause in clauses]
    named = sum(each, ()) if all(each) else _together([one for clause in clauses for one in clause])
    if not named:
        return Wrong(f'"{text}" leaves a word out. There are: {listed_courses()}.')
    return tuple(dict.fromkeys(named))


def _pieces(clause: str) -> list[tuple[str, str]]:
    """Its courses as far as they are named; empty where a piece is no course."""
    read = [_axes(piece) for piece in _SEPARATORS.split(clause)[::2] if piece.strip()]
    return [one for one in read if one is not None] if None not in read else []


def _together(found: Sequence[tuple[str, str]]) -> tuple[str, ...]:
    """The courses meant; () where a word is left out that could be one or another.

    Awards, then tiers (or the other way round), with at most one whole course where they meet:
    each of these awards has each of these tiers.
    """
    if all(award and tier for award, tier in found):
        return tuple(f"{award} {tier}" for award, tier in found)
    whole = sum(bool(award and tier) for award, tier in found)
    awards = [n for n, (award, _) in enumerate(found) if award]
    tiers = [n for n, (_, tier) in enumerate(found) if tier]
    if whole > 1 or not awards or not tiers:
        return ()
    tiers_first = tiers[-1] < awards[0] + (len(awards) == 1)
    if not (awards[-1] <= tiers[0] or tiers_first):
        return ()
    return tuple(f"{found[a][0]} {found[t][1]}" for a in awards for t in tiers)


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
        return Wrong("Type one printable line, or Enter for none.")
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
    named = every if text in ("both", "all") else _SEPARATORS.split(text)[::2]
    named = [one.strip() for one in named]
    if not all(one in every for one in named):
        listed = ", ".join(every[:-1])
        return Wrong(f"Type {listed} or {every[-1]}; or {both(papers)}.")
    return min((int(one) for one in named), key=lambda number: papers[number - 1])


def both(papers: Sequence[str]) -> str:
    """The word for every paper."""
    return "both" if len(papers) == 2 else "all"
