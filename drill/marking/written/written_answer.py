"""Written answers, marked idea by idea: what is accepted, what is rejected, what earns nothing.

Every mark shows the words that earned it, every mark missed the idea that is missing. Where the
words point both ways the marker says it is not sure, and gives its guess.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from drill.marking.written.findings import Findings, PointFinding, findings_in
from drill.model import Mark, Part, PointMark, WrittenKey
from drill.typed.awarding import settled


def mark_written(part: Part, typed: str, earlier: Mapping[str, Fraction]) -> Mark:
    """Each point by its patterns; then what one point needs of another, the list, the maximum."""
    key = part.key
    assert isinstance(key, WrittenKey)
    found = findings_in(typed, key.points, key.concepts)
    points = judge_points(found, key.asked)
    most = min(key.max, part.marks)
    return settled(part, points, _says(points, found.points, most), most=most)


def judge_points(found: Findings, asked: int | None = None) -> list[PointMark]:
    """Every point's verdict, in the scheme's order.

    Args:
        asked: how many answers the question asks for, where the list principle holds.
    """
    if found.listed:
        return [_only_listed(finding) for finding in found.points]
    points = [_judge(finding, found, asked) for finding in found.points]
    points = _distinct(points, found)
    points = _dependent(points, found.points)
    return points if asked is None else _as_list(points, found.points, asked)


def _judge(finding: PointFinding, found: Findings, asked: int | None) -> PointMark:
    spec = finding.spec
    if finding.rejected and asked is None:
        quote = found.quote(finding.rejected[0][1])
        because = f"{quote} says otherwise; missing: {spec.says}"
        return PointMark(spec.id, 0, spec.marks, because, unsure=bool(finding.accepted))
    if finding.accepted:
        because = found.quote(finding.best)
        return PointMark(spec.id, spec.marks, spec.marks, because, unsure=finding.weak)
    because = f"missing: {spec.says}"
    if finding.ignored:
        because = f"{found.quote(finding.ignored[0][1])} earns nothing; {because}"
    return PointMark(spec.id, 0, spec.marks, because, unsure=finding.near)


def _only_listed(finding: PointFinding) -> PointMark:
    """Words without a statement earn nothing; where they are the right ones, a person may look."""
    spec = finding.spec
    because = f"words without a statement; missing: {spec.says}"
    return PointMark(spec.id, 0, spec.marks, because, unsure=bool(finding.accepted))


def _distinct(points: list[PointMark], found: Findings) -> list[PointMark]:
    """Points with the same accept lines are "any n from": each needs an idea of its own.

    Two lines are the same idea when they begin with the same concept.
    """
    shared = Counter(finding.spec.accept for finding in found.points)
    used: set[str] = set()
    out: list[PointMark] = []
    for point, finding in zip(points, found.points, strict=True):
        if not point.marks or shared[finding.spec.accept] == 1:
            out.append(point)
            continue
        free = [(idea, match) for idea, match in finding.ideas if idea not in used]
        if free:
            used.add(free[0][0])
            out.append(replace(point, because=found.quote(free[0][1])))
        else:
            because = f"said already; missing: {finding.spec.says}"
            out.append(replace(point, marks=0, because=because))
    return out


def _dependent(points: list[PointMark], findings: Sequence[PointFinding]) -> list[PointMark]:
    """A point that needs others earns nothing without them."""
    earned = {point.id for point in points if point.marks}
    out: list[PointMark] = []
    for point, finding in zip(points, findings, strict=True):
        missing = [need for need in finding.spec.needs if need not in earned]
        if point.marks and missing:
            because = f"needs {missing[0]} first; {point.because}"
            point = replace(point, marks=0, because=because)
        out.append(point)
    return out


def _as_list(
    points: list[PointMark], findings: Sequence[PointFinding], asked: int
) -> list[PointMark]:
    """The list principle: beyond what was asked for, each wrong one cancels a right one."""
    wrong = len({compiled.ideas[0].name for one in findings for compiled, _ in one.rejected})
    right = sum(1 for point in points if point.marks)
    if not wrong or right + wrong <= asked:
        return points
    cancelled = right - max(0, min(right, asked) - wrong)
    out = list(points)
    for index in range(len(out) - 1, -1, -1):
        if cancelled and out[index].marks:
            cancelled -= 1
            out[index] = replace(out[index], marks=0, because="cancelled by a wrong one beside it")
    return out


def _says(points: Sequence[PointMark], findings: Sequence[PointFinding], most: int) -> str:
    """One line: the first missing idea, or what is not sure; never "Right" while that is open."""
    sure = sum(point.marks for point in points if not point.unsure)
    if sure >= most:
        return "Right."
    lost = [point.because for point in points if not (point.marks or point.unsure)]
    if lost and sum(point.marks for point in points) < most:
        return f"{lost[0][:1].upper()}{lost[0][1:]}."
    doubted = [
        finding.spec.says for point, finding in zip(points, findings, strict=True) if point.unsure
    ]
    return f"Not sure whether this is said: {doubted[0]}." if doubted else "Something is missing."
