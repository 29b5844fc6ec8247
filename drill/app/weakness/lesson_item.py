"""One thing to take up in a lesson, with its evidence."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import TYPE_CHECKING

from drill.app.chance import more_than_before
from drill.app.weakness.mistakes import CommonMistake, Example, chances_of, example
from drill.app.weakness.skill_rows import Dated, SkillRow

if TYPE_CHECKING:
    from drill.app.weakness.guesses import Guesses
    from drill.app.weakness.part_answers import PartAnswer

LATELY = timedelta(days=14)
TOGETHER, FORGOTTEN, GUESSING = "weak together", "forgotten", "guesses when unsure"
"""Why a topic, or a way of answering, is an item."""


@dataclass(frozen=True)
class TwoWeeks:
    """Marks since a date, two weeks ago or later, and earlier; all when nothing was asked since."""

    marks: int
    of: int
    since: str
    before_marks: int
    before_of: int

    @property
    def way(self) -> str:
        """Whether the share of marks rose or fell by more than chance; "" with none before."""
        if not self.before_of:
            return ""
        now, before = (self.marks, self.of), (self.before_marks, self.before_of)
        if more_than_before(*now, *before):
            return "improving"
        return "getting worse" if more_than_before(*before, *now) else "no clear change"


@dataclass(frozen=True)
class Made:
    """How often a mistake was made where it can be: since a date two weeks ago, and before it."""

    times: int
    chances: int
    since: str
    before_times: int
    before_chances: int


@dataclass(frozen=True)
class GuessCounts:
    """Guesses that were called so, those only typed too fast, those called so and right.

    `answers`: all that were typed, the lost ones among them.
    """

    said: int
    fast: int
    right: int
    answers: int


@dataclass(frozen=True)
class LessonItem:
    """One thing to take up: a skill, a common mistake, or (neither) a topic or a habit.

    `plain` False: it may have come by chance, as there are so many skills; `slight`: it may well
    have, even if there were no others. `times` of `chances`: how often the mistake was
    made, over all skills; of guesses, how many lost answers were, with `guesses` taken apart.
    `made` tells when. `evidence` tells `why`: of a topic, every answer since the trend's date.
    """

    name: str
    skill: str
    plain: bool
    why: str
    mistake: str
    trend: TwoWeeks
    times: int
    chances: int
    held: float | None
    evidence: tuple[Dated, ...]
    example: Example | None
    skills: tuple[str, ...]
    guesses: GuessCounts | None = None
    made: Made | None = None
    slight: bool = False


def skill_item(
    skill: SkillRow,
    plain: bool,
    slight: bool,
    mistake: CommonMistake | None,
    rows: Sequence[PartAnswer],
    now: datetime,
) -> LessonItem:
    """A skill that is weak; `mistake`: the one that explains it."""
    own = [row for row in rows if row.skill == skill.skill and row.of]
    lost = [row for row in own if not row.is_right and row.mistake == skill.mistake]
    lost = lost or [row for row in own if not row.is_right]
    return LessonItem(
        name=skill.name,
        skill=skill.skill,
        plain=plain,
        why=skill.why,
        mistake=skill.mistake,
        trend=trend(own, now - LATELY),
        times=mistake.times if mistake else 0,
        chances=mistake.chances if mistake else 0,
        held=skill.held,
        evidence=skill.evidence,
        example=_telling(lost),
        skills=(skill.skill,),
        slight=slight,
    )


def mistake_item(mistake: CommonMistake, rows: Sequence[PartAnswer], now: datetime) -> LessonItem:
    """A common mistake, whatever the skills in which it was made."""
    could = chances_of(mistake.mistake, rows)
    return LessonItem(
        name=mistake.mistake,
        skill="",
        plain=mistake.plain,
        why="a common mistake",
        mistake=mistake.mistake,
        trend=trend([row for row in could if row.of], now - LATELY),
        times=mistake.times,
        chances=mistake.chances,
        held=None,
        evidence=(),
        example=mistake.examples[0],
        skills=mistake.skills,
        made=_made(mistake.mistake, could, now - LATELY),
        slight=not mistake.plain,
    )


def _made(mistake: str, could: Sequence[PartAnswer], since: datetime) -> Made:
    late = [row.mistake == mistake for row in could if row.when >= since]
    early = [row.mistake == mistake for row in could if row.when < since]
    return Made(sum(late), len(late), since.date().isoformat(), sum(early), len(early))


def topic_item(
    topic: str,
    why: str,
    rows: Sequence[PartAnswer],
    lost: Sequence[PartAnswer],
    since: datetime,
    *,
    plain: bool = True,
) -> LessonItem:
    """A topic of which several skills were missed: `rows` are all answers to it, `lost` those."""
    return LessonItem(
        name=topic,
        skill="",
        plain=plain,
        why=why,
        mistake="",
        trend=trend(rows, since),
        times=0,
        chances=0,
        held=None,
        evidence=tuple(_dated(row) for row in rows if row.when >= since),
        example=_telling(lost),
        skills=tuple(dict.fromkeys(row.skill for row in lost)),
    )


def _dated(row: PartAnswer) -> Dated:
    return Dated(row.when.date().isoformat(), round(row.marks / row.of, 3))


def guessing_item(found: Guesses, rows: Sequence[PartAnswer], now: datetime) -> LessonItem:
    """That what is not known is guessed."""
    return LessonItem(
        name="guessing",
        skill="",
        plain=True,
        why=GUESSING,
        mistake="",
        trend=trend([row for row in rows if row.of], now - LATELY),
        times=found.times,
        chances=found.lost,
        held=None,
        evidence=(),
        example=example(found.latest),
        skills=found.skills,
        guesses=GuessCounts(found.said, found.times - found.said, found.right, found.answers),
    )


def trend(rows: Sequence[PartAnswer], since: datetime) -> TwoWeeks:
    """Marks since then, and before."""
    lately = [row for row in rows if row.when >= since]
    before = [row for row in rows if row.when < since] if lately else []
    return TwoWeeks(
        marks=sum(row.marks for row in lately or rows),
        of=sum(row.of for row in lately or rows),
        since=since.date().isoformat(),
        before_marks=sum(row.marks for row in before),
        before_of=sum(row.of for row in before),
    )


def _telling(lost: Sequence[PartAnswer]) -> Example | None:
    """The latest answer that says something, its question known; else the latest pass."""
    typed = [row for row in lost if row.typed and not row.passed]
    latest = max(typed or lost, key=lambda row: (bool(row.ask), row.when), default=None)
    return example(latest) if latest else None
