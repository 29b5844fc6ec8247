"""What sample answers show about each line of a scheme: its correct and its wrong matches."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from functools import cache

from drill.checking.samples import Sample
from drill.marking.written.findings import Scheme, schemes_of, text_of
from drill.marking.written.patterns import Compiled, Match, find
from drill.marking.written.phrases import AnswerText
from drill.model import LevelsKey, Part, Pattern, WrittenKey

PartAt = Callable[[int], Part | None]


@dataclass
class LineEvidence:
    """One accept or reject line of a point with the samples it matches.

    `right`: samples that have the point by hand; `wrong`: those that have not; `alone`: right ones
    that no other line of the point matches; `orders` are those its ideas have in right
    ones; `words` all of the clauses in which it matched.
    """

    point: str
    rejects: bool
    place: int
    pattern: Pattern
    right: list[Sample] = field(default_factory=list)
    wrong: list[Sample] = field(default_factory=list)
    alone: list[Sample] = field(default_factory=list)
    orders: set[tuple[int, ...]] = field(default_factory=set)
    words: set[str] = field(default_factory=set)
    denied: bool = False
    crossing: Sample | None = None


def evidence_of(samples: Sequence[Sample], part_at: PartAt) -> list[LineEvidence]:
    """Every line of a written part, in the order of the scheme, held against its samples.

    Args:
        part_at: the part at a seed; the seed chooses what is asked.
    """
    lines: dict[tuple[str, bool, int], LineEvidence] = {}
    first = part_at(0)
    if first is not None:
        _add_lines(first, lines)
    for sample in samples:
        part = part_at(sample.seed)
        if part is not None:
            _add_lines(part, lines)
            _add(sample, part, lines)
    return list(lines.values())


def _add_lines(part: Part, lines: dict[tuple[str, bool, int], LineEvidence]) -> None:
    for point, rejects, place, compiled in _each_line(_schemes(part)):
        key = (point, rejects, place)
        lines.setdefault(key, LineEvidence(point, rejects, place, compiled.pattern))


def _schemes(part: Part) -> tuple[Scheme, ...]:
    assert isinstance(part.key, WrittenKey | LevelsKey)
    return schemes_of(part.key.points, part.key.concepts)


def _each_line(schemes: Sequence[Scheme]) -> Iterator[tuple[str, bool, int, Compiled]]:
    for scheme in schemes:
        for rejects, lines in ((False, scheme.accept), (True, scheme.reject)):
            for place, compiled in enumerate(lines):
                yield scheme.spec.id, rejects, place, compiled


def _add(sample: Sample, part: Part, lines: dict[tuple[str, bool, int], LineEvidence]) -> None:
    assert isinstance(part.key, WrittenKey | LevelsKey)
    text = text_of(sample.answer, part.key.points, part.key.concepts)
    given = sample.points or {}
    matched: dict[str, list[LineEvidence]] = {}
    for point, rejects, place, compiled in _each_line(_schemes(part)):
        match = find(compiled, text, rejects)
        if match is None:
            continue
        line = lines[point, rejects, place]
        (line.right if given.get(point) else line.wrong).append(sample)
        if given.get(point) and not rejects:
            line.orders.add(match.order)
            line.denied = line.denied or _needs_any(compiled, text)
            matched.setdefault(point, []).append(line)
        clauses = {text.words[place].clause for place in match.places}
        line.words.update(word.text for word in text.words if word.clause in clauses)
        if not rejects and _crosses(match, text):
            line.crossing = line.crossing or sample
    for several in matched.values():
        if len(several) == 1:
            several[0].alone.append(sample)


def _needs_any(compiled: Compiled, text: AnswerText) -> bool:
    """Whether the line would not match if its ideas had to be stated."""
    if compiled.pattern.polarity != "any":
        return False
    return find(_stated(compiled), text) is None


@cache
def _stated(compiled: Compiled) -> Compiled:
    from drill.frozen import replace

    return replace(compiled, pattern=replace(compiled.pattern, polarity="yes"))


def _crosses(match: Match, text: AnswerText) -> bool:
    return text.words[match.places[0]].sentence != text.words[match.places[-1]].sentence
