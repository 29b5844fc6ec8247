"""What one asked question shows about each skill it examines: the step from marks to memory.

Pure functions over a stored asking. Only the caller knows the question's parts, so it hands in
what each part examines.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import datetime
from typing import NamedTuple

from drill.store.rows import AnswerRow, AskingRow, InForce


class PartInfo(NamedTuple):
    """What a part examines: its skill, kind, maximum (0: not known) and guessing share."""

    skill: str
    kind: str
    of: int
    floor: float = 0.0


class Observation(NamedTuple):
    """One skill seen in one asked question. `score` is the share of marks; None: only exposed.

    `certain_error`: the learner was certain of a part, and it earned less than half its marks.
    """

    skill: str
    template: str
    when: datetime
    score: float | None
    floor: float
    seconds: float
    certain_error: bool = False


class _Seen(NamedTuple):
    """What one part contributes."""

    marks: int
    of: int
    floor: float
    hinted: bool
    certain_error: bool


def observations(asking: AskingRow, parts: Mapping[str, PartInfo]) -> tuple[Observation, ...]:
    """One observation for each skill that anything can be said about.

    Marks carried forward count like others and a pass counts as no marks. A part nobody answered
    says nothing. Self-marked parts and points the learner decided are left out of marks and
    maximum, until a teacher or a paper settles them. After a hint, no marks are no marks, but any
    marks only show that the skill was seen. A worked answer shown, too, is seen and no more; a
    question said to be faulty shows nothing.
    """
    if asking.faulty:
        return ()
    if asking.shown:
        return (Observation(asking.skill, asking.template, asking.when, None, 0.0, 0.0),)
    seconds = sum(answer.seconds for answer in asking.answers)
    by_skill: dict[str, list[_Seen]] = {}
    for part, info in parts.items():
        seen = _part(info, [answer for answer in asking.answers if answer.part == part])
        if seen is not None:
            by_skill.setdefault(info.skill, []).append(seen)
    return tuple(
        _observed(asking, skill, seen, seconds if skill == asking.skill else 0.0)
        for skill, seen in by_skill.items()
    )


def _observed(asking: AskingRow, skill: str, seen: list[_Seen], seconds: float) -> Observation:
    marks, of = sum(part.marks for part in seen), sum(part.of for part in seen)
    floor = sum(part.floor * part.of for part in seen) / of
    helped = marks > 0 and any(part.hinted for part in seen)
    score = None if helped else marks / of
    certain_error = any(part.certain_error for part in seen)
    return Observation(skill, asking.template, asking.when, score, floor, seconds, certain_error)


def _part(info: PartInfo, answers: Iterable[AnswerRow]) -> _Seen | None:
    answers = list(answers)
    stands = _standing(answers)
    if stands is None:
        return None
    hinted = any(answer.kind == "hint" for answer in answers)
    marks, of = _counted(stands, info)
    certain_error = stands.sure == "certain" and 2 * marks < of
    return _Seen(marks, of, info.floor, hinted, certain_error) if of > 0 else None


def _standing(answers: Iterable[AnswerRow]) -> AnswerRow | None:
    """The text that counts: the first that could be read, else the last of several.

    A single unreadable one was to be typed again and never was: nothing. A `fix` counts only when
    it was typed before the first verdict was there to be seen.
    """
    stands: AnswerRow | None = None
    typed = 0
    for answer in answers:
        if answer.kind == "hint" or (answer.kind == "fix" and _seen_verdict(stands, answer)):
            continue
        typed += 1
        if answer.kind == "fix" or stands is None or _to_be_typed_again(stands):
            stands = answer
    return None if typed == 1 and stands is not None and _to_be_typed_again(stands) else stands


def _seen_verdict(stands: AnswerRow | None, fix: AnswerRow) -> bool:
    return stands is None or (stands.verdict is not None and stands.verdict.first <= fix.place)


def _to_be_typed_again(answer: AnswerRow) -> bool:
    verdict = answer.verdict
    return verdict is not None and not verdict.settled and not verdict.mark.readable


def _counted(answer: AnswerRow, info: PartInfo) -> tuple[int, int]:
    """(marks, of) that count for memory; of is 0 when nothing does."""
    verdict = answer.verdict
    if verdict is not None and verdict.settled:
        return verdict.mark.marks, verdict.mark.of
    if info.kind == "levels" or (verdict is not None and verdict.mark.self_marked):
        return 0, 0  # not even a pass: then only failures of such a part would ever count
    if answer.kind == "pass":
        return 0, verdict.mark.of if verdict else info.of
    return _without(verdict) if verdict is not None else (0, 0)


def _without(verdict: InForce) -> tuple[int, int]:
    """The mark without the points the learner decided."""
    shares = verdict.mark.shares(verdict.decided)
    return shares.marks, shares.of
