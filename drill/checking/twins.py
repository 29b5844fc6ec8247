"""Twins of a right answer: two nouns exchanged, directions reversed, or a "not" more or less.

An answer's things are found without a grammar: words that stand behind an article in the question
or in several samples, and seldom before another such word. "Acid filters the oxide" is a twin of
"the oxide filters …"; "less" one of "more". Directions are reversed one by one and together. A
scheme that awards a twin only spots keywords.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise

from drill.marking.written.opposites import OPPOSITES
from drill.marking.written.sentences import HELPING, LITTLE_WORDS

_ARTICLES = frozenset(("the", "a", "an"))
_TOO_GENERAL = """same other different right wrong whole rest way first last next best start end
point time amount lot bit few good bad new big small large hot cold little top bottom only more
less one ones thing things cause causes stay stays get gets go goes come comes make makes turn turns
form forms give gives take takes react reacts need needs move moves dissolve dissolves show shows"""
_NO_THINGS = LITTLE_WORDS | frozenset(_TOO_GENERAL.split())
_BEING_EQUAL = frozenset(("and", "or", "with", "between", "&"))
_PARTS = re.compile(r"[A-Za-z][A-Za-z']*|[^A-Za-z]+")
_NOTS = frozenset(("not", "never"))
_IRREGULAR = frozenset(("can't", "won't", "shan't"))
_SEVERAL = 2  # samples in which a thing stands behind an article
_SHORTEST = 3
_OFTEN_BEHIND = 0.2  # share of a noun's places that are behind an article
_MOST_THINGS = 5  # of one answer


@dataclass(frozen=True, slots=True)
class Twin:
    """A changed answer, and the words that were exchanged, reversed or denied in it."""

    answer: str
    turned: frozenset[str]


@dataclass(frozen=True, slots=True)
class Things:
    """The nouns a part speaks of, and words that belong to one: "zinc" before "oxide"."""

    heads: frozenset[str]
    pairs: frozenset[tuple[str, str]]


def things_of(asked: Iterable[str], samples: Iterable[str]) -> Things:
    """What the question's own texts and its samples speak of."""
    own = [_words(text) for text in asked]
    behind: Counter[str] = Counter()
    for words in own:
        behind.update(dict.fromkeys(_behind_articles(words), _SEVERAL))
    theirs = [_words(text) for text in samples]
    for words in theirs:
        behind.update(set(_behind_articles(words)))
    likely = {word for word, times in behind.items() if times >= _SEVERAL}
    describing: Counter[str] = Counter()
    seen: Counter[str] = Counter()
    for words in (*own, *theirs):
        seen.update(words)
        describing.update(one for one, two in pairwise(words) if two in likely)
    heads = frozenset(
        word
        for word in likely
        if 2 * describing[word] < seen[word] and _OFTEN_BEHIND * seen[word] <= behind[word]
    )
    pairs = frozenset(
        (one, two)
        for words in own
        for one, two in pairwise(words)
        if two in heads and one not in _NO_THINGS and one not in OPPOSITES and one != "excess"
    )
    return Things(heads, pairs)


def _words(text: str) -> list[str]:
    return re.findall(r"[a-z][a-z']*", text.lower())


def _behind_articles(words: Sequence[str]) -> Iterator[str]:
    """The last of at most three words behind an article, and the first."""
    for place, word in enumerate(words):
        if word in _ARTICLES:
            for after in words[place + 1 : place + 3]:
                if after in _NO_THINGS or after in OPPOSITES:
                    break
                if len(after) >= _SHORTEST and not after.endswith(("ly", "ing", "ed")):
                    yield after


def twins(answer: str, things: Things) -> list[Twin]:
    """The twins of one answer, each with one exchange."""
    pieces = _PARTS.findall(answer)
    found = [*_exchanged(pieces, things), *_reversed(pieces), *_denied(pieces)]
    return list({twin.answer: twin for twin in found if twin.answer != answer}.values())


def _exchanged(pieces: Sequence[str], things: Things) -> Iterator[Twin]:
    """Each pair of its nouns exchanged throughout."""
    spans = _spans(pieces, things)
    named = list(dict.fromkeys(pieces[span[-1]].lower() for span in spans))[:_MOST_THINGS]
    for one, other in combinations(named, 2):
        if one.rstrip("s") == other.rstrip("s") or _side_by_side(pieces, one, other):
            continue
        whole = {
            head: max(
                (_text(pieces, span) for span in spans if pieces[span[-1]].lower() == head),
                key=len,
            )
            for head in (one, other)
        }
        into = {one: whole[other], other: whole[one]}
        out = list(pieces)
        for span in spans:
            head = pieces[span[-1]].lower()
            if head in into:
                for place in span:
                    out[place] = ""
                out[span[0]] = into[head]
        yield Twin("".join(out), frozenset((one, other)))


def _spans(pieces: Sequence[str], things: Things) -> list[tuple[int, ...]]:
    """The position of each noun, with the word that belongs to it."""
    found: list[tuple[int, ...]] = []
    for place, piece in enumerate(pieces):
        head = piece.lower()
        if head in things.heads:
            before = pieces[place - 2].lower() if place > 1 else ""
            whole = (before, head) in things.pairs
            if found and found[-1][-1] == place - 2 and whole:
                found.pop()
            found.append((place - 2, place - 1, place) if whole else (place,))
    return found


def _text(pieces: Sequence[str], span: Sequence[int]) -> str:
    return "".join(pieces[place] for place in span)


def _side_by_side(pieces: Sequence[str], one: str, other: str) -> bool:
    """Whether two nouns are joined, "acid and base", or name one thing, "salt solution"."""
    words = [piece.lower() for piece in pieces if piece[0].isalpha()]
    near = [
        words[first + 1 : second]
        for first, word in enumerate(words)
        for second, after in enumerate(words)
        if {word, after} == {one, other} and first < second
    ]
    between = [[w for w in words_ if w not in _ARTICLES] for words_ in near]
    return any(
        not part or (len(part) < 3 and not _BEING_EQUAL.isdisjoint(part)) for part in between
    )


def _reversed(pieces: Sequence[str]) -> Iterator[Twin]:
    """Each direction word reversed, then all; two opposites that both occur change places."""
    present = {piece.lower() for piece in pieces}
    every: dict[str, str] = {}
    for word in sorted(present & OPPOSITES.keys()):
        other = OPPOSITES[word]
        into = {word: other, other: word}
        yield _put(pieces, into)
        every |= {one: to for one, to in into.items() if one not in every}
    yield _put(pieces, every)


def _put(pieces: Sequence[str], into: Mapping[str, str]) -> Twin:
    answer = "".join(into.get(piece.lower(), piece) for piece in pieces)
    return Twin(answer, frozenset(into))


def _denied(pieces: Sequence[str]) -> Iterator[Twin]:
    """Each "not" left out, and one put behind each verb that could have it."""
    for place, piece in enumerate(pieces):
        word = piece.lower()
        behind = next((one.lower() for one in pieces[place + 1 :] if one[0].isalpha()), "")
        if word in _NOTS:
            into = ""
        elif word.endswith("n't") and word not in _IRREGULAR:
            into = piece[:-3]
        elif word in HELPING and behind not in _NOTS and behind:
            into = f"{piece} not"
        else:
            continue
        answer = "".join((*pieces[:place], into, *pieces[place + 1 :]))
        yield Twin(answer, frozenset((behind,)))
