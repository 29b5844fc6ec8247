"""Extended answers: a suggestion only; the learner sets the mark.

The steps a good answer holds are ticked off. A step that is missing, or said so that it would spoil
the result, can cap the mark: no filtering, four at most.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from drill.marking.findings import Finding, findings_in
from drill.marking.written import judge_points
from drill.model import LevelsKey, Mark, Part, PointMark, PointSpec


@dataclass(frozen=True)
class Tick:
    """One step of the checklist: whether the answer has it, or says it so that it spoils."""

    spec: PointSpec
    found: bool
    spoilt: bool


def mark_levels(part: Part, typed: str, earlier: Mapping[str, Fraction]) -> Mark:
    """The steps found, ticked off, and the mark they suggest; always `self_marked`."""
    key = part.key
    assert isinstance(key, LevelsKey)
    found = findings_in(typed, key.points, key.concepts)
    judged = judge_points(found)
    ticks = [_tick(one, mark) for one, mark in zip(found.points, judged, strict=True)]
    suggested = _suggested(key, ticks)
    says = _says(key, ticks, suggested, part.marks)
    points = tuple(
        PointMark(point.id, suggested if index == 0 else 0, point.marks, "suggested", unsure=True)
        for index, point in enumerate(part.points)
    )
    return replace(Mark(suggested, part.marks, points, says), self_marked=True)


def _tick(finding: Finding, mark: PointMark) -> Tick:
    return Tick(finding.spec, mark.marks > 0, bool(finding.rejected))


def _suggested(key: LevelsKey, ticks: list[Tick]) -> int:
    """The share of the steps found, of the top mark, rounded down, and never above a cap."""
    best = max((mark for mark, _ in key.levels), default=0)
    if not ticks:
        return 0
    share = best * sum(tick.found for tick in ticks) // len(ticks)
    return min([share, *(cap for cap, _ in _caps(key, ticks))])


def _caps(key: LevelsKey, ticks: list[Tick]) -> list[tuple[int, str]]:
    """The caps that hold, lowest first, each with the step it comes from.

    What spoils the result caps without being told to: at the level below the best.
    """
    tops = sorted((mark for mark, _ in key.levels), reverse=True)
    below = tops[1] if len(tops) > 1 else max(tops, default=0)
    caps: list[tuple[int, str]] = []
    for tick in ticks:
        if tick.spoilt:
            caps.append((below if tick.spec.cap is None else tick.spec.cap, tick.spec.says))
        elif not tick.found and tick.spec.cap is not None:
            caps.append((tick.spec.cap, tick.spec.says))
    return sorted(caps)


def _says(key: LevelsKey, ticks: list[Tick], suggested: int, most: int) -> str:
    """A line each for what was found, what to look for, what spoils it, and the lowest cap."""
    groups = (
        ("Found", [tick.spec.says for tick in ticks if tick.found]),
        ("Look for", [tick.spec.says for tick in ticks if not tick.found and not tick.spoilt]),
        ("Said otherwise", [tick.spec.says for tick in ticks if tick.spoilt]),
    )
    said = [f"Suggestion only, {suggested} of {most}: you set the mark."]
    said += [f"{word}: {'; '.join(steps)}." for word, steps in groups if steps]
    caps = _caps(key, ticks)
    if caps:
        said.append(f"{caps[0][0]} at most without: {caps[0][1]}.")
    return "\n".join(said)
