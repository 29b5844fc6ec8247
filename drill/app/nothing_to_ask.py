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
    plans = planner.skills
    if not plans:
        return "This topic has no question that can be asked."
    ahead = {skill: plan for skill, plan in plans.items() if planner.exam_of(plan, now) > now}
    taught = [skill for skill, one in ahead.items() if (one.taught_from or now) <= now]
    if ahead and not taught:
        first = min(one.taught_from for one in ahead.values() if one.taught_from)
        return f"Nothing of this topic has been taught yet; it begins on {in_words(first)}."
    at = now.timestamp()
    ready = [s for s in taught if planner.past.template(s, plans[s].templates, at, small=True)]
    if not ready:
        return "Every question of this topic has been asked lately; they come back after a rest."
    return "What is left would gain you next to nothing today."
