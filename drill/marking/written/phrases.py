"""The small language concepts are written in: phrases of words, read once and looked up fast.

dissolve        the word in any inflection (dissolves, dissolved)
evaporat*       every word that begins so
=more|higher    these very words, never another form of them
acid|alkali     one or the other
~               up to three words of any kind between; ~6: up to six
end point / colour change      one phrase or the other
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from drill.marking.written.sentences import AnswerWord, stem
from drill.typed.spelling import is_word, nearest
from drill.typed.variants import one_spelling

_GAP = 3
# a number that a scheme has in words may be typed in figures, and the other way round
_COUNTED = {"two": "2", "three": "3", "four": "4", "five": "5", "six": "6", "ten": "10"}
_IN_FIGURES = {
    word: frozenset((word, other))
    for pair in _COUNTED.items()
    for word, other in (pair, pair[::-1])
}
_LONGEST = 12  # elements of one phrase


@dataclass(frozen=True, slots=True)
class PhraseElement:
    """One element of a phrase: spellings that fit it, and how many words may stand before it."""

    exact: frozenset[str]
    stems: frozenset[str]
    prefixes: frozenset[str]
    gap: int = 0


Phrase = tuple[PhraseElement, ...]


@dataclass(frozen=True, slots=True)
class Hit:
    """Where a phrase stands: the places of its words; `sure` False when spelling was guessed."""

    places: tuple[int, ...]
    sure: bool


def phrases(text: str) -> tuple[Phrase, ...]:
    """The phrases of an entry: one, or several parted by " / "."""
    return tuple(_phrase(one) for one in text.split(" / "))


@lru_cache(maxsize=4096)
def _phrase(text: str) -> Phrase:
    """A phrase in the small language; words are lower-cased and never evaluated."""
    pieces: list[PhraseElement] = []
    gap = 0
    for element in one_spelling(text.lower()).split()[:_LONGEST]:
        if element[0] == "~":
            gap = int(element[1:]) if element[1:].isdecimal() else _GAP
            continue
        pieces.append(_piece(element, gap))
        gap = 0
    return tuple(pieces)


def _piece(element: str, gap: int) -> PhraseElement:
    exact: set[str] = set()
    stems: set[str] = set()
    prefixes: set[str] = set()
    for word in element.removeprefix("=").split("|"):
        exact |= _IN_FIGURES.get(word, frozenset())
        if element[0] == "=":
            exact.add(word)
        elif word.endswith("*"):
            prefixes.add(word[:-1])
        elif word:
            stems.add(stem(word))
    return PhraseElement(frozenset(exact), frozenset(stems), frozenset(prefixes), gap)


_DIRECTIONS = """
more most less least fewer fewest greater greatest higher highest lower lowest larger largest
smaller smallest bigger biggest longer longest shorter shortest faster fastest slower slowest
quicker hotter warmer colder cooler stronger weaker heavier lighter denser purer earlier sooner
later increase increases increased increasing decrease decreases decreased decreasing reduce
reduces reduced reducing raise raises raised rise rises rising fall falls falling drop drops up
down above below before after over under all none no not never without too
"""
DIRECTIONS = frozenset(_DIRECTIONS.split())
"""Which way, how much and whether: one letter turns such a word round, so none is ever guessed."""


@lru_cache(maxsize=4096)
def spellings(text: str) -> frozenset[str]:
    """The words of a phrase a misspelling may be taken for: never one of `DIRECTIONS`."""
    found = {
        word
        for element in one_spelling(text.lower()).split()
        if element[0] not in "~/"
        for word in element.removeprefix("=").split("|")
        if word
    }
    return frozenset(found) - DIRECTIONS


class AnswerText:
    """An answer ready for looking things up: where each word, stem and beginning stands.

    `turned` are the places that the sentence around them denies.
    """

    def __init__(
        self,
        words: Sequence[AnswerWord],
        vocabulary: frozenset[str],
        turned: frozenset[int] = frozenset(),
    ) -> None:
        self.words, self.turned = words, turned
        self._exact: dict[str, list[int]] = {}
        self._stems: dict[str, list[int]] = {}
        self._starts: dict[str, list[int]] = {}
        self._guessed: set[int] = set()
        for place, word in enumerate(words):
            self._add(place, word.text, word.stem)
            self._exact.setdefault(word.text, []).append(place)
            for guess in corrected(word.text, word.stem, vocabulary):
                self._guessed.add(place)
                self._add(place, guess, stem(guess))
                self._exact.setdefault(guess, []).append(place)

    def _add(self, place: int, text: str, its_stem: str) -> None:
        self._stems.setdefault(its_stem, []).append(place)
        for length in range(3, len(text) + 1):
            self._starts.setdefault(text[:length], []).append(place)

    def places(self, piece: PhraseElement) -> list[int]:
        """Where a piece of a phrase stands, in order."""
        found: set[int] = set()
        for table, keys in (
            (self._exact, piece.exact),
            (self._stems, piece.stems),
            (self._starts, piece.prefixes),
        ):
            for key in keys:
                found.update(table.get(key, ()))
        return sorted(found)

    def hits(self, wanted: Phrase) -> Iterator[Hit]:
        """Every place where a phrase stands, in one sentence, in order and its gaps kept."""
        if not wanted:
            return
        each: list[list[int]] = []
        for piece in wanted:
            each.append(self.places(piece))
            if not each[-1]:
                return
        for start in each[0]:
            places = self._follow((start,), wanted, each)
            if places:
                yield Hit(places, self._guessed.isdisjoint(places))

    def _follow(
        self, places: tuple[int, ...], wanted: Phrase, each: list[list[int]]
    ) -> tuple[int, ...]:
        """The nearest way to go on from `places`, or () when there is none."""
        index = len(places)
        if index == len(wanted):
            return places
        last, after = places[-1], each[index]
        sentence = self.words[last].sentence
        for at in range(bisect_right(after, last), len(after)):
            if after[at] > last + 1 + wanted[index].gap:
                break
            if self.words[after[at]].sentence != sentence:
                break
            found = self._follow((*places, after[at]), wanted, each)
            if found:
                return found
        return ()

    def quote(self, places: Sequence[int]) -> str:
        """The words from the first to the last place, for showing back."""
        return " ".join(word.text for word in self.words[min(places) : max(places) + 1])


@lru_cache(maxsize=16384)
def corrected(text: str, its_stem: str, vocabulary: frozenset[str]) -> tuple[str, ...]:
    """What a non-word was probably meant to be, among the words this question listens for."""
    if text in vocabulary or is_word(text):
        return ()
    return nearest(text, vocabulary)
