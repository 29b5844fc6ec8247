"""What the patterns of a mark scheme find in an answer, before anything is decided."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from drill.marking.written.patterns import (
    WIDE,
    Compiled,
    Match,
    compile_pattern,
    find,
    nearly,
    words_listened_for,
)
from drill.marking.written.phrases import AnswerText
from drill.marking.written.sentences import is_keyword_list, words_of
from drill.model import Pattern, PointSpec

Concepts = tuple[tuple[str, tuple[str, ...]], ...]
Matches = tuple[tuple[Compiled, Match], ...]


@dataclass(frozen=True)
class Scheme:
    """One marking point with its patterns compiled."""

    spec: PointSpec
    accept: tuple[Compiled, ...]
    reject: tuple[Compiled, ...]
    ignore: tuple[Compiled, ...]


@dataclass(frozen=True)
class PointFinding:
    """What one point's patterns found; `near` when nothing is accepted, but not by much."""

    spec: PointSpec
    accepted: Matches
    rejected: Matches
    ignored: Matches
    near: bool

    @property
    def best(self) -> Match:
        """The accepted words that stand nearest together, spelling sure before guessed."""
        return max((match for _, match in self.accepted), key=lambda one: (one.sure, -one.width))

    @property
    def weak(self) -> bool:
        """Whether the words that speak for the point stand far apart, wherever they are found."""
        return all(match.width >= WIDE for _, match in self.accepted)

    @property
    def ideas(self) -> list[tuple[str, Match]]:
        """Each accepted line's idea, named by its first concept, with where it stands."""
        return [(compiled.ideas[0].name, match) for compiled, match in self.accepted]


@dataclass(frozen=True)
class Findings:
    """All points' findings in one answer; `listed` when it names things and states nothing."""

    points: tuple[PointFinding, ...]
    text: AnswerText
    listed: bool

    def quote(self, match: Match) -> str:
        return f'"{self.text.quote(match.places)}"'


def findings_in(
    typed: str, specs: tuple[PointSpec, ...], concepts: Mapping[str, tuple[str, ...]]
) -> Findings:
    """Everything the points' patterns find in what was typed."""
    schemes, vocabulary = _compiled(specs, tuple(sorted(concepts.items())))
    words = words_of(typed)
    text = AnswerText(words, vocabulary)
    return Findings(tuple(_find(one, text) for one in schemes), text, is_keyword_list(words))


@lru_cache(maxsize=256)
def _compiled(
    specs: tuple[PointSpec, ...], concepts: Concepts
) -> tuple[tuple[Scheme, ...], frozenset[str]]:
    """The schemes, and every spelling they listen for; made once for each question."""
    sets = dict(concepts)

    def ready(patterns: tuple[Pattern, ...]) -> tuple[Compiled, ...]:
        return tuple(compile_pattern(pattern, sets) for pattern in patterns)

    schemes = tuple(
        Scheme(spec, ready(spec.accept), ready(spec.reject), ready(spec.ignore)) for spec in specs
    )
    patterns = [p for spec in specs for p in (*spec.accept, *spec.reject, *spec.ignore)]
    return schemes, words_listened_for(patterns, sets)


def _find(scheme: Scheme, text: AnswerText) -> PointFinding:
    accepted = _found(scheme.accept, text)
    near = not accepted and any(nearly(compiled, text) for compiled in scheme.accept)
    rejected, ignored = _found(scheme.reject, text), _found(scheme.ignore, text)
    return PointFinding(scheme.spec, accepted, rejected, ignored, near)


def _found(patterns: Sequence[Compiled], text: AnswerText) -> Matches:
    pairs = ((compiled, find(compiled, text)) for compiled in patterns)
    return tuple((compiled, match) for compiled, match in pairs if match is not None)
