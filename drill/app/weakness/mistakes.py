"""Common mistakes, counted over all skills and over the chances there were."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from drill.app.chance import by_chance, usual_rate

if TYPE_CHECKING:
    from drill.app.weakness.part_answers import PartAnswer

TIMES = DAYS = 2
"""A mistake is told when it was made so often, on so many days."""


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
    found = [_counted(mistake, told, rows, most) for mistake, told in made.items()]
    return sorted(found, key=lambda one: (-one.times, -one.times / one.chances, one.mistake))


def _counted(
    mistake: str, made: Sequence[PartAnswer], rows: Iterable[PartAnswer], most: int
) -> CommonMistake:
    kinds = {row.kind for row in made if mistake not in row.could}
    chances = sum(mistake in row.could or row.kind in kinds for row in rows)
    chances = max(chances, len(made))
    latest = sorted(made, key=lambda row: row.when, reverse=True)
    return CommonMistake(
        mistake=mistake,
        times=len(made),
        chances=chances,
        days=len({row.when.date() for row in made}),
        skills=tuple(sorted({row.skill for row in made})),
        examples=tuple(map(example, latest[:most])),
        plain=not _by_chance(mistake, len(made), chances, rows),
    )


def _by_chance(mistake: str, times: int, chances: int, rows: Iterable[PartAnswer]) -> bool:
    """Whether the learner's rate of other common mistakes may well bring this one so often."""
    others = [(row.mistake, row.could - {mistake}) for row in rows if row.of]
    made = sum(bool(other) and other != mistake for other, _ in others)
    rate = usual_rate(made, sum(len(could) for _, could in others))
    looked_at = len({name for _, could in others for name in could})
    return by_chance(times, chances, rate, looked_at)
