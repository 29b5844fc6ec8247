"""Why a sitting has nothing more to ask, in words a learner understands."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from drill.planning import Planner

LOOK_AHEAD = 28
"""Days looked ahead for the next question worth asking."""


def next_day(planner: Planner, now: datetime) -> datetime | None:
    """The next day on which a question is worth asking, within four weeks."""
    for days in range(1, LOOK_AHEAD + 1):
        day = now + timedelta(days=days)
        if planner.choose(day) is not None:
            return day
    return None


def in_words(day: datetime) -> str:
    """As "Friday 27 November"."""
    return f"{day:%A} {day.day} {day:%B}"


def why_no_more(planner: Planner, now: datetime) -> str:
    """The reason that `planner.choose(now, extra=True)` is None."""
    from drill.planning.nothing_to_ask import Why, why_nothing

    nothing = why_nothing(planner, now, spent=False)
    if nothing.why is Why.EMPTY:
        return "This topic has no question that can be asked."
    if nothing.why is Why.NOT_TAUGHT:
        begins = f"; it begins on {in_words(nothing.until)}" if nothing.until else ""
        return f"Nothing of this topic has been taught yet{begins}."
    if nothing.why is Why.HELD:
        return "Every skill here is held today, and each was answered twice or more."
    if nothing.why is Why.TEACHER:
        return "What is not held yet was missed again and again: ask your teacher to show you."
    return "Every question here has been asked lately; they can be asked again in some days."
