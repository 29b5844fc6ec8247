"""The coming days as the plan has them, each with the topics it is likely to take up."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from drill.planning import Planner

DAYS = 6
_TOPICS = 3
_WORKED = 60.0
"""Seconds that reading a worked answer takes."""
_MOST = 100
"""Questions of one day, whatever the minutes."""


@dataclass(frozen=True)
class PlannedDay:
    """One day: whether a question is worth asking, minutes not yet spent, what it is about.

    `topics`: those with most of the day's questions, if each goes as expected; `taught`: skills
    whose lesson is on that day.
    """

    day: str
    practice: bool
    minutes: int
    spent: bool
    done: bool
    topics: tuple[str, ...]
    taught: tuple[str, ...]


def coming_days(
    planner: Planner, now: datetime, topic: Callable[[str], str], name: Callable[[str], str]
) -> Iterator[PlannedDay]:
    """Today and the days after it, to the exam at most.

    Plays them through: the planner is of no use afterwards.

    Args:
        topic: a skill's topic.
        name: a skill's name.
    """
    for ahead in range(DAYS):
        day = now + timedelta(days=ahead)
        if planner.exam is not None and now.date() <= planner.exam.date() < day.date():
            return
        left = planner.minutes_per_day - planner.past.spent(day) / 60.0
        spent = planner.past.spent(day) > 0.0
        asks = planner.choose(day) is not None
        taught = tuple(
            name(skill)
            for skill, plan in planner.skills.items()
            if plan.taught_from is not None and plan.taught_from.date() == day.date()
        )
        topics = Counter(map(topic, _played(planner, day, 60.0 * left))) if asks else Counter()
        yield PlannedDay(
            day=day.date().isoformat(),
            practice=asks,
            minutes=max(1, round(left)) if asks else 0,
            spent=spent,
            done=not asks and spent,
            topics=tuple(one for one, _ in topics.most_common(_TOPICS)),
            taught=taught,
        )


def skills_of_day(planner: Planner, now: datetime) -> list[str]:
    """The skills likely to be asked in the rest of today's minutes. Plays them through."""
    left = planner.minutes_per_day - planner.past.spent(now) / 60.0
    return _played(planner, now, 60.0 * left)


def _played(planner: Planner, now: datetime, seconds: float) -> list[str]:
    """The skills asked in so many seconds, every answer as good as expected."""
    found: list[str] = []
    while seconds > 0.0 and len(found) < _MOST:
        choice = planner.choose(now, extra=True)
        if choice is None:
            break
        found.append(choice.skill)
        took = planner.past.seconds(choice.skill, planner.skills[choice.skill].seconds)
        if choice.show:
            took = _WORKED
            planner.expose(choice.skill, choice.template, now)
        else:
            share = planner.memory.chance(choice.skill, choice.template, now)
            planner.record(choice.skill, choice.template, now, share, took)
        now, seconds = now + timedelta(seconds=took), seconds - max(1.0, took)
    return found
