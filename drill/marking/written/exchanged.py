"""Who does what: whether an answer reads better with two of its things exchanged.

"Acid filters the oxide" has the words of a right answer and says something else. For every thing of
a part, and every word that tells which way, it is known what stood about it in right samples and in
the bank's prose. Where two things fit far better in each other's place, or a direction word less
well than its opposite, what they say is not what was sampled: a person must look.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import combinations, groupby
from math import log

from drill.marking.written.sentences import AnswerWord
from drill.subjects import every

_PAIRS = """more less|most least|greater smaller|greatest smallest|higher lower|highest lowest
larger smaller|largest smallest|bigger smaller|biggest smallest|longer shorter|faster slower
quicker slower|hotter colder|warmer cooler|hot cold|warm cool|before after|above below|over under
with without|increases decreases|increase decrease|increased decreased|rises falls|rise fall|up down
positive negative|gains loses|gain lose|gained lost|big small|large small|high low|fast slow
quickly slowly|strong weak|top bottom|always never|first last|early late|long short|thick thin
into from|left right|heavier lighter|wider narrower|open closed"""
_PASSED_OVER = """the a an of its it this that some your is are was be would will can could so and
just then they"""
_SKIPPED = frozenset(_PASSED_OVER.split())
_REACH = 3  # words on either side
_UNSEEN = 0.3  # what one never seen there counts
_BETTER = 4.5  # log of the odds from which an exchange is told
_USUAL = 25  # words; in a longer answer as much more is asked, for chance finds more there
_MOST = 6  # things of an answer that are tried

Roles = Mapping[str, Mapping[str, float]]


def _opposites() -> dict[str, str]:
    found: dict[str, str] = {}
    pairs = re.split(r"[|\n]", _PAIRS)
    for pair in (*pairs, *(pair for one in every() for pair in one.wording.directions)):
        one, other = pair.split()
        found.setdefault(one, other)
        found.setdefault(other, one)
    return found


OPPOSITES = _opposites()
"""Words that tell which way, each with its opposite. Common English, no source."""


def exchanged(words: Sequence[AnswerWord], roles: Roles) -> frozenset[str]:
    """The words that would rather stand in each other's place; empty where none are found.

    Args:
        roles: for a thing's stem or a direction word, how often each context was seen about it.
    """
    seen: dict[str, list[str]] = defaultdict(list)
    for key, context in contexts(words):
        seen[key].append(context)
    things = [key for key in seen if key in roles and key not in OPPOSITES][:_MOST]
    swaps = [(_gain(one, other, seen, roles), one, other) for one, other in combinations(things, 2)]
    swaps += [
        (_turned(one, other, seen, roles), one, other)
        for one, other in OPPOSITES.items()
        if one in seen
    ]
    gain, one, other = max(swaps, default=(0.0, "", ""))
    enough = _BETTER * max(1.0, len(words) / _USUAL)
    return frozenset((one, other)) if gain > enough else frozenset()


def exchanged_at(words: Sequence[AnswerWord], roles: Roles) -> frozenset[int]:
    """The places of such words, in the sentences that would read better with them exchanged."""
    turned = exchanged(words, roles)
    if not turned:
        return frozenset()
    one, other = sorted(turned)
    found: set[int] = set()
    for _, group in groupby(range(len(words)), key=lambda place: words[place].sentence):
        places = list(group)
        seen: dict[str, list[str]] = defaultdict(list)
        for key, context in contexts(words[place] for place in places):
            seen[key].append(context)
        pair = (one, other) if one in seen else (other, one)
        better = _turned if one in OPPOSITES else _gain
        if better(*pair, seen, roles) > 0:
            found.update(place for place in places if key_of(words[place]) in turned)
    return frozenset(found)


def key_of(word: AnswerWord) -> str:
    """What a word is known by: a direction word by itself, any other by its stem."""
    return word.text if word.text in OPPOSITES else word.stem


def contexts(words: Iterable[AnswerWord]) -> Iterator[tuple[str, str]]:
    """Each word's key with what stands about it in its clause: "<react" before it, ">filter"."""
    for _, group in groupby(words, key=lambda word: word.clause):
        clause = [word for word in group if word.text not in _SKIPPED]
        for place, word in enumerate(clause):
            for before in clause[max(0, place - _REACH) : place]:
                yield key_of(word), f"<{before.stem}"
            for after in clause[place + 1 : place + 1 + _REACH]:
                yield key_of(word), f">{after.stem}"


def _gain(one: str, other: str, seen: Mapping[str, Sequence[str]], roles: Roles) -> float:
    """How much better two things fit in each other's place; beside one another they both turn."""
    mine = [context for context in seen[one] if context[1:] not in (one, other)]
    theirs = [context for context in seen[other] if context[1:] not in (one, other)]
    between = [context for context in seen[one] if context[1:] == other]
    turned = [f"{context[0]}{one}" for context in between]
    as_told = _fit(one, mine, roles) + _fit(other, theirs, roles) + _fit(one, between, roles)
    as_turned = _fit(other, mine, roles) + _fit(one, theirs, roles) + _fit(other, turned, roles)
    return as_turned - as_told


def _turned(one: str, other: str, seen: Mapping[str, Sequence[str]], roles: Roles) -> float:
    """How much better a word fits reversed; where its opposite stands there too, both turn."""
    gain = _fit(other, seen[one], roles) - _fit(one, seen[one], roles)
    if other in seen:
        gain += _fit(one, seen[other], roles) - _fit(other, seen[other], roles)
    return gain


def _fit(word: str, seen: Sequence[str], roles: Roles) -> float:
    known = roles.get(word, {})
    return sum(log(known.get(context, 0.0) + _UNSEEN) for context in seen)
