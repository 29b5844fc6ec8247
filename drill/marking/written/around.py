"""Denial by the sentence around: "it is a myth that …", "I don't think …", "…, which is a lie".

An opening is read from where a statement begins, at most ten words, to its last `that`, verb of
saying or thinking, `how` or `as if`. An odd number of negatives in it turns all that follows, up to
but, however, instead, otherwise or although; an even number leaves it as it is. A tail turns what
stands before it: the sentence, or the answer where it is its last sentence. The words are common
English, no source.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from itertools import groupby
from typing import NamedTuple

from drill.marking.written.sentences import AnswerWord

_LONGEST = 10  # words of an opening

_FALSE = """false falsely untrue myth lie lies nonsense rubbish fallacy mistake untruth"""
_NEGATIVE = """not no never nobody none nothing neither nor noone wrong wrongly impossible unlikely
incorrect incorrectly mistaken mistakenly doubt doubts doubted doubtful deny denies denied disagree
disagrees disagreed hardly barely few error misconception misunderstanding silly ridiculous absurd
disprove disproved disproven"""
_SAYING = """say says said saying think thinks thought thinking believe believes believed believing
claim claims claimed claiming suppose supposed suggest suggests suggested assume assumed agree
agrees agreed disagree disagrees disagreed deny denies denied doubt doubts doubted argue argues
state states stated reckon expect"""
FALSEHOODS = frozenset(_FALSE.split())
NEGATIVES = FALSEHOODS | frozenset(_NEGATIVE.split())
SAYING = frozenset(_SAYING.split())
_JUDGING = """true right correct case fact idea way chance likely sure evidence"""
_FILLING = """a an the just all completely totally really at absolutely very"""
_LINKING = """in of at by for from with on under after before"""
_STOPPING = """because so but when if unless until while"""
_BEGINNING = """and but so because although though well also then"""
_JUDGED = frozenset(_JUDGING.split())
_LITTLE = frozenset(_FILLING.split())
_PREPOSITIONS = frozenset(_LINKING.split())
_STOPS = frozenset(_STOPPING.split())
_BEGINNERS = frozenset(_BEGINNING.split())
_BEING = frozenset(("is", "was", "are", "were", "be"))
_CONTRAST = frozenset(("but", "however", "instead", "otherwise", "although", "though"))
_PERSONS = frozenset(("i", "we"))
_POINTING = frozenset(("which", "that", "this", "these", "those"))
_VERDICTS = frozenset(("wrong", "right", "correct", "incorrect"))


class Around(NamedTuple):
    """The places that are turned, and those of openings and tails, which deny nothing else."""

    turned: frozenset[int]
    framing: frozenset[int]


def around(words: Sequence[AnswerWord], listened: Collection[str]) -> Around:
    """What openings and tails turn.

    Args:
        listened: spellings of the scheme: an opening does not go on behind a word with content.
    """
    turned: set[int] = set()
    framing: set[int] = set()
    if NEGATIVES.isdisjoint(word.text for word in words):
        return Around(frozenset(), frozenset())
    before = 0
    for start, stop in _sentences(words):
        for begin, at in _openings(words, start, stop, listened):
            framing.update(range(begin, at))
            if _is_odd(words, begin, at):
                turned ^= set(range(at, _reach(words, begin, at, stop)))
        tail = _tail(words, start, stop)
        if tail < stop:
            framing.update(range(tail, stop))
            if _is_odd(words, tail, stop):
                turned ^= set(range(_tail_from(words, start, stop, tail, before), tail))
        before = start
    return Around(frozenset(turned - framing), frozenset(framing))


def _sentences(words: Sequence[AnswerWord]) -> Iterator[tuple[int, int]]:
    for _, group in groupby(range(len(words)), lambda place: words[place].sentence):
        places = list(group)
        yield places[0], places[-1] + 1


def _is_odd(words: Sequence[AnswerWord], begin: int, end: int) -> bool:
    places = range(begin, end)
    negatives = [place for place in places if words[place].text in NEGATIVES]
    few = [p for p in negatives if words[p].text == "few" and p and words[p - 1].text == "a"]
    return (len(negatives) - len(few)) % 2 == 1


def _openings(
    words: Sequence[AnswerWord], start: int, stop: int, listened: Collection[str]
) -> Iterator[tuple[int, int]]:
    """Where each opening of a sentence begins and ends: at its start, and behind and, but, so."""
    behind = start
    for begin in range(start, stop):
        if begin < behind or words[begin].text in _BEGINNERS:
            continue
        if begin > start and words[begin - 1].text not in _BEGINNERS:
            continue
        at = _opening_end(words, begin, stop, listened)
        if at > begin:
            behind = at
            yield begin, at


def _opening_end(
    words: Sequence[AnswerWord], begin: int, stop: int, listened: Collection[str]
) -> int:
    """The place behind the opening; `begin` where there is none."""
    found = begin
    for place in range(begin, min(stop, begin + _LONGEST)):
        word = words[place]
        if word.text in _STOPS or word.piece != words[begin].piece:
            break
        if word.text in listened and _has_content(word.text):
            break
        before = words[place - 1].text if place > begin else ""
        if word.text in SAYING or _joins(word.text, before, words[max(begin, place - 2)].text):
            found = place + 1
    return found


def _has_content(word: str) -> bool:
    return len(word) > 3 and not any(word in one for one in (NEGATIVES, SAYING, _JUDGED, _LITTLE))


def _joins(word: str, before: str, further: str) -> bool:
    """Whether a `that`, how or as if opens the statement; not the `that` of "no acid that …"."""
    if not before or before in _PREPOSITIONS:
        return False
    if word == "that":
        known = any(before in one for one in (NEGATIVES, SAYING, _JUDGED, _BEING))
        return known or further != "no"
    return word == "how" or (before, word) == ("as", "if")


def _reach(words: Sequence[AnswerWord], begin: int, at: int, stop: int) -> int:
    """How far an opening reaches; after "I" or "we" because ends it too, and so after no that."""
    personal = any(words[place].text in _PERSONS for place in range(begin, at))
    ends = _CONTRAST | {"because"} if personal else _CONTRAST
    if personal and words[at - 1].text != "that":
        ends |= {"so"}
    while at < stop and words[at].text in ends:  # "I don't think because the dye dissolves"
        at += 1
    return next((place for place in range(at, stop) if words[place].text in ends), stop)


def _tail(words: Sequence[AnswerWord], start: int, stop: int) -> int:
    """Where a judgement at a sentence's end begins: "which is not true", "but that is a lie"."""
    place = stop - 1
    while place > start and _judges(words[place].text):
        place -= 1
    said = [word.text for word in words[place + 1 : stop]]
    whole_truth = not FALSEHOODS.isdisjoint(said) or "true" in said
    pointing = words[place].text in _POINTING or (words[place].text == "it" and whole_truth)
    verdict = whole_truth or not _VERDICTS.isdisjoint(said)
    if not pointing or not verdict or _BEING.isdisjoint(said):
        return stop
    if place == start:
        return start
    before = words[place - 1].text
    if before in ("but", "and", "although", "though"):
        return place - 1
    return (
        place
        if words[place].text == "which" or words[place].piece != words[place - 1].piece
        else stop
    )


def _tail_from(words: Sequence[AnswerWord], start: int, stop: int, tail: int, before: int) -> int:
    """From where a tail turns: "which" its sentence; "this" at the end all that was said."""
    if tail > start and (words[tail].text == "which" or stop < len(words)):
        return start
    return 0 if stop == len(words) else before


def _judges(word: str) -> bool:
    return any(word in one for one in (NEGATIVES, _JUDGED, _BEING, _LITTLE))
