"""Whether a pattern of a mark scheme stands in an answer: its ideas near each other, not denied."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from drill.marking.written.phrases import AnswerText, Hit, Phrase, phrases, spellings
from drill.marking.written.sentences import HELPING, LONGEST_REACH, AnswerWord
from drill.model import Pattern

WINDOW = 12  # words from the first to the last idea of a pattern, where the author gives no other
FAR = 99  # more words than any line has
_NOTS = ("not", "never")
_THREE = 3  # words of a line, of which all but one are worth a second look
_MOST_TRIED = 3000


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
    """Where a pattern stands; `sure` False when spelling was guessed, `order` as in a `Pattern`."""

    places: tuple[int, ...]
    sure: bool
    order: tuple[int, ...] = ()

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


def find(compiled: Compiled, text: AnswerText, in_piece: bool = False) -> Match | None:
    """The pattern's best place in the answer: nearest together, spelling sure before guessed.

    Args:
        in_piece: no comma and no stop may stand within it, as where a reject line is looked for,
            nor may it stand behind the "and" of "do not bend down and smell it".
    """
    best: Match | None = None
    for match in _matches(compiled, text):
        if in_piece and not _says_so(match, text.words):
            continue
        if best is None or (match.sure, -match.width) > (best.sure, -best.width):
            best = match
    return best


def _says_so(match: Match, words: Sequence[AnswerWord]) -> bool:
    first, joining = match.places[0], match.places[0] - 1
    if joining > 0 and words[joining].text == "and":
        near = range(max(0, joining - LONGEST_REACH), joining)
        if any(words[at].text in _NOTS and words[at].denies >= joining - at for at in near):
            return False
    return words[first].piece == words[match.places[-1]].piece


def find_all(compiled: Compiled, text: AnswerText) -> list[Match]:
    """Every place of the pattern in the answer."""
    return list(_matches(compiled, text))


def missing(compiled: Compiled, text: AnswerText) -> int:
    """How many words of a line are nowhere in the answer, wherever and however the others stand.

    A line of a single word, or of two with one missing, counts as missing altogether.
    """
    gone = words = 0
    for idea in compiled.ideas:
        if not idea.absent:
            least = min((_gone(phrase, text), len(phrase)) for phrase in idea.phrases)
            gone, words = gone + least[0], words + least[1]
    return gone if words >= _THREE or (words > 1 and not gone) else FAR


def _gone(phrase: Phrase, text: AnswerText) -> int:
    return sum(not text.places(element) for element in phrase)


def _hits(idea: Idea, text: AnswerText) -> list[Hit]:
    return [hit for wanted in idea.phrases for hit in text.hits(wanted)]


def _matches(compiled: Compiled, text: AnswerText) -> Iterator[Match]:
    pattern = compiled.pattern
    present: list[list[Hit]] = []
    for idea in compiled.ideas:
        if not idea.absent:
            present.append(_hits(idea, text))
            if not present[-1]:
                return
    if not present:
        return
    absent = [hit for idea in compiled.ideas if idea.absent for hit in _hits(idea, text)]
    for chosen in _combined(present, pattern, text.words):
        places = tuple(place for hit in chosen for place in hit.places)
        if _stands(pattern, chosen, places, absent, text):
            sure = all(hit.sure for hit in chosen)
            yield Match(tuple(sorted(places)), sure, order_seen(chosen))


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
    text: AnswerText,
) -> bool:
    words = text.words
    clauses = {words[place].clause for place in places}
    if any(words[hit.places[0]].clause in clauses for hit in absent):
        return False
    if pattern.orders and order_seen(chosen) not in pattern.orders:
        return False
    turned = not text.turned.isdisjoint(places)
    if pattern.polarity == "any":
        return not turned
    denied = any(is_denied(hit, frozenset(places), words) for hit in chosen)
    return (denied != turned) == (pattern.polarity == "no")


def order_seen(chosen: Sequence[Hit]) -> tuple[int, ...]:
    """The order in which ideas stand, by their places in the line: (2, 1) the second first."""
    ranked = sorted(range(len(chosen)), key=lambda index: chosen[index].places[0])
    return tuple(index + 1 for index in ranked)


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
