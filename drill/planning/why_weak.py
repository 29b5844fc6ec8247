"""Why a skill is weak, judged from its answers alone, with the answers that show it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from enum import StrEnum
from itertools import pairwise
from typing import NamedTuple

from drill.memory import MISSED

RIGHT = 0.75
"""The share of marks from which an answer counts as right; `MISSED` is where a miss begins."""
_REST, _SOON = timedelta(days=6), timedelta(days=4)
"""A miss so long after a right answer tells of forgetting, one so soon after it does not."""


class Answer(NamedTuple):
    """One answer to a skill. `mistake`: the common mistake it was, if any; `ref`: the caller's."""

    when: datetime
    score: float
    mistake: str = ""
    ref: object = None


class Word(StrEnum):
    """The word for why; `NOTHING` where nothing was missed."""

    NEVER_KNOWN = "never known"
    FORGOTTEN = "forgotten"
    MISTAKE = "a common mistake"
    COMES_AND_GOES = "comes and goes"
    NOTHING = ""


@dataclass(frozen=True)
class Why:
    """`evidence`: the answers that tell it, oldest first; `mistake`: which one, for that word."""

    word: Word
    evidence: tuple[Answer, ...] = ()
    mistake: str = ""


def why_weak(answers: Sequence[Answer]) -> Why:
    """Why the skill of these answers, oldest first, is weak.

    A mistake made twice and at least as often as all else that went wrong comes before all; then
    what was right and was missed after a rest; then what was missed whenever it was asked.
    """
    misses = [answer for answer in answers if answer.score < MISSED]
    if not misses:
        return Why(Word.NOTHING)
    found = _mistake(answers, misses) or _forgotten(answers) or _lost(answers)
    return found or _other(answers, misses)


def _mistake(answers: Sequence[Answer], misses: Sequence[Answer]) -> Why | None:
    made: dict[str, list[Answer]] = defaultdict(list)
    for answer in answers:
        if answer.mistake and answer.score < RIGHT:
            made[answer.mistake].append(answer)
    if not made:
        return None
    mistake, found = max(made.items(), key=lambda item: (len(item[1]), item[1][-1].when))
    others = [answer for answer in misses if answer.mistake != mistake]
    if len(found) < 2 or len(found) < len(others):
        return None
    return Why(Word.MISTAKE, tuple(found), mistake)


def _forgotten(answers: Sequence[Answer]) -> Why | None:
    """Right, then missed after a rest, and not missed as often soon after it was right."""
    after_right = [(one, two) for one, two in pairwise(answers) if one.score >= RIGHT]
    lost = [pair for pair in after_right if _missed(pair) and pair[1].when - pair[0].when >= _REST]
    soon = [pair for pair in after_right if _missed(pair) and pair[1].when - pair[0].when <= _SOON]
    since = [answer for answer in answers if lost and answer.when > lost[-1][1].when]
    if not lost or len(soon) >= len(lost) or sum(one.score >= RIGHT for one in since) >= 2:
        return None
    return Why(Word.FORGOTTEN, tuple(dict.fromkeys(answer for pair in lost for answer in pair)))


def _lost(answers: Sequence[Answer]) -> Why | None:
    """Right twice in a row and mostly, then missed every time, on two days."""
    known = len(answers)
    while known and answers[known - 1].score < MISSED:
        known -= 1
    before, after = answers[:known], answers[known:]
    right = sum(answer.score >= RIGHT for answer in before)
    lasting = len(before) >= 2 and min(before[-1].score, before[-2].score) >= RIGHT
    days = {answer.when.date() for answer in after}
    if not lasting or right < RIGHT * len(before) or len(days) < 2:
        return None
    return Why(Word.FORGOTTEN, (before[-1], *after))


def _missed(pair: tuple[Answer, Answer]) -> bool:
    return pair[1].score < MISSED


def _other(answers: Sequence[Answer], misses: Sequence[Answer]) -> Why:
    right = [answer for answer in answers if answer.score >= RIGHT]
    if right:
        return Why(Word.COMES_AND_GOES, tuple(sorted((right[-1], misses[-1]), key=_when)))
    if len(answers) < 2:
        return Why(Word.NOTHING)
    return Why(Word.NEVER_KNOWN, tuple(misses))


def _when(answer: Answer) -> datetime:
    return answer.when
