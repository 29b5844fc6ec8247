"""The coming days of a plan as an iCalendar file (RFC 5545), for any calendar program."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime, timedelta
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from icalendar import Event

    from drill.app.coming_days import PlannedDay
    from drill.app.plan import PlanFigures


def as_calendar(found: PlanFigures, now: datetime) -> bytes:
    """A day's entry for each planned sitting and each exam; reading it again doubles nothing."""
    from icalendar import Calendar

    made = Calendar()
    made.add("prodid", "-//drill//planned sittings//EN")
    made.add("version", "2.0")
    for event in (*_sittings(found, now), *_exams(found, now)):
        made.add_component(event)
    return bytes(made.to_ical())


def _sittings(found: PlanFigures, now: datetime) -> Iterator[Event]:
    for day in found.days:
        if day.practice:
            yield _event(
                found, now, "sitting", day.day, f"Practice, {day.minutes} min", _about(day)
            )


def _about(day: PlannedDay) -> str:
    return f"Mostly about {', '.join(day.topics)}. Start with: drill sit" if day.topics else ""


def _exams(found: PlanFigures, now: datetime) -> Iterator[Event]:
    dates = {paper.exam: f"Exam: {paper.id}" for paper in found.papers}
    if not dates and found.exam:
        dates = {found.exam: "Exam"}
    for day, says in dates.items():
        yield _event(found, now, "exam", day, says, "")


def _event(found: PlanFigures, now: datetime, kind: str, day: str, says: str, about: str) -> Event:
    from icalendar import Event

    event, begins = Event(), date.fromisoformat(day)
    event.add("uid", f"{found.learner}-{found.deck}-{kind}-{day}@drill".replace(" ", "-"))
    event.add("dtstamp", now)
    event.add("dtstart", begins)
    event.add("dtend", begins + timedelta(days=1))
    event.add("summary", says)
    if about:
        event.add("description", about)
    event.add("transp", "TRANSPARENT")  # it blocks no time of the day
    return event
