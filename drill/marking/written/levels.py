"""Extended answers: a suggestion only; the learner sets the mark.

The steps a good answer holds are ticked off. A step that is missing, out of place, or said so that
it would spoil the result, can cap the mark: no filtering, four at most.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import NamedTuple

from drill.frozen import replace
from drill.marking.written.findings import Findings, PointFinding, findings_in
from drill.marking.written.patterns import find_all
from drill.marking.written.step_order import Moment, moments
from drill.marking.written.written_answer import judge_points
from drill.model import LevelsKey, Mark, Part, PointMark, PointSpec


class Tick(NamedTuple):
    """One step of the checklist: whether the answer has it, or says it so that it spoils."""

    spec: PointSpec
    found: bool
    spoilt: bool


class Misplaced(NamedTuple):
    """Two steps the other way round; `sure` False when the answer does not tell plainly."""

    step: PointSpec
    after: PointSpec
    sure: bool


class LevelEvidence(NamedTuple):
    """All that is suggested from."""

    ticks: list[Tick]
    misplaced: list[Misplaced]
    listed: bool


def mark_levels(part: Part, typed: str, earlier: Mapping[str, Fraction]) -> Mark:
    """The steps found, ticked off, and the mark they suggest; always `self_marked`."""
    key = part.key
    assert isinstance(key, LevelsKey)
    judged = _judged(key, typed)
    suggested = _suggested(key, judged)
    says = _says(key, judged, suggested, part.marks)
    points = tuple(
        PointMark(point.id, suggested if index == 0 else 0, point.marks, "suggested", unsure=True)
        for index, point in enumerate(part.points)
    )
    return replace(Mark(suggested, part.marks, points, says), self_marked=True)


def _judged(key: LevelsKey, typed: str) -> LevelEvidence:
    found = findings_in(typed, key.points, key.concepts)
    if found.listed:
        ticks = [Tick(one.spec, bool(one.accepted), False) for one in found.points]
        return LevelEvidence(ticks, [], True)
    marks = judge_points(found)
    ticks = [_tick(one, mark) for one, mark in zip(found.points, marks, strict=True)]
    return LevelEvidence(ticks, _misplaced(found, ticks), False)


def _tick(finding: PointFinding, mark: PointMark) -> Tick:
    return Tick(finding.spec, mark.marks > 0, bool(finding.rejected))


# ---------------------------------------------------------------- order


def _misplaced(found: Findings, ticks: Sequence[Tick]) -> list[Misplaced]:
    """Steps the answer has before the one they must come after."""
    by_id = {one.spec.id: one for one in found.points}
    there = {tick.spec.id for tick in ticks if tick.found or tick.spoilt}
    late = [one for one in found.points if {one.spec.id, one.spec.after} <= there]
    if not late:
        return []
    when = moments(found.text.words)
    pairs = ((one, by_id[one.spec.after]) for one in late)
    judged = ((one, other, _in_order(one, other, found, when)) for one, other in pairs)
    return [
        Misplaced(one.spec, other.spec, told is False)
        for one, other, told in judged
        if told is not True
    ]


def _in_order(
    step: PointFinding, earlier: PointFinding, found: Findings, when: Sequence[Moment]
) -> bool | None:
    """Whether some mention of `step` comes after one of `earlier`; None when it is not told."""
    ours, theirs = (_mentions(one, found, when) for one in (step, earlier))
    sure = [moment.at for moment in ours if moment.sure]
    before = [moment.at for moment in theirs if moment.sure]
    if sure and before and max(sure) >= min(before):
        return True
    return False if len(sure) == len(ours) and len(before) == len(theirs) else None


def _mentions(finding: PointFinding, found: Findings, when: Sequence[Moment]) -> list[Moment]:
    """Where the step is told: each match within a sentence, or the nearest of the others."""
    words = found.text.words
    pairs = [*finding.accepted, *finding.rejected]
    every = [match for compiled, _ in pairs for match in find_all(compiled, found.text)]
    close = [m for m in every if words[m.places[0]].sentence == words[m.places[-1]].sentence]
    return [when[match.places[0]] for match in close or [match for _, match in pairs]]


# ---------------------------------------------------------------- the mark suggested


def _suggested(key: LevelsKey, judged: LevelEvidence) -> int:
    """The share of the steps found, of the top mark, rounded down, and never above a cap.

    One step is worth one mark at least.
    """
    best = max((mark for mark, _ in key.levels), default=0)
    found = sum(tick.found for tick in judged.ticks)
    if not found:
        return 0
    share = max(1, best * found // len(judged.ticks))
    return min([share, *(cap for cap, _ in _caps(key, judged))])


def _caps(key: LevelsKey, judged: LevelEvidence) -> list[tuple[int, str]]:
    """The caps that hold, lowest first, each with what it comes from.

    What spoils the result, or is out of place, caps without being told to: at the level below the
    best. Words without a statement reach the lowest level at most.
    """
    tops = sorted((mark for mark, _ in key.levels), reverse=True)
    below = tops[1] if len(tops) > 1 else max(tops, default=0)
    caps: list[tuple[int, str]] = []
    for tick in judged.ticks:
        cap = tick.spec.cap
        if tick.spoilt:
            caps.append((below if cap is None else cap, f"without: {tick.spec.says}"))
        elif not tick.found and cap is not None:
            caps.append((cap, f"without: {tick.spec.says}"))
    for one in judged.misplaced:
        if one.sure:
            cap = below if one.step.cap is None else min(below, one.step.cap)
            caps.append((cap, "with a step out of place"))
    if judged.listed and tops:
        caps.append((tops[-1], "for words without a statement"))
    return sorted(caps)


def _says(key: LevelsKey, judged: LevelEvidence, suggested: int, most: int) -> str:
    """A line each for what was found, what to look for, what spoils it, and the lowest cap."""
    ticks, misplaced = judged.ticks, judged.misplaced
    groups = (
        ("Found", [tick.spec.says for tick in ticks if tick.found]),
        ("Look for", [tick.spec.says for tick in ticks if not tick.found and not tick.spoilt]),
        ("Said otherwise", [tick.spec.says for tick in ticks if tick.spoilt]),
        ("Out of place", [_named(one) for one in misplaced if one.sure]),
        ("Check the order yourself", [_named(one) for one in misplaced if not one.sure]),
    )
    said = [f"Suggestion only, {suggested} of {most}: you set the mark."]
    said += [f"{word}: {'; '.join(steps)}." for word, steps in groups if steps]
    caps = _caps(key, judged)
    if caps:
        said.append(f"{caps[0][0]} at most {caps[0][1]}.")
    return "\n".join(said)


def _named(one: Misplaced) -> str:
    return f'{one.step.says}; it should come after "{one.after.says}"'
