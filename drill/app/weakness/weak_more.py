"""What a tutor asks for besides the first page: weeks, sureness, help, two dates."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from drill.app.weakness.part_answers import PartAnswer

_SURE = ("guess", "fairly", "certain")


@dataclass(frozen=True)
class WeekRow:
    """A week from Monday on; `first_met` skills were answered for the first time."""

    week: str
    days: int
    answers: int
    marks: int
    of: int
    first_met: int


@dataclass(frozen=True)
class SureRow:
    """Answers given with that sureness: how many, wholly right, and their marks."""

    sure: str
    answers: int
    right: int
    marks: int
    of: int


@dataclass(frozen=True)
class HelpRow:
    """Where hints were taken and questions passed."""

    skill: str
    hints: int
    passes: int
    answers: int


@dataclass(frozen=True)
class PeriodRow:
    """One skill before a date, and from it to another."""

    skill: str
    before_marks: int
    before_of: int
    marks: int
    of: int


@dataclass(frozen=True)
class Compared:
    """Two dates compared; `until` counts."""

    since: str
    until: str
    rows: tuple[PeriodRow, ...]


def by_week(rows: Sequence[PartAnswer]) -> list[WeekRow]:
    """The weeks in which something was answered, oldest first."""
    weeks: dict[date, list[PartAnswer]] = defaultdict(list)
    first: dict[str, date] = {}
    for row in sorted(rows, key=lambda row: row.when):
        week = row.when.date() - timedelta(days=row.when.weekday())
        weeks[week].append(row)
        first.setdefault(row.skill, week)
    return [
        WeekRow(
            week=week.isoformat(),
            days=len({row.when.date() for row in told}),
            answers=sum(row.of > 0 for row in told),
            marks=_marks(told),
            of=_of(told),
            first_met=sum(found == week for found in first.values()),
        )
        for week, told in weeks.items()
    ]


def by_sureness(rows: Iterable[PartAnswer]) -> list[SureRow]:
    """The marks of what was guessed, fairly sure and certain; empty when nobody was asked."""
    told = {word: [row for row in rows if row.sure == word and row.of] for word in _SURE}
    return [
        SureRow(word, len(own), sum(row.is_right for row in own), _marks(own), _of(own))
        for word, own in told.items()
        if own
    ]


def help_taken(rows: Iterable[PartAnswer], name: Callable[[str], str]) -> list[HelpRow]:
    """The skills in which hints were taken or questions passed, most often first."""
    grouped = _by_skill(rows)
    found = [
        HelpRow(name(skill), sum(r.hinted for r in own), sum(r.passed for r in own), len(own))
        for skill, own in grouped.items()
    ]
    helped = [row for row in found if row.hints or row.passes]
    return sorted(helped, key=lambda row: (-row.hints - row.passes, row.skill))


def two_dates(
    rows: Iterable[PartAnswer], since: date, until: date, name: Callable[[str], str]
) -> Compared:
    """Each skill answered until `until`: before `since`, and since then."""
    found = []
    for skill, own in _by_skill(rows).items():
        before = [row for row in own if row.when.date() < since]
        after = [row for row in own if since <= row.when.date() <= until]
        if _of(before) or _of(after):
            found.append(
                PeriodRow(name(skill), _marks(before), _of(before), _marks(after), _of(after))
            )
    told = tuple(sorted(found, key=lambda row: row.skill))
    return Compared(since.isoformat(), until.isoformat(), told)


def _by_skill(rows: Iterable[PartAnswer]) -> dict[str, list[PartAnswer]]:
    grouped: dict[str, list[PartAnswer]] = defaultdict(list)
    for row in rows:
        grouped[row.skill].append(row)
    return grouped


def _marks(rows: Iterable[PartAnswer]) -> int:
    return sum(row.marks for row in rows)


def _of(rows: Iterable[PartAnswer]) -> int:
    return sum(row.of for row in rows)
