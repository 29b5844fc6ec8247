"""Misspellings: only text that is not an English word may be read as a similar known word.

A real word is never read as another: "denser" is not "dense", "reflect" is not "refract".
"""

from __future__ import annotations

from collections.abc import Collection
from functools import lru_cache

_SHORTEST = 4  # letters; shorter non-words are as near to anything as to what was meant
_ENDINGS = (("er", "ed"), ("ly", ""), ("ness", ""), ("less", ""), ("able", "ed"))
_BEGINNINGS = ("re", "un", "non", "over", "under", "pre", "dis")


@lru_cache(maxsize=16384)
def is_word(text: str) -> bool:
    """Whether English has this word, in any inflection."""
    if len(text) < _SHORTEST or not text.isalpha():
        return True
    return _listed(text) or any(_listed(base) for base in _bases(text))


def _listed(text: str) -> bool:
    from wordnet_lookup import get_inflections

    return get_inflections(text) is not None


def _bases(text: str) -> list[str]:
    """Words it may be derived from: hotter from hot, reweigh from weigh."""
    bases = [text[: -len(end)] + new for end, new in _ENDINGS if text.endswith(end)]
    bases += [text[len(start) :] for start in _BEGINNINGS if text.startswith(start)]
    return [base for base in bases if len(base) >= _SHORTEST]


def reach(length: int) -> int:
    """How many typing errors are allowed in a non-word of this many letters."""
    if length < _SHORTEST:
        return 0
    return 1 if length < 8 else 2


def nearest(text: str, vocabulary: Collection[str]) -> tuple[str, ...]:
    """The words of `vocabulary` nearest to a non-word; all of them if several are equally near.

    Letters left out, added, changed, or two side by side swapped count one each. An entry that
    ends in `*` is a prefix: it is compared with as many letters of the non-word.
    """
    limit = reach(len(text))
    if not limit or not text.isalpha():
        return ()
    from rapidfuzz.distance import OSA

    best, found = limit + 1, []
    for entry in vocabulary:
        word = entry.removesuffix("*")
        meant = text if word == entry else text[: len(word)]
        if abs(len(word) - len(meant)) > limit or len(word) < _SHORTEST:
            continue
        allowed = min(best, limit, reach(len(word)))
        distance = OSA.distance(meant, word, score_cutoff=allowed)
        if distance > allowed:
            continue
        if distance < best:
            best, found = distance, [word]
        elif distance == best <= limit:
            found.append(word)
    return tuple(found)
