"""Whether an answer's stems lean to a point being said, as this part's sample answers teach.

Only a pointer: it can make a point *not sure*, and never awards one.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import sqrt

from drill.marking.written.sentences import AnswerWord
from drill.model import Leaning


def features(words: Sequence[AnswerWord]) -> frozenset[str]:
    """The stems of an answer, and its pairs of neighbours within a sentence."""
    pairs = (
        f"{one.stem} {other.stem}"
        for one, other in pairwise(words)
        if one.sentence == other.sentence
    )
    return frozenset((*(word.stem for word in words), *pairs))


def leans(words: Sequence[AnswerWord], leaning: Leaning) -> float:
    """Near 1 where answers like this one say the point, near 0 where they do not."""
    seen = features(words)
    if not seen:
        return leaning.start
    added = sum(leaning.adds.get(one, 0.0) for one in seen)
    return leaning.start + added / sqrt(len(seen))
