"""Explains the mark of one answer: for each point the lines that matched, and what else decided."""

from __future__ import annotations

from dataclasses import dataclass

from drill.checking.evidence import LineEvidence, evidence_of
from drill.checking.samples import Sample
from drill.checking.twins import Things, Twin, twins
from drill.marking import mark
from drill.marking.written.findings import text_of
from drill.marking.written.word_order import order_of
from drill.model import Part, WrittenKey


@dataclass(frozen=True)
class TriedPoint:
    """What one point earned and why; `lines` are those of the file that met the answer.

    Each line is given with its number, whether it accepts or rejects, and its words.
    """

    id: str
    marks: int
    unsure: bool
    because: str
    lines: tuple[str, ...]


@dataclass(frozen=True)
class TurnedAnswer:
    """The answer with two nouns exchanged, or a direction reversed, and what it earns."""

    answer: str
    marks: int
    unsure: bool


@dataclass(frozen=True)
class TriedAnswer:
    """One answer; `denied` are words that the sentence around them turns, `order` how far the
    order of the words stands above chance, None where there are too few to tell; `turned` says
    the same the wrong way round.
    """

    answer: str
    marks: int
    of: int
    says: str
    order: float | None
    denied: str
    points: tuple[TriedPoint, ...]
    turned: tuple[TurnedAnswer, ...] = ()


def look_closely(part: Part, typed: str, things: Things | None = None) -> TriedAnswer:
    """The mark of an answer to a written part, with what decided it.

    Args:
        things: the nouns of the part; without them no nouns are exchanged.
    """
    key = part.key
    assert isinstance(key, WrittenKey)
    verdict = mark(part, typed)
    text = text_of(typed, key.points, key.concepts)
    sample = Sample(0, part.id, typed, 0, {point.id: 1 for point in key.points}, None)
    lines = evidence_of([sample], lambda _: part)
    points = tuple(
        TriedPoint(one.id, one.marks, one.unsure, one.because, _met(one.id, lines))
        for one in verdict.points
    )
    denied = " ".join(word.text for at, word in enumerate(text.words) if at in text.turned)
    order = order_of(text.words, key.learned.pairs)
    turned = tuple(_turned(part, twin) for twin in (twins(typed, things) if things else ()))
    said = verdict.says
    return TriedAnswer(typed, verdict.marks, verdict.of, said, order, denied, points, turned)


def _turned(part: Part, twin: Twin) -> TurnedAnswer:
    verdict = mark(part, twin.answer)
    unsure = any(point.unsure for point in verdict.points)
    return TurnedAnswer(twin.answer, verdict.marks, unsure)


def _met(point: str, lines: list[LineEvidence]) -> tuple[str, ...]:
    return tuple(
        f"line {one.pattern.line} {'rejects' if one.rejects else 'accepts'}: "
        f"{' + '.join(one.pattern.concepts)}"
        for one in lines
        if one.point == point and (one.right or one.wrong)
    )
