"""Whether words stand in an order that English has: a statistic on neighbours, no grammar.

How often two words stand beside each other is held against how often chance would bring them
together. A sentence's sum is then held against the mean of all orders of the same words, so only
the order counts and not which words were chosen. "Filtered is oxide the excess" scores near 0.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterator, Sequence
from functools import lru_cache
from itertools import groupby, pairwise
from math import log, sqrt
from typing import NamedTuple

from drill.marking.written.sentences import LITTLE_WORDS, AnswerWord
from drill.model import WordPairs

START, END = "<", ">"
FEWEST = 5  # words from which an order tells anything
_HALVED = 14  # words from which each half is looked at as well
_HALF = 0.8  # what a half may stand below the whole
_HELD = 2.5  # one pair never says more than this
_MOST = 40  # words of a sentence that are looked at
_ENDINGS = ("ing", "ation", "tion", "ness", "ment", "able", "ate", "ide", "ium", "ous", "ful", "ed",
            "ly", "er", "est", "ic", "al", "ity", "s", "y", "e")  # fmt: skip


def ending(word: str) -> str:
    """The class of a word that is seldom seen: "~ing", "~ed"; "~0" for a number."""
    if word[0].isdecimal():
        return "~0"
    return "~" + next((one for one in _ENDINGS if word.endswith(one) and len(word) > len(one)), "")


def class_of(word: str, known: Collection[str]) -> str:
    """A word often seen is a class of its own, any other has its ending's."""
    return word if word in known else ending(word)


class PairTable:
    """How much more often than by chance one class stands before another."""

    def __init__(self, learned: WordPairs) -> None:
        self.known = learned.words
        self._pairs = learned.pairs
        self._all = max(1, sum(learned.words.values()))
        self._rough_words: dict[str, int] = defaultdict(int)
        self._rough_pairs: dict[tuple[str, str], int] = defaultdict(int)
        rough = {word: _rough(word) for word in learned.words}
        for word, times in learned.words.items():
            self._rough_words[rough[word]] += times
        for pair, times in learned.pairs.items():
            first, _, second = pair.partition(" ")
            if first in rough and second in rough:
                self._rough_pairs[rough[first], rough[second]] += times
        self._found: dict[tuple[str, str], float] = {}

    def weight(self, first: str, second: str) -> float:
        """log of seen over expected, endings lending a hand where little was seen."""
        pair = (first, second)
        if pair not in self._found:
            self._found[pair] = self._weighed(first, second)
        return self._found[pair]

    def _weighed(self, first: str, second: str) -> float:
        expected = self.known.get(first, 0) * self.known.get(second, 0) / self._all
        rough = _rough(first), _rough(second)
        by_chance = self._rough_words[rough[0]] * self._rough_words[rough[1]] / self._all
        lent = (self._rough_pairs.get(rough, 0) + 0.5) / (by_chance + 0.5)
        seen = self._pairs.get(f"{first} {second}", 0)
        return max(-_HELD, min(_HELD, log((seen + lent) / (expected + 1))))


def _rough(word: str) -> str:
    return word if word in LITTLE_WORDS or word[0] in "~<>" else ending(word)


@lru_cache(maxsize=4)
def table_of(learned: WordPairs) -> PairTable:
    """The table of what was learned, made once."""
    return PairTable(learned)


def order_of(words: Sequence[AnswerWord], learned: WordPairs | None) -> float | None:
    """How far the order of an answer's words is above chance, in standard deviations.

    None without word pairs, and for fewer than `FEWEST` words. The lowest of the whole and, in a
    longer answer, of its halves.
    """
    if learned is None or len(words) < FEWEST:
        return None
    table = table_of(learned)
    scores = [_score(words, table)]
    if len(words) >= _HALVED:
        middle = len(words) // 2
        scores += [_score(half, table) + _HALF for half in (words[:middle], words[middle:])]
    return min(scores)


class _Sum(NamedTuple):
    above: float
    spread: float


def _score(words: Sequence[AnswerWord], table: PairTable) -> float:
    sums = [_sentence(classes, table) for classes in _sentences(words, table)]
    spread = sum(one.spread for one in sums)
    return sum(one.above for one in sums) / sqrt(spread) if spread > 0 else 0.0


def _sentences(words: Sequence[AnswerWord], table: PairTable) -> Iterator[list[str]]:
    for _, group in groupby(words, lambda word: word.sentence):
        yield [class_of(word.text, table.known) for word in group][:_MOST]


def _sentence(classes: Sequence[str], table: PairTable) -> _Sum:
    """The sum over neighbours less its mean over all orders, and the variance of that sum."""
    weight = table.weight
    first = [weight(START, one) for one in classes]
    last = [weight(one, END) for one in classes]
    every = [
        weight(one, other)
        for place, one in enumerate(classes)
        for there, other in enumerate(classes)
        if place != there
    ]
    pairs = len(classes) - 1
    between = sum(weight(one, other) for one, other in pairwise(classes))
    told = first[0] + between + last[-1]
    mean = _mean(first) + pairs * _mean(every) + _mean(last)
    return _Sum(told - mean, _variance(first) + pairs * _variance(every) + _variance(last))


def _mean(values: Sequence[float]) -> float:
    return sum(values) / len(values) if values else 0.0


def _variance(values: Sequence[float]) -> float:
    if not values:
        return 0.0
    mean = _mean(values)
    return sum(value * value for value in values) / len(values) - mean * mean
