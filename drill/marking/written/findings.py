"""What the patterns of a mark scheme find in an answer, before anything is decided."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from drill.frozen import replace
from drill.marking.written.around import around
from drill.marking.written.patterns import (
    Compiled,
    Match,
    compile_pattern,
    find,
    find_all,
    missing,
    words_listened_for,
)
from drill.marking.written.phrases import AnswerText
from drill.marking.written.sentences import is_keyword_list, is_noted, words_of
from drill.marking.written.unknown import Heard, heard_by, unknown_statements
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
    """What one point's patterns found.

    `lacking`: where nothing is accepted, how many words the nearest line still lacks.
    """

    spec: PointSpec
    accepted: Matches
    rejected: Matches
    ignored: Matches
    lacking: int

    @property
    def best(self) -> Match:
        """The accepted words that stand nearest together, spelling sure before guessed."""
        return max((match for _, match in self.accepted), key=lambda one: (one.sure, -one.width))

    @property
    def ideas(self) -> list[tuple[str, Match]]:
        """Each accepted line's idea, named by its first concept, with where it stands."""
        return [(compiled.ideas[0].name, match) for compiled, match in self.accepted]


@dataclass(frozen=True)
class Findings:
    """All points' findings in one answer; `listed` when it names things and states nothing.

    `noted`: signs stand for its verbs.
    """

    points: tuple[PointFinding, ...]
    text: AnswerText
    listed: bool
    heard: Heard
    noted: bool = False

    @property
    def unknown(self) -> int:
        """How many statements there are in words that no line knows."""
        pairs = (p for one in self.points for p in (*one.accepted, *one.rejected, *one.ignored))
        matched = {place for _, match in pairs for place in match.places}
        return unknown_statements(self.text.words, self.heard, matched)

    def says_twice(self, finding: PointFinding) -> bool:
        """Whether what speaks for a point stands in two places, not only in one."""
        every = [m for line, _ in finding.accepted for m in find_all(line, self.text)]
        return any(one.places[-1] < other.places[0] for one in every for other in every)

    def quote(self, match: Match) -> str:
        return f'"{self.text.quote(match.places)}"'


def findings_in(
    typed: str, specs: tuple[PointSpec, ...], concepts: Mapping[str, tuple[str, ...]]
) -> Findings:
    """Everything the points' patterns find in what was typed."""
    text = text_of(typed, specs, concepts)
    found = tuple(_find(one, text) for one in schemes_of(specs, concepts))
    heard = _compiled(specs, tuple(sorted(concepts.items()))).heard
    return Findings(found, text, is_keyword_list(text.words), heard, is_noted(typed))


def schemes_of(
    specs: tuple[PointSpec, ...], concepts: Mapping[str, tuple[str, ...]]
) -> tuple[Scheme, ...]:
    """The points with their patterns compiled; made once for each question."""
    return _compiled(specs, tuple(sorted(concepts.items()))).schemes


def text_of(
    typed: str, specs: tuple[PointSpec, ...], concepts: Mapping[str, tuple[str, ...]]
) -> AnswerText:
    """The answer as words, with what the sentence around them denies."""
    vocabulary = _compiled(specs, tuple(sorted(concepts.items()))).vocabulary
    words = words_of(typed)
    turned, framing = around(words, vocabulary)
    if framing:
        words = [replace(w, denies=0) if i in framing else w for i, w in enumerate(words)]
    return AnswerText(words, vocabulary, turned)


class _Ready(NamedTuple):
    """The schemes of a question, every spelling they listen for, and all that they know."""

    schemes: tuple[Scheme, ...]
    vocabulary: frozenset[str]
    heard: Heard


@lru_cache(maxsize=256)
def _compiled(specs: tuple[PointSpec, ...], concepts: Concepts) -> _Ready:
    """Made once for each question."""
    sets = dict(concepts)

    def ready(patterns: tuple[Pattern, ...]) -> tuple[Compiled, ...]:
        return tuple(compile_pattern(pattern, sets) for pattern in patterns)

    schemes = tuple(
        Scheme(spec, ready(spec.accept), ready(spec.reject), ready(spec.ignore)) for spec in specs
    )
    patterns = [p for spec in specs for p in (*spec.accept, *spec.reject, *spec.ignore)]
    lines = [line for one in schemes for line in (*one.accept, *one.reject, *one.ignore)]
    return _Ready(schemes, words_listened_for(patterns, sets), heard_by(lines))


def _find(scheme: Scheme, text: AnswerText) -> PointFinding:
    accepted = _found(scheme.accept, text)
    lines = () if accepted else scheme.accept
    lacking = min((missing(compiled, text) for compiled in lines), default=0)
    rejected, ignored = _found(scheme.reject, text, True), _found(scheme.ignore, text)
    return PointFinding(scheme.spec, accepted, rejected, ignored, lacking)


def _found(patterns: Sequence[Compiled], text: AnswerText, in_piece: bool = False) -> Matches:
    pairs = ((compiled, find(compiled, text, in_piece)) for compiled in patterns)
    return tuple((compiled, match) for compiled, match in pairs if match is not None)
