"""The order an answer gives: letters, a numbered list, places beside letters, or the steps' words.

"C A B D", "1. C 2. A 3. B 4. D", "A2 B3 C1 D4", "filter it, then heat the filtrate, ...", and where
the steps are things with a name of one word each, those names: "Z > Y > X > W" for powders W to Z.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from drill.typed.own_words import own_words
from drill.typed.spelling import is_word, nearest
from drill.typed.variants import one_spelling

_LEAD = re.compile(
    r"^\W*(?:(?:i think|the|my|correct|right|answer|order|would be|should be|is|it is|it'?s|steps?|"
    r"goes|so|first)\b[\s:=]*)+",
    re.IGNORECASE,
)
_PIECE = re.compile(
    r"\n|[,;]|->|=>|→|>|\.\s|\b(?:and then|then|next|after that|afterwards|finally|lastly|and)\b",
    re.IGNORECASE,
)
_PLACE_WORDS = {
    word: place
    for place, words in enumerate(("first 1st", "second 2nd", "third 3rd", "fourth 4th",
                                   "fifth 5th", "sixth 6th", "seventh 7th", "eighth 8th"), 1)
    for word in words.split()
}  # fmt: skip
_PLACE_WORD = re.compile(rf"\b(?:{'|'.join(_PLACE_WORDS)})(?:ly)?\b", re.IGNORECASE)
_TOKEN = re.compile(r"\d+|[A-Za-z]+")
_SMALL = frozenset(
    {"a", "an", "the", "of", "to", "in", "on", "into", "with", "and", "it", "is", "until", "some"}
    | {"for", "from", "at", "by", "that", "all", "them", "then", "up", "out", "no", "each"}
)
_STEM = 5
_LEAST = 0.3  # of a step's words, by weight, that have to be there


@dataclass(frozen=True)
class GivenOrder:
    """`letters` in the order given, "" when it cannot be told; `asks` says what to type instead."""

    letters: str = ""
    asks: str = ""


def read_order(typed: str, steps: Mapping[str, str]) -> GivenOrder:
    """The order meant, each step once, or what keeps it from being read."""
    text = _PLACE_WORD.sub(
        lambda word: f" {_PLACE_WORDS[word[0].lower().removesuffix('ly')]} ", typed
    )
    letters = _letters(text, steps) or _letters(_by_names(text, steps), steps)
    if letters:
        return letters
    placed = _by_words(_LEAD.sub("", typed), steps)
    return GivenOrder(placed) if placed else GivenOrder()


def _letters(text: str, steps: Mapping[str, str]) -> GivenOrder | None:
    """The order by letters, their numbers minded; None when they are not each there once."""
    tokens = _TOKEN.findall(_LEAD.sub("", text))
    words = [token for token in tokens if not token.isdigit()]
    joined = "".join(words).upper()
    if all(len(word) == 1 for word in words) or len(words) == 1:
        kept = [*re.findall(r"\d+|[A-Z]", "".join(f" {token}" for token in tokens).upper())]
    else:  # letters among words, as "B warm the acid": those that stand as capitals
        kept = [t for t in tokens if t.isdigit() or (len(t) == 1 and t.isupper() and t in steps)]
        joined = "".join(token for token in kept if not token.isdigit())
    if sorted(joined) != sorted(steps):
        return None
    return _numbered(kept, joined)


def _by_names(text: str, steps: Mapping[str, str]) -> str:
    """What was typed with letters for names, where one word of each step tells it from all others.

    "" where the steps have no such names. Names of one letter may be typed as one word: "ZYXW".
    """
    letter_of = dict(zip(own_words(tuple(steps.values())), steps, strict=False))
    if not letter_of:
        return ""
    shared = set(re.findall(r"\w+", " ".join(steps.values()).lower())) - set(letter_of)
    if max(map(len, letter_of)) == 1:
        joined = re.compile(rf"\b[{''.join(letter_of)}]{{{len(steps)}}}\b", re.IGNORECASE)
        text = joined.sub(lambda run: " ".join(run[0]), text)
    named = [letter_of.get(word, word) for word in re.findall(r"\d+|[a-z]+", text.lower())]
    return " ".join(word for word in named if word.removesuffix("s") not in shared | _SMALL)


def _numbered(tokens: list[str], joined: str) -> GivenOrder:
    """Letters with the numbers beside them; numbers that agree with no order are asked about."""
    numbers = [int(token) for token in tokens if token.isdigit()]
    count = len(joined)
    if numbers == sorted(numbers) or len(numbers) != count:
        return GivenOrder(joined)
    if sorted(numbers) != list(range(1, count + 1)):
        return GivenOrder(asks=f"The numbers beside the letters are not 1 to {count}, each once.")
    return GivenOrder("".join(letter for _, letter in sorted(zip(numbers, joined, strict=True))))


def _by_words(text: str, steps: Mapping[str, str]) -> str:
    """The order by the steps' own words: a piece of the answer for every step."""
    pieces = [_content(piece) for piece in _PIECE.split(text) if piece.strip()]
    pieces = [piece for piece in pieces if piece]
    if len(pieces) < len(steps) or len(pieces) > 3 * len(steps):
        return ""
    words = {letter: _content(step) for letter, step in steps.items()}
    found: dict[str, int] = {}
    ranked = sorted(
        ((_share(piece, letter, words), -at, letter) for at, piece in enumerate(pieces)
         for letter in steps), reverse=True,
    )  # fmt: skip
    taken: set[int] = set()
    for share, at, letter in ranked:
        if share >= _LEAST and letter not in found and -at not in taken:
            found[letter] = -at
            taken.add(-at)
    return "".join(sorted(found, key=lambda one: found[one])) if len(found) == len(steps) else ""


def _share(piece: set[str], letter: str, words: Mapping[str, set[str]]) -> float:
    """How much of a step a piece says, words that few steps have weighing more."""

    def weight(word: str) -> float:
        return 1 / sum(any(_same(word, one) for one in others) for others in words.values())

    step = words[letter]
    held = {word for word in step if any(_same(one, word) for one in piece)}
    total = sum(map(weight, step))
    said = sum(map(weight, held))
    return said / max(1.0, min(total, len(piece) or 1)) if total else 0.0


def _content(text: str) -> set[str]:
    words = re.findall(r"[a-z]+", one_spelling(text.lower()))
    return {word for word in words if word not in _SMALL and len(word) > 2}


def _same(one: str, other: str) -> bool:
    """Whether two words begin alike (filter, filtered), or one is the other misspelt."""
    if one[:_STEM].rstrip("s") == other[:_STEM].rstrip("s"):
        return True
    return not is_word(one) and bool(nearest(one, (other,)))
