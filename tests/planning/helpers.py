"""Small makers of plans and whole days of practice, shared by the tests of planning."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import Any

from drill.planning import Choice, Planner, SkillPlan

NOW = datetime(2027, 3, 1, 17, 0, tzinfo=UTC)
EXAM = NOW + timedelta(days=30)
MINUTE = timedelta(minutes=1)


def plan(name: str = "x", templates: int = 2, draws: bool = True, **fields: Any) -> SkillPlan:
    """A skill of 3 marks and 60 seconds with so many templates."""
    named = {f"{name}/{number}": draws for number in range(templates)}
    return SkillPlan(**{"marks": 3.0, "seconds": 60.0, "templates": named, **fields})


def plans(count: int, templates: int = 2, **fields: Any) -> dict[str, SkillPlan]:
    """So many skills alike."""
    return {f"s{number}": plan(f"s{number}", templates, **fields) for number in range(count)}


@dataclass
class Asking:
    """One choice and when it was made."""

    when: datetime
    choice: Choice


def sit(
    planner: Planner,
    days: int = 1,
    score: Callable[[Choice], float] = lambda choice: 0.5,
    begin: datetime = NOW,
    most: int = 60,
) -> list[Asking]:
    """Sit the planner's choices for some days, a minute each; what was asked or shown."""
    told = []
    for day in range(days):
        now = begin + timedelta(days=day)
        for _ in range(most):
            choice = planner.choose(now)
            if choice is None:
                break
            told.append(Asking(now, choice))
            if choice.show:
                planner.expose(choice.skill, choice.template, now)
            else:
                planner.record(choice.skill, choice.template, now, score(choice), 60.0)
            now += MINUTE
    return told
