"""Statements of an answer in words that no line of the scheme knows.

Where a part asks for examples, its list is never whole: what it does not know is not wrong yet.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby

from drill.marking.written.patterns import Compiled
from drill.marking.written.sentences import LITTLE_WORDS, AnswerWord

_FEWEST = 2  # words with content that make a statement
_SHORTEST = 4  # letters of a word with content


@dataclass(frozen=True, slots=True)
class Heard:
    """The words, stems and beginnings that some line listens for."""

    exact: frozenset[str]
    stems: frozenset[str]
    beginnings: tuple[str, ...]

    def knows(self, word: AnswerWord) -> bool:
        """Whether some line listens for the word."""
        known = word.text in self.exact or word.stem in self.stems
        return known or word.text.startswith(self.beginnings)


def heard_by(lines: Iterable[Compiled]) -> Heard:
    """What these lines listen for."""
    phrases = [phrase for line in lines for idea in line.ideas for phrase in idea.phrases]
    elements = [element for phrase in phrases for element in phrase]
    exact = frozenset().union(*(element.exact for element in elements))
    stems = frozenset().union(*(element.stems for element in elements))
    beginnings = frozenset().union(*(element.prefixes for element in elements))
    return Heard(exact, stems, tuple(sorted(beginnings)))


def unknown_statements(words: Sequence[AnswerWord], heard: Heard, matched: set[int]) -> int:
    """How many statements there are of which nothing matched, and whose words are not known.

    Args:
        matched: the places of all matches; a clause with one of them is no unknown statement.
    """
    clauses = [list(group) for _, group in groupby(range(len(words)), lambda at: words[at].clause)]
    states = [
        (words[places[0]].sentence, _is_unknown(words, places, heard, matched))
        for places in clauses
    ]
    return sum(unknown for (_, unknown), _ in groupby(states))


def _is_unknown(
    words: Sequence[AnswerWord], places: Sequence[int], heard: Heard, matched: set[int]
) -> bool:
    if not matched.isdisjoint(places):
        return False
    content = [
        words[at]
        for at in places
        if len(words[at].text) >= _SHORTEST and words[at].text not in LITTLE_WORDS
    ]
    return sum(not heard.knows(word) for word in content) >= _FEWEST
