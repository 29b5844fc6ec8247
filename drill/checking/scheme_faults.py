"""Lines of a written scheme that cannot mean what their author meant; no sample is needed."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from itertools import combinations

from drill.errors import Problem
from drill.model import PartSpec, Pattern, PointSpec, Template

_LONGEST = 12  # elements of one phrase that are read
_BESIDE = re.compile(r"\S*\|\s\S*|\S*\s\|\S*")
_NEARLY = 0.6  # share of lines that two lists have in common when they were meant to be one


def scheme_faults(template: Template) -> list[Problem]:
    """Everything wrong with the lines of its written parts, at their lines in the file."""
    return [
        Problem(template.path, line, 0, says, hint, level)
        for part in template.parts
        for line, says, hint, level in (*_each_line(part, template.concepts), *_lists(part))
    ]


Fault = tuple[int, str, str, str]


def _each_line(part: PartSpec, concepts: Mapping[str, tuple[str, ...]]) -> Iterator[Fault]:
    for point in part.points:
        for pattern in (*point.accept, *point.reject, *point.ignore):
            for says, hint, level in _line(pattern, concepts):
                yield pattern.line or point.line, f"{says}.", hint, level


def _line(
    pattern: Pattern, concepts: Mapping[str, tuple[str, ...]]
) -> Iterator[tuple[str, str, str]]:
    if all(one.startswith("not ") for one in pattern.concepts):
        yield "a line of nothing but not can never match", "Add what must be there.", "error"
    words = 0
    for concept in pattern.concepts:
        bare = concept.removeprefix("not ")
        phrases = concepts.get(bare, (bare,))
        if bare not in concepts:
            yield from _phrase(bare)
        if bare == concept:
            words += min(
                (_length(text) for entry in phrases for text in entry.split(" / ")), default=1
            )
    if pattern.window is not None and pattern.window < words - 1:
        says = f"a window of {pattern.window} holds no {words} words"
        yield says, f"Write window = {words - 1} or more.", "error"


def _phrase(text: str) -> Iterator[tuple[str, str, str]]:
    """What is wrong with a phrase that is not a concept of the lexicon."""
    for one in text.split(" / "):
        elements = one.split()
        if any(word.startswith("=") and "*" in word for word in elements):
            yield (f'the star in "{one}" is a plain star behind =',
                   "Leave out the =, or write the words in full.", "error")  # fmt: skip
        if elements and (elements[-1].startswith("~") or elements[0].startswith("~")):
            yield f'"{one}" begins or ends with a gap', "Take the ~ out.", "error"
        if len(elements) > _LONGEST:
            yield f'"{one}" has more than {_LONGEST} words and gaps', "Make two of it.", "error"
        if any(re.search(r"[a-z]-[a-z]", word) for word in elements):
            says = f'"{one}" is no set of words, and a hyphen never stands in an answer'
            yield says, "Write a space for the hyphen, or mend the name.", "error"
        if _BESIDE.search(one):
            says = f'a space beside | in "{one}": the | joins single words only'
            yield says, 'Write " / " between phrases.', "note"


def _length(text: str) -> int:
    return sum(not element.startswith("~") for element in text.split())


def _lists(part: PartSpec) -> Iterator[Fault]:
    """Points meant to share their lines ("any two of these") whose lists differ slightly."""
    for one, other in combinations(part.points, 2):
        if one.accept != other.accept and _share(one, other) >= _NEARLY:
            says = (
                f'the points "{one.id}" and "{other.id}" have nearly the same lines, so one idea '
                "earns both."
            )
            yield other.line, says, "Make the two lists the same, or keep them apart.", "error"


def _share(one: PointSpec, other: PointSpec) -> float:
    mine, theirs = set(one.accept), set(other.accept)
    return len(mine & theirs) / max(len(mine), len(theirs))
