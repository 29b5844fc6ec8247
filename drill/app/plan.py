"""Exam date and minutes a day, and what they are likely to bring."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime
from typing import TYPE_CHECKING

from drill.app.coming_days import PlannedDay, coming_days
from drill.app.weakness.part_answers import marks_so_far
from drill.app.weakness.practised import Practised, minutes_planned, practised
from drill.errors import WrongValue
from drill.plaintext import one_line
from drill.planning.figures import Figures, Share, minutes_to_try

if TYPE_CHECKING:
    from drill.bank import Bank
    from drill.model import Deck
    from drill.store import Learner, Store

_OTHER = 10
"""Minutes a day, more or less, that are told of."""
_LAST_YEAR = 2100


@dataclass(frozen=True)
class PlannedPaper:
    """An exam paper with its date and the days until then."""

    id: str
    exam: str
    days_left: int


@dataclass(frozen=True)
class MinutesRow:
    """The share of marks on the day with so many minutes a day."""

    minutes_a_day: float
    on_the_day: float


@dataclass(frozen=True)
class PlanFigures:
    """How a learner stands with a deck, and the coming days.

    `held` today and `on_the_day` are two figures, None while there are too few answers; until then
    `marks` of `of` and `met` of `skills` tell. `by_minutes` is empty while it cannot be told what
    other minutes would change.
    """

    learner: str
    deck: str
    exam: str | None
    days_left: int | None
    papers: tuple[PlannedPaper, ...]
    minutes_a_day: float
    practised: Practised
    answers: int
    marks: int
    of: int
    met: int
    skills: int
    held: Share | None
    on_the_day: Share | None
    by_minutes: tuple[MinutesRow, ...]
    apart: float
    doubt: str
    days: tuple[PlannedDay, ...]
    course: str


def set_course(store: Store, who: Learner, course: str, deck: Deck, now: datetime) -> None:
    """Keep which course is the learner's from now on.

    Args:
        course: as people type it, "sep high" or "SH"; "none" takes the deck's own.

    Raises:
        WrongValue: no course, or several, are called so; or the deck is for another one.
    """
    found = "" if course.strip().casefold() == "none" else _course(course, deck)
    if found and deck.courses and found not in deck.courses:
        raise WrongValue(
            f'the topic deck "{deck.id}" is for {" and ".join(deck.courses)}: '
            "another course needs another deck."
        )
    store.set_setting(who, "course", found, now)


def _course(typed: str, deck: Deck) -> str:
    from drill.app.topics.courses import course_of
    from drill.app.topics.deck_answers import Wrong

    found = course_of(typed, deck.courses)
    if isinstance(found, Wrong):
        raise WrongValue(f'--course "{one_line(typed, 40)}": {found.says}')
    return found


def set_plan(store: Store, who: Learner, exam: str, minutes: float | None, now: datetime) -> None:
    """Keep what a learner wants from now on.

    Args:
        exam: a date still to come, "none" to take the date away, "" to leave it.
        minutes: a day; None to leave them.

    Raises:
        WrongValue: the date is none, is over, or is too far ahead.
    """
    if exam:
        store.set_setting(who, "exam", "" if exam == "none" else _coming(exam, now), now)
    if minutes is not None:
        store.set_setting(who, "minutes", f"{minutes:g}", now)


def _coming(text: str, now: datetime) -> str:
    """The date, if it is one and still to come."""
    from drill.typed.dates import date_of

    exam = date_of(text, now.date(), ahead=True)
    if isinstance(exam, str):
        raise WrongValue(f'--exam "{one_line(text, 40)}": {exam}')
    if exam <= now.date():
        raise WrongValue(f"--exam {exam} is over. Give the date of the exam still to come.")
    if exam.year > _LAST_YEAR:
        raise WrongValue(f"--exam {exam} is too far ahead: at most {_LAST_YEAR}.")
    return exam.isoformat()


def plan_figures(store: Store, bank: Bank, deck: Deck, who: Learner, now: datetime) -> PlanFigures:
    """The two figures, what ten minutes more or less would change, and the coming days."""
    from drill.sitting import learners_planner
    from drill.sitting.learner_figures import learners_figures

    planner = learners_planner(store, bank, deck, who, now)
    a_day = planner.minutes_per_day
    other = [minutes for minutes in (a_day - _OTHER, a_day + _OTHER) if minutes > 0]
    raw = planner.forecast(now, minutes_to_try(planner))
    found = learners_figures(store, planner, deck, who, now, other, after=raw)
    askings = store.askings(who)
    marks, of = marks_so_far(askings)
    says = bank.skills()
    return PlanFigures(
        learner=who.code,
        deck=deck.id,
        exam=planner.exam.date().isoformat() if planner.exam else None,
        days_left=(planner.exam.date() - now.date()).days if planner.exam else None,
        papers=tuple(_papers(deck, now)),
        minutes_a_day=a_day,
        practised=practised(askings, minutes_planned(store, who, deck, now.tzinfo), now),
        answers=found.answers,
        marks=marks,
        of=of,
        met=found.met,
        skills=found.skills,
        held=found.held,
        on_the_day=found.on_the_day,
        by_minutes=tuple(_by_minutes(found)),
        apart=round(raw.apart, 3),
        doubt=raw.doubt,
        days=tuple(
            coming_days(
                planner,
                now,
                lambda skill: says[skill].family if skill in says else skill,
                lambda skill: says[skill].says if skill in says else skill,
            )
        ),
        course=deck.course,
    )


def _by_minutes(found: Figures) -> Iterator[MinutesRow]:
    if found.told_apart:
        for minutes, one in found.by_minutes.items():
            yield MinutesRow(minutes, round(one.share, 3))


def _papers(deck: Deck, now: datetime) -> Iterator[PlannedPaper]:
    for paper in deck.papers:
        if paper.exam:
            left = (date.fromisoformat(paper.exam) - now.date()).days
            yield PlannedPaper(paper.id, paper.exam, left)
