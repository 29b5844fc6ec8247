"""What was learned from sample answers and prose: fitted when an author stamps the bank."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct, field


class WordPairs(Struct, frozen=True, eq=False):
    """How often words stand, and stand beside each other, in the bank's prose and samples.

    `words`: a word or ending with how often it was seen; `pairs`: two of them, parted by a space,
    in their order. Two are the same when their `digest` is.
    """

    digest: str
    words: Mapping[str, int]
    pairs: Mapping[str, int]

    def __eq__(self, other: object) -> bool:
        return isinstance(other, WordPairs) and other.digest == self.digest

    def __hash__(self) -> int:
        return hash(self.digest)


class Leaning(Struct, frozen=True):
    """How strongly the stems of an answer suggest one point: `start`, and what each stem adds."""

    start: float
    adds: Mapping[str, float]


class Way(Struct, frozen=True):
    """What stood about direction words where a part asks for just these points."""

    points: frozenset[str]
    roles: Mapping[str, Mapping[str, float]]


class Learned(Struct, frozen=True):
    """What a part's marking knows besides its scheme.

    `samples` is how many answers it was held against; `leanings` are by point; `roles`
    tell of a thing how often each context was seen about it, and `ways` the same of direction
    words, for each set of points that the part asks for.
    """

    pairs: WordPairs | None = None
    samples: int = 0
    leanings: Mapping[str, Leaning] = field(default_factory=dict)
    roles: Mapping[str, Mapping[str, float]] = field(default_factory=dict)
    ways: tuple[Way, ...] = ()
