"""Extended answers: a suggestion only; the learner sets the mark."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from drill.marking.findings import findings_in
from drill.marking.written import judge_points
from drill.model import LevelsKey, Mark, Part, PointMark


def mark_levels(part: Part, typed: str, earlier: Mapping[str, Fraction]) -> Mark:
    """The content found, ticked off, and the mark it suggests; always `self_marked`."""
    key = part.key
    assert isinstance(key, LevelsKey)
    found = findings_in(typed, key.points, key.concepts)
    ticks = judge_points(found)
    spoilt = [finding.spec.id for finding in found.points if finding.rejected]
    suggested = _suggested(key, ticks, bool(spoilt))
    says = _says(ticks, spoilt, suggested, part.marks)
    points = tuple(
        PointMark(point.id, suggested if index == 0 else 0, point.marks, says, unsure=True)
        for index, point in enumerate(part.points)
    )
    return replace(Mark(suggested, part.marks, points, says), self_marked=True)


def _suggested(key: LevelsKey, ticks: Sequence[PointMark], spoilt: bool) -> int:
    """The share of the content found, of the top mark, rounded down.

    A step that would spoil the result (a rejected statement) caps it at the level below the best.
    """
    tops = sorted((mark for mark, _ in key.levels), reverse=True)
    if not ticks or not tops:
        return 0
    share = tops[0] * sum(1 for tick in ticks if tick.marks) // len(ticks)
    return min(share, tops[1]) if spoilt and len(tops) > 1 else share


def _says(ticks: Sequence[PointMark], spoilt: list[str], suggested: int, most: int) -> str:
    found = [tick.id for tick in ticks if tick.marks]
    missing = [tick.id for tick in ticks if not tick.marks and tick.id not in spoilt]
    said = [f"Suggestion only, {suggested} of {most}: you set the mark."]
    for word, ids in (("Found", found), ("Look for", missing), ("Spoils it", spoilt)):
        if ids:
            said.append(f"{word}: {', '.join(ids)}.")
    return " ".join(said)
