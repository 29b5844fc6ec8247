"""Whether a pattern of a mark scheme stands in an answer: its ideas near each other, not denied."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from drill.marking.written.phrases import AnswerText, Hit, Phrase, phrases, spellings
from drill.marking.written.sentences import HELPING, LONGEST_REACH, AnswerWord
from drill.model import Pattern

WINDOW = 12  # words from the first to the last idea of a pattern, where the author gives no other
WIDE = 7  # words; ideas that far apart may belong to different statements
_MOST = 0.6  # share of a pattern's ideas that makes a missed point doubtful
_MOST_TRIED = 3000
_LINKS = """because so as since therefore hence thus means meaning causes causing makes making
which otherwise to due stops prevents"""
_BECAUSE = frozenset(_LINKS.split())


@dataclass(frozen=True, slots=True)
class Idea:
    """One concept of a pattern: any of its phrases; `absent` when it must not stand there."""

    name: str
    phrases: tuple[Phrase, ...]
    absent: bool = False


@dataclass(frozen=True, slots=True)
class Compiled:
    """A pattern with its concepts looked up."""

    pattern: Pattern
    ideas: tuple[Idea, ...]


@dataclass(frozen=True, slots=True)
class Match:
    """Where a pattern stands; `sure` False when spelling was guessed."""

    places: tuple[int, ...]
    sure: bool

    @property
    def width(self) -> int:
        return max(self.places) - min(self.places)


def compile_pattern(pattern: Pattern, concepts: Mapping[str, Sequence[str]]) -> Compiled:
    """The pattern with each concept's phrases read; a name no set has is a phrase itself."""
    ideas = []
    for name in pattern.concepts:
        bare = name.removeprefix("not ") if name.startswith("not ") else name
        texts = concepts.get(bare, (bare,))
        ideas.append(
            Idea(bare, tuple(one for text in texts for one in phrases(text)), name != bare)
        )
    return Compiled(pattern, tuple(ideas))


def words_listened_for(
    patterns: Sequence[Pattern], concepts: Mapping[str, Sequence[str]]
) -> frozenset[str]:
    """Every spelling the patterns name: what a misspelling may be taken for."""
    found: set[str] = set()
    for pattern in patterns:
        for name in pattern.concepts:
            bare = name.removeprefix("not ")
            for text in concepts.get(bare, (bare,)):
                found |= spellings(text)
    return frozenset(found)


def find(compiled: Compiled, text: AnswerText) -> Match | None:
    """The pattern's best place in the answer: nearest together, spelling sure before guessed."""
    best: Match | None = None
    for match in _matches(compiled, text):
        if best is None or (match.sure, -match.width) > (best.sure, -best.width):
            best = match
    return best


def find_all(compiled: Compiled, text: AnswerText) -> list[Match]:
    """Every place of the pattern in the answer."""
    return list(_matches(compiled, text))


def nearly(compiled: Compiled, text: AnswerText) -> bool:
    """Most of the ideas are there, if not together or in order, or denied: worth a second look."""
    found = [bool(_hits(idea, text)) for idea in compiled.ideas if not idea.absent]
    return len(found) > 1 and sum(found) >= _MOST * len(found)


def _hits(idea: Idea, text: AnswerText) -> list[Hit]:
    return [hit for wanted in idea.phrases for hit in text.hits(wanted)]


def _matches(compiled: Compiled, text: AnswerText) -> Iterator[Match]:
    pattern = compiled.pattern
    present = [_hits(idea, text) for idea in compiled.ideas if not idea.absent]
    if not present or not all(present):
        return
    absent = [hit for idea in compiled.ideas if idea.absent for hit in _hits(idea, text)]
    for chosen in _combined(present, pattern, text.words):
        places = tuple(place for hit in chosen for place in hit.places)
        if _stands(pattern, chosen, places, absent, text.words):
            yield Match(tuple(sorted(places)), all(hit.sure for hit in chosen))


def _combined(
    present: list[list[Hit]], pattern: Pattern, words: Sequence[AnswerWord]
) -> Iterator[tuple[Hit, ...]]:
    """Ways to take one hit for each idea, none using another's words, all within the window."""
    window = WINDOW if pattern.window is None else pattern.window
    tried = 0
    waiting: list[tuple[Hit, ...]] = [()]
    while waiting:
        chosen = waiting.pop()
        if len(chosen) == len(present):
            yield chosen
            continue
        for hit in present[len(chosen)]:
            tried += 1
            if tried > _MOST_TRIED:
                return
            if _goes_with(hit, chosen, pattern, window, words):
                waiting.append((*chosen, hit))


def _goes_with(
    hit: Hit, chosen: tuple[Hit, ...], pattern: Pattern, window: int, words: Sequence[AnswerWord]
) -> bool:
    if not chosen:
        return True
    taken = [place for other in chosen for place in other.places]
    if not set(taken).isdisjoint(hit.places):
        return False
    if pattern.ordered and hit.places[0] < chosen[-1].places[0]:
        return False
    every = [*taken, *hit.places]
    if max(every) - min(every) > window:
        return False
    if pattern.window is not None:
        return True
    return words[min(every)].sentence == words[max(every)].sentence


def _stands(
    pattern: Pattern,
    chosen: tuple[Hit, ...],
    places: tuple[int, ...],
    absent: list[Hit],
    words: Sequence[AnswerWord],
) -> bool:
    clauses = {words[place].clause for place in places}
    if any(words[hit.places[0]].clause in clauses for hit in absent):
        return False
    if pattern.linked and not _is_linked(places, words):
        return False
    if pattern.polarity == "any":
        return True
    denied = any(is_denied(hit, frozenset(places), words) for hit in chosen)
    return denied == (pattern.polarity == "no")


def _is_linked(places: tuple[int, ...], words: Sequence[AnswerWord]) -> bool:
    between = range(min(places), max(places) + 1)
    return any(words[place].text in _BECAUSE for place in between)


def is_denied(hit: Hit, own: frozenset[int], words: Sequence[AnswerWord]) -> bool:
    """Whether an odd number of denials reach the hit: before it, within it, or right behind it.

    Denials that are words of the pattern itself (`own`) are part of what it says.
    """
    first, last = hit.places[0], hit.places[-1]
    clause = words[first].clause
    denials = 0
    for place in range(max(0, first - LONGEST_REACH), last):
        word = words[place]
        reaches = place > first or word.denies >= first - place
        if word.denies and reaches and word.clause == clause and place not in own:
            denials += 1
    return (denials + _denied_behind(last, own, words)) % 2 == 1


def _denied_behind(last: int, own: frozenset[int], words: Sequence[AnswerWord]) -> int:
    """1 when the verb behind says it is not so: "large crystals do not form"."""
    clause = words[last].clause
    after = [
        (place, words[place])
        for place in range(last + 1, min(len(words), last + 3))
        if words[place].clause == clause
    ]
    if len(after) < 2 or after[0][1].text not in HELPING:
        return 0
    place, word = after[1]
    return int(word.text in ("not", "never") and place not in own)
