"""Exam date and minutes a day, and what they are likely to bring."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import TYPE_CHECKING

from drill.errors import WrongValue
from drill.plaintext import one_line

if TYPE_CHECKING:
    from drill.bank import Bank
    from drill.model import Deck
    from drill.planning import Forecast, Planner
    from drill.store import Learner, Store

_OTHER_MINUTES = (0, 10, 20, 30)
_DAYS_SHOWN = 7
_WEAKEST = 5
_LAST_YEAR = 2100


@dataclass(frozen=True)
class PlannedPaper:
    """An exam paper with its date and the days until then."""

    id: str
    exam: str
    days_left: int


@dataclass(frozen=True)
class ForecastRow:
    """The share of marks on the day with so many minutes a day, and its range."""

    minutes_a_day: float
    expected: float
    low: float
    high: float


@dataclass(frozen=True)
class WeakSkill:
    """A skill likely to stay weak, with the share of marks to expect on the day."""

    skill: str
    says: str
    expected: float


@dataclass(frozen=True)
class PlannedDay:
    """One day: whether a question is worth asking, minutes not yet spent, skills taught on it."""

    day: str
    practice: bool
    minutes: int
    spent: bool
    done: bool
    taught: tuple[str, ...]


@dataclass(frozen=True)
class PlanFigures:
    """What a learner may expect of a deck, and the coming days."""

    learner: str
    deck: str
    exam: str | None
    days_left: int | None
    papers: tuple[PlannedPaper, ...]
    minutes_a_day: float
    answers: int
    apart: float
    doubt: str
    forecast: tuple[ForecastRow, ...]
    weak: tuple[WeakSkill, ...]
    days: tuple[PlannedDay, ...]


def set_plan(store: Store, who: Learner, exam: str, minutes: float | None, now: datetime) -> None:
    """Keep what a learner wants from now on.

    Args:
        exam: an ISO date still to come, "none" to take the date away, "" to leave it.
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
    try:
        exam = date.fromisoformat(text)
    except ValueError:
        raise WrongValue(
            f'--exam "{one_line(text, 40)}" is not a date. Write it as 2027-05-18.'
        ) from None
    if exam <= now.date():
        raise WrongValue(f"--exam {exam} is over. Give the date of the exam still to come.")
    if exam.year > _LAST_YEAR:
        raise WrongValue(f"--exam {exam} is too far ahead: at most {_LAST_YEAR}.")
    return exam.isoformat()


def plan_figures(store: Store, bank: Bank, deck: Deck, who: Learner, now: datetime) -> PlanFigures:
    """The forecast for several minutes a day, the weakest skills, and the next seven days."""
    from drill.sitting import learners_planner

    planner = learners_planner(store, bank, deck, who, now)
    a_day = planner.minutes_per_day
    forecasts = {
        minutes: planner.forecast(now, minutes_per_day=minutes)
        for minutes in sorted({*_OTHER_MINUTES, a_day})
    }
    chosen = forecasts[a_day]
    return PlanFigures(
        learner=who.code,
        deck=deck.id,
        exam=planner.exam.date().isoformat() if planner.exam else None,
        days_left=(planner.exam.date() - now.date()).days if planner.exam else None,
        papers=tuple(_papers(deck, now)),
        minutes_a_day=a_day,
        answers=planner.memory.answers(),
        apart=round(chosen.apart, 3),
        doubt=chosen.doubt,
        forecast=tuple(_forecast_row(minutes, row) for minutes, row in forecasts.items()),
        weak=tuple(_weakest(chosen, bank)),
        days=tuple(_days(planner, now)),
    )


def _papers(deck: Deck, now: datetime) -> Iterator[PlannedPaper]:
    for paper in deck.papers:
        if paper.exam:
            left = (date.fromisoformat(paper.exam) - now.date()).days
            yield PlannedPaper(paper.id, paper.exam, left)


def _forecast_row(minutes: float, forecast: Forecast) -> ForecastRow:
    shares = (round(value, 3) for value in (forecast.expected, forecast.low, forecast.high))
    return ForecastRow(minutes, *shares)


def _weakest(forecast: Forecast, bank: Bank) -> Iterator[WeakSkill]:
    says = bank.skills()
    weakest = sorted(forecast.per_skill.items(), key=lambda item: item[1][0])
    for skill, share in weakest[:_WEAKEST]:
        yield WeakSkill(skill, says[skill].says, round(share[0], 3))


def _days(planner: Planner, now: datetime) -> Iterator[PlannedDay]:
    for ahead in range(_DAYS_SHOWN):
        day = now + timedelta(days=ahead)
        asks = planner.choose(day) is not None
        spent = planner.past.spent(day) > 0.0
        taught = (name for name, plan in planner.skills.items() if _starts(plan.taught_from, day))
        yield PlannedDay(
            day=day.date().isoformat(),
            practice=asks,
            minutes=_minutes(planner, day) if asks else 0,
            spent=spent,
            done=not asks and spent,
            taught=tuple(taught),
        )


def _minutes(planner: Planner, day: datetime) -> int:
    """Whole minutes of the day that are not spent yet, at least one."""
    return max(1, round(planner.minutes_per_day - planner.past.spent(day) / 60.0))


def _starts(taught: datetime | None, day: datetime) -> bool:
    return taught is not None and taught.date() == day.date()
