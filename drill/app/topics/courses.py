"""Courses as people type them: one reader for decks, plans, papers and the first sitting."""

from __future__ import annotations

import re
from collections.abc import Sequence

from drill import subjects
from drill.app.topics.deck_answers import SEPARATORS, Wrong
from drill.model import COURSES
from drill.plaintext import nearest, one_line

_AXES = ({"combined": "combined", "double": "combined", "separate": "separate",
          "triple": "separate"}, {"foundation": "foundation", "higher": "higher"})  # fmt: skip
_BESIDE = {"a", "am", "award", "awards", "both", "class", "course", "courses", "do", "each",
           "i", "in", "is", "mine", "my", "number", "please", "science", "sciences", "the", "tier",
           "tiers", "we"}  # fmt: skip
_SHORT = re.compile(r"\b(?:([cdst]) ?([fh])|([fh]) ?([cdst]))\b")
_NOT_READ = re.compile(r"""[().:#"'*]|(?<=[a-z])-(?=[a-z])""")
_LONGEST = 200

Axes = tuple[str, str]


def courses_of(typed: str, numbered: Sequence[str] = COURSES) -> tuple[str, ...] | Wrong:
    """One or more of the four courses, however they are put together.

    Taken are names in any order, their beginnings, initials and numbers: higher combined, sep
    found, triple higher, CH, 2. Each clause between commas is read by itself; where one leaves a
    word out, all of it together: "combined and separate, foundation and higher" is all four. A
    word that is still left out does not matter where only one of the numbered courses fits.

    Args:
        numbered: the courses that numbers stand for, as the list on the screen has them.
    """
    text = " ".join(_NOT_READ.sub(" ", typed.casefold()).split())
    if text in ("all", "all four", "all of them"):
        return tuple(numbered)
    clauses = [[_axes(piece, numbered) for piece in one] for one in _clauses(text)]
    read = [[one for one in clause if one] for clause in clauses]
    together = [one for clause in read for one in clause]
    if not together or len(typed) > _LONGEST or any(None in clause for clause in clauses):
        return _no_course(typed, numbered)
    each = [_together(clause) for clause in read]
    named = sum(each, ()) if all(each) else _together(together)
    return tuple(dict.fromkeys(named)) or _one_left(typed, together, numbered)


def course_of(typed: str, numbered: Sequence[str] = COURSES) -> str | Wrong:
    """The one course meant, read as by `courses_of`; fewer than two numbered are all four."""
    found = courses_of(typed, numbered if len(numbered) > 1 else COURSES)
    if isinstance(found, Wrong):
        return found
    if len(found) > 1:
        return Wrong(f"That is {len(found)} courses: {', '.join(found)}. Name one of them.")
    return found[0]


def listed_courses(courses: Sequence[str] = COURSES, joined: str = ", ") -> str:
    """The courses with their numbers."""
    return joined.join(f"{number} {course}" for number, course in enumerate(courses, 1))


def _clauses(text: str) -> list[list[str]]:
    """What stands between commas, each as its pieces: those that say something of a course."""
    if all(map(str.isdecimal, text.split())):
        text = ",".join(text.split())
    text = _SHORT.sub(lambda found: f",{' '.join(filter(None, found.groups()))},", text)
    pieces = [SEPARATORS.split(clause)[::2] for clause in re.split("[,;]", text)]
    said = [[one for one in some if _words(one)] for some in pieces]
    return [some for some in said if some]


def _words(piece: str) -> list[str]:
    return [word for word in piece.split() if word not in _BESIDE and word not in subjects.known()]


def _axes(piece: str, numbered: Sequence[str]) -> Axes | None:
    """(award, tier) of a piece, "" where it says nothing of it; None when it is no course."""
    words = _words(piece)
    if len(words) == 1 and words[0] in map(str, range(1, len(numbered) + 1)):
        award, tier = numbered[int(words[0]) - 1].split()
        return award, tier
    awards, tiers = ({meant for word in words for meant in _begun(word, axis)} for axis in _AXES)
    known = all(_begun(word, _AXES[0]) or _begun(word, _AXES[1]) for word in words)
    if not known or len(awards) > 1 or len(tiers) > 1:
        return None
    return "".join(awards), "".join(tiers)


def _begun(word: str, axis: dict[str, str]) -> set[str]:
    return {meant for name, meant in axis.items() if name.startswith(word)}


def _together(found: Sequence[Axes]) -> tuple[str, ...]:
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


def _one_left(
    typed: str, found: Sequence[Axes], numbered: Sequence[str]
) -> tuple[str, ...] | Wrong:
    """Of a word left out: the only course that fits, else those that could be meant."""
    words = set(found[0]) - {""} if len(found) == 1 else {"several"}
    fits = [course for course in numbered if words <= set(course.split())]
    if len(fits) == 1:
        return tuple(fits)
    said = f'"{one_line(typed, 40)}" leaves a word out.'
    if not fits:
        return Wrong(f"{said} There are: {listed_courses(numbered)}.")
    could = (f"{numbered.index(course) + 1} {course}" for course in fits)
    return Wrong(f"{said} It could be {' or '.join(could)}.")


def _no_course(typed: str, numbered: Sequence[str]) -> Wrong:
    names = [name for axis in _AXES for name in axis]
    near = (nearest(word, names, 0.75) for word in typed[:_LONGEST].casefold().split())
    meant = " ".join(one for one in near if one)
    said = f'"{one_line(typed, 40)}" is no course.' if typed.strip() else "Name a course."
    said += f" Did you mean {meant}?" if meant else ""
    return Wrong(f"{said} There are: {listed_courses(numbered)}.")
