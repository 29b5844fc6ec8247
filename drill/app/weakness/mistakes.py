"""Common mistakes, counted over all skills and over the chances there were."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from drill.app.chance import by_chance, looked_at, usual_rate

if TYPE_CHECKING:
    from drill.app.weakness.part_answers import PartAnswer

TIMES = DAYS = 2
"""A mistake is told when it was made so often, on so many days."""
_PLAIN = 3
"""Told plainly when made so often: some mistakes lie nearer than others, and two say little."""


@dataclass(frozen=True)
class Example:
    """An answer as evidence: when, which question, what was asked, typed and right."""

    date: str
    template: str
    part: str
    ask: str
    typed: str
    right: str
    marks: int
    of: int


@dataclass(frozen=True)
class CommonMistake:
    """A known wrong route: made `times` times in `chances` answers where it could be made.

    `plain`: oftener than the learner's rate of other common mistakes explains.
    """

    mistake: str
    times: int
    chances: int
    days: int
    skills: tuple[str, ...]
    examples: tuple[Example, ...]
    plain: bool = False

    @property
    def told(self) -> bool:
        """Whether it was made often enough, on days enough, to speak of it."""
        return self.times >= TIMES and self.days >= DAYS


def example(row: PartAnswer) -> Example:
    """A part's answer as evidence."""
    day = row.when.date().isoformat()
    return Example(day, row.template, row.part, row.ask, row.typed, row.right, row.marks, row.of)


def common_mistakes(rows: Sequence[PartAnswer], most: int = 2) -> list[CommonMistake]:
    """Every mistake made, the most often made first; `most` examples of each, the latest first.

    Chances are the parts where it can be told. One that no part names ahead could be made in every
    part of the kinds in which it was made.
    """
    made: dict[str, list[PartAnswer]] = defaultdict(list)
    for row in rows:
        if row.mistake:
            made[row.mistake].append(row)
    marked = _Marked(rows)
    found = [
        _counted(mistake, told, len(chances_of(mistake, rows)), marked, most)
        for mistake, told in made.items()
    ]
    return sorted(found, key=lambda one: (-one.times, -one.times / one.chances, one.mistake))


def chances_of(mistake: str, rows: Sequence[PartAnswer]) -> list[PartAnswer]:
    """The answers in which it was or could be made, `common_mistakes` counts these."""
    made = (row for row in rows if row.mistake == mistake)
    kinds = {row.kind for row in made if mistake not in row.could}
    return [row for row in rows if mistake in row.could or row.kind in kinds]


def _counted(
    mistake: str, made: Sequence[PartAnswer], chances: int, marked: _Marked, most: int
) -> CommonMistake:
    latest = sorted(made, key=lambda row: row.when, reverse=True)
    return CommonMistake(
        mistake=mistake,
        times=len(made),
        chances=chances,
        days=len({row.when.date() for row in made}),
        skills=tuple(sorted({row.skill for row in made})),
        examples=tuple(map(example, latest[:most])),
        plain=len(made) >= _PLAIN and not marked.by_chance(mistake, len(made), chances),
    )


class _Marked:
    """How often each mistake was made and could be made where marks were given."""

    def __init__(self, rows: Iterable[PartAnswer]) -> None:
        told = [row for row in rows if row.of]
        self.made = Counter(row.mistake for row in told if row.mistake)
        self.could = Counter(name for row in told for name in row.could)
        rate = usual_rate(self.made.total(), self.could.total())
        self.looked_at = looked_at(self.could.values(), rate)

    def by_chance(self, mistake: str, times: int, chances: int) -> bool:
        """Whether the learner's rate of other mistakes may well bring this one so often."""
        rate = usual_rate(
            self.made.total() - self.made[mistake], self.could.total() - self.could[mistake]
        )
        return by_chance(times, chances, rate, self.looked_at)
