"""Whether one question of a paper prints what another asks for."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from drill.frozen import replace

if TYPE_CHECKING:
    from drill.model import Part, Question

_SHORTEST_NAME = 4
_FIGURES = 3  # two questions often share a number of fewer, and it tells nothing
_OPTION_WORDS = 3
_SHARED, _STEM = 2, 5  # words, by their first letters, that a reason told shares with the scheme
_NUMBER = re.compile(r"\d[\d ]*(?:\.\d+)?")
_BY_OTHER_WAYS = ("order", "table", "levels")  # what they ask for is in no one sentence


@dataclass(frozen=True)
class Printed:
    """What a question tells in its text and its steps; options name right and wrong ones alike."""

    question: Question
    sentences: tuple[str, ...]
    text: str
    numbers: frozenset[str]

    @classmethod
    def of(cls, question: Question) -> Printed:
        told = tuple(_statements(question))
        text = _plain(" ".join(told))
        numbers = frozenset(number.strip() for number in _NUMBER.findall(text))
        return cls(question, told, f" {text} ", numbers)


def answered_by(asked: Question, other: Printed) -> bool:
    """Whether what `other` prints earns a mark in `asked`, or is an answer word for word."""
    return any(_is_told(part, other) for part in asked.parts)


def _statements(question: Question) -> Iterator[str]:
    """Its sentences, and the steps it lets put in order."""
    from drill.model import OrderKey

    for text in (question.text, *(part.ask for part in question.parts)):
        yield from filter(None, map(str.strip, re.split(r"(?<=[.?!:])\s+|\n", text)))
    for part in question.parts:
        if isinstance(part.key, OrderKey):
            yield from (step for _, step in part.key.steps)


def _is_told(part: Part, other: Printed) -> bool:
    if part.kind in _BY_OTHER_WAYS:
        return False
    if part.kind == "written":
        return _is_reason_told(part, other)
    if part.kind in ("number", "reading"):
        return _is_number_told(part.model_answer, other)
    if part.kind == "choice":
        rights = [_plain(right) for right in _right_options(part)]
        return any(len(one.split()) >= _OPTION_WORDS and one in other.text for one in rights)
    answer = _plain(part.model_answer)
    return len(answer) >= _SHORTEST_NAME and f" {answer} " in other.text


def _is_reason_told(part: Part, other: Printed) -> bool:
    """Whether a sentence of it earns a mark; most need not be marked to see that it does not.

    What is printed has its words in order, so nothing learned of their order is asked.
    """
    from drill.marking import mark
    from drill.model import Learned, WrittenKey

    if isinstance(part.key, WrittenKey):
        part = replace(part, key=replace(part.key, learned=Learned()))
    scheme = _stems(" ".join((part.model_answer, *(point.says for point in part.points))))
    near = (one for one in other.sentences if len(_stems(one) & scheme) >= _SHARED)
    return any(mark(part, one).marks for one in near if not one.endswith("?"))


def _stems(text: str) -> set[str]:
    return {word[:_STEM] for word in _plain(text).split() if len(word) >= _SHORTEST_NAME}


def _is_number_told(answer: str, other: Printed) -> bool:
    found = _NUMBER.match(_plain(answer))
    if found is None or sum(sign.isdigit() for sign in found[0]) < _FIGURES:
        return False
    return found[0].strip() in other.numbers


def _right_options(part: Part) -> list[str]:
    from drill.model import ChoiceKey

    key = part.key
    return [one.text for one in key.options if one.right] if isinstance(key, ChoiceKey) else []


def _plain(text: str) -> str:
    """Small letters, digits, points and single spaces."""
    return " ".join(re.sub(r"[^a-z0-9.]+", " ", text.casefold()).replace(". ", " ").split())
