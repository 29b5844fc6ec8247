"""The planner keeps its rules: nothing untaught, mixing, resting templates, today's minutes."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from itertools import pairwise

from drill.planning import Planner, SkillPlan

NOW = datetime(2027, 3, 1, 17, 0, tzinfo=UTC)
EXAM = NOW + timedelta(days=30)


def plan(**changes: object) -> SkillPlan:
    fields: dict[str, object] = {"marks": 3.0, "seconds": 60.0, "templates": {"a": True, "b": True}}
    return SkillPlan(**(fields | changes))  # type: ignore[arg-type]


def test_nothing_before_it_is_taught() -> None:
    planner = Planner({"later": plan(taught_from=NOW + timedelta(days=1))}, EXAM, 15.0)
    assert planner.choose(NOW) is None
    assert planner.choose(NOW + timedelta(days=1)) is not None


def test_never_the_same_skill_twice_running() -> None:
    planner = Planner({"x": plan(), "y": plan(marks=1.0, templates={"c": True, "d": True})}, EXAM)
    skills, now = [], NOW
    for _ in range(4):
        choice = planner.choose(now)
        if choice is None:
            break
        skills.append(choice.skill)
        planner.record(choice.skill, choice.template, now, 0.0, 60.0)
        now += timedelta(minutes=1)
    assert len(skills) >= 2
    assert all(one != other for one, other in pairwise(skills))
