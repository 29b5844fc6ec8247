"""Written answers, marked idea by idea: what is accepted, what is rejected, what earns nothing.

Every mark shows the words that earned it, every mark missed the idea that is missing. Where the
words point both ways the marker says it is not sure, and gives its guess.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache

from drill.marking.patterns import (
    WIDE,
    Compiled,
    Match,
    compile_pattern,
    find,
    nearly,
    words_listened_for,
)
from drill.marking.phrases import Text
from drill.marking.verdict import settled
from drill.marking.words import is_keyword_list, words_of
from drill.model import Mark, Part, PointMark, PointSpec, WrittenKey

Concepts = tuple[tuple[str, tuple[str, ...]], ...]


@dataclass(frozen=True)
class Scheme:
    """One marking point with its patterns compiled."""

    spec: PointSpec
    accept: tuple[Compiled, ...]
    reject: tuple[Compiled, ...]
    ignore: tuple[Compiled, ...]


@dataclass(frozen=True)
class Finding:
    """What one point's patterns found in the answer."""

    scheme: Scheme
    accepted: tuple[tuple[Compiled, Match], ...]
    rejected: tuple[tuple[Compiled, Match], ...]
    ignored: tuple[Match, ...]
    near: bool


def mark_written(part: Part, typed: str, earlier: Mapping[str, Fraction]) -> Mark:
    """Each point by its patterns; then what one point needs of another, the list, the maximum."""
    key = part.key
    assert isinstance(key, WrittenKey)
    points = judge_points(key.points, key.concepts, typed, key.asked)
    return settled(part, points, _says(points, key, part), most=min(key.max, part.marks))


def judge_points(
    specs: tuple[PointSpec, ...],
    concepts: Mapping[str, tuple[str, ...]],
    typed: str,
    asked: int | None = None,
) -> list[PointMark]:
    """Every point's verdict, in the scheme's order; `asked` switches the list principle on."""
    schemes, vocabulary = _compiled(specs, tuple(sorted(concepts.items())))
    words = words_of(typed)
    text = Text(words, vocabulary)
    findings = [_find(scheme, text) for scheme in schemes]
    if is_keyword_list(words):
        return [_only_listed(finding) for finding in findings]
    points = [_judge(finding, text, asked) for finding in findings]
    points = _distinct(points, findings, text)
    points = _dependent(points, specs)
    return _as_list(points, findings, asked) if asked else points


@lru_cache(maxsize=256)
def _compiled(
    specs: tuple[PointSpec, ...], concepts: Concepts
) -> tuple[tuple[Scheme, ...], frozenset[str]]:
    sets = dict(concepts)
    schemes = tuple(
        Scheme(
            spec,
            tuple(compile_pattern(pattern, sets) for pattern in spec.accept),
            tuple(compile_pattern(pattern, sets) for pattern in spec.reject),
            tuple(compile_pattern(pattern, sets) for pattern in spec.ignore),
        )
        for spec in specs
    )
    patterns = [p for spec in specs for p in (*spec.accept, *spec.reject, *spec.ignore)]
    return schemes, words_listened_for(patterns, sets)


def _find(scheme: Scheme, text: Text) -> Finding:
    accepted = _found(scheme.accept, text)
    return Finding(
        scheme,
        accepted,
        _found(scheme.reject, text),
        tuple(match for _, match in _found(scheme.ignore, text)),
        not accepted and any(nearly(compiled, text) for compiled in scheme.accept),
    )


def _found(patterns: Sequence[Compiled], text: Text) -> tuple[tuple[Compiled, Match], ...]:
    pairs = ((compiled, find(compiled, text)) for compiled in patterns)
    return tuple((compiled, match) for compiled, match in pairs if match is not None)


def _judge(finding: Finding, text: Text, asked: int | None) -> PointMark:
    spec = finding.scheme.spec
    if finding.rejected and asked is None:
        quote = text.quote(finding.rejected[0][1].places)
        because = f'"{quote}" says otherwise: {spec.says}'
        return PointMark(spec.id, 0, spec.marks, because, unsure=bool(finding.accepted))
    if finding.accepted:
        best = max((match for _, match in finding.accepted), key=lambda m: (m.sure, -m.width))
        because = f'"{text.quote(best.places)}"'
        return PointMark(spec.id, spec.marks, spec.marks, because, unsure=_is_weak(finding))
    because = f"missing: {spec.says}"
    if finding.ignored:
        because = f'"{text.quote(finding.ignored[0].places)}" earns nothing; {because}'
    return PointMark(spec.id, 0, spec.marks, because, unsure=finding.near)


def _is_weak(finding: Finding) -> bool:
    """Whether the words that speak for the point stand far apart, wherever they are found."""
    return all(match.width >= WIDE for _, match in finding.accepted)


def _only_listed(finding: Finding) -> PointMark:
    """Words without a statement earn nothing; where they are the right ones, a person may look."""
    spec = finding.scheme.spec
    because = f"words without a statement; missing: {spec.says}"
    return PointMark(spec.id, 0, spec.marks, because, unsure=bool(finding.accepted))


def _distinct(points: list[PointMark], findings: Sequence[Finding], text: Text) -> list[PointMark]:
    """Points with the same accept lines are "any n from": each needs an idea of its own.

    Two lines are the same idea when they begin with the same concept.
    """
    used: dict[tuple[object, ...], list[str]] = {}
    out: list[PointMark] = []
    for point, finding in zip(points, findings, strict=True):
        ideas = used.setdefault(finding.scheme.spec.accept, [])
        free = [pair for pair in finding.accepted if pair[0].ideas[0].name not in ideas]
        if point.marks and free:
            ideas.append(free[0][0].ideas[0].name)
            out.append(replace(point, because=f'"{text.quote(free[0][1].places)}"'))
        elif point.marks:
            says = finding.scheme.spec.says
            out.append(replace(point, marks=0, because=f"said already; missing: {says}"))
        else:
            out.append(point)
    return out


def _dependent(points: list[PointMark], specs: Sequence[PointSpec]) -> list[PointMark]:
    """A point that needs others earns nothing without them."""
    earned = {point.id for point in points if point.marks}
    out: list[PointMark] = []
    for point, spec in zip(points, specs, strict=True):
        missing = [need for need in spec.needs if need not in earned]
        if point.marks and missing:
            because = f"needs {missing[0]} first; {point.because}"
            out.append(replace(point, marks=0, because=because))
        else:
            out.append(point)
    return out


def _as_list(points: list[PointMark], findings: Sequence[Finding], asked: int) -> list[PointMark]:
    """The list principle: beyond what was asked for, each wrong one cancels a right one."""
    wrong = {pair[0].ideas[0].name for finding in findings for pair in finding.rejected}
    right = [point for point in points if point.marks]
    cancelled = len(wrong) if len(right) + len(wrong) > asked else 0
    out = list(points)
    for index in range(len(out) - 1, -1, -1):
        if cancelled and out[index].marks:
            cancelled -= 1
            out[index] = replace(out[index], marks=0, because="cancelled by a wrong one beside it")
    return out


def _says(points: Sequence[PointMark], key: WrittenKey, part: Part) -> str:
    """The missing idea first, when there is one; it is what the reader needs."""
    most = min(key.max, part.marks)
    got = min(most, sum(point.marks for point in points))
    if got >= most:
        return "Right: " + "; ".join(point.because for point in points if point.marks) + "."
    lost = next((point for point in points if not point.marks), None)
    missing = lost.because if lost else ""
    return f"{got} of {most}: {missing}."
