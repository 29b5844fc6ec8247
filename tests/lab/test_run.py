"""A run of the lab: the same every time, inside the minutes, open to learners from outside."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import datetime, timedelta
from itertools import groupby
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drill.errors import DrillError
from drill.frozen import replace
from drill.planning import Choice, Planner, SkillPlan
from tests.lab import (
    LEARNERS,
    POLICIES,
    REFERENCES,
    SCENARIOS,
    Learner,
    Outcome,
    Simulated,
    calibrate,
    reference,
    run,
    scenario,
)

SMALL = scenario("small", 15, 10, 8.0, (-21, 6))
LONGEST = 180 * 1.15
"""Seconds of the longest question of the slowest person."""


class Parrot:
    """A learner from outside: knows a skill for ever once it was practised twice."""

    def __init__(self) -> None:
        self.times: dict[str, int] = {}

    def practise(
        self, skill: str, template: str, when: datetime, rng: Random
    ) -> tuple[float, float]:
        score = float(rng.random() < self.chance(skill, when))
        self.times[skill] = self.times.get(skill, 0) + 1
        return score, 90.0

    def expose(self, skill: str, template: str, when: datetime) -> None:
        self.times.setdefault(skill, 0)

    def chance(self, skill: str, when: datetime) -> float:
        return 1.0 if self.times.get(skill, 0) >= 2 else 0.25


def days(outcome: Outcome) -> list[list[datetime]]:
    moments = [when for _, _, when, _ in outcome.log]
    return [list(day) for _, day in groupby(moments, key=lambda when: when.date())]


@pytest.mark.parametrize("policy", POLICIES)
@pytest.mark.parametrize("family", ["multiscale", "procedure"])
def test_the_same_call_gives_the_same_outcome(policy: str, family: str) -> None:
    assert run(policy, family, SMALL, 7) == run(policy, LEARNERS[family](7), SMALL, 7)


@pytest.mark.parametrize("name", REFERENCES)
def test_references_give_the_same_outcome(name: str) -> None:
    people = [Simulated("half-life", 7), Simulated("half-life", 7)]
    one, two = (run(reference(name, person, SMALL), person, SMALL, 7) for person in people)
    assert one == two


def test_seeds_are_different_people_with_different_days() -> None:
    outcomes = [run("random", "delta", SMALL, seed) for seed in range(6)]
    assert len({outcome.exam_share for outcome in outcomes}) == 6
    assert len({tuple(SMALL.sessions(seed)) for seed in range(6)}) > 3


@pytest.mark.parametrize("policy", POLICIES)
def test_every_policy_keeps_the_rules(policy: str) -> None:
    outcome = run(policy, "predictive", SMALL, 3)
    limit = 60.0 * SMALL.minutes_per_day * len(SMALL.sessions(3)) + LONGEST
    assert outcome.seconds <= limit
    assert 0.0 < outcome.exam_share < 1.0
    for skill, template, when, score in outcome.log:
        plan = SMALL.skills[skill]
        assert template in plan.templates
        assert plan.taught_from is not None
        assert plan.taught_from <= when < SMALL.exam
        assert score in (0.0, 0.5, 1.0)


@pytest.mark.parametrize("policy", sorted(set(POLICIES) - {"nothing", "blocked cram"}))
def test_no_policy_leaves_the_minutes_unused(policy: str) -> None:
    """Unused time would make a policy look worse than its order is."""
    place = scenario("full", 40, 6, 8.0, (-21, 0))
    outcome = run(policy, "delta", place, 3)
    assert outcome.seconds >= 0.9 * 60.0 * place.minutes_per_day * len(place.sessions(3))


def test_what_a_session_runs_over_comes_off_the_next() -> None:
    # questions of 90 s in sessions of 120 s: 180 used, so 60 left, so 90 left, and again
    place = replace(scenario("short", 12, 6, 2.0, (-21, 0)), missed=0.0)
    sessions = days(run("random", Parrot(), place, 3))
    assert [len(day) for day in sessions] == [2, 1, 1, 2, 1, 1]


def test_nothing_is_nothing() -> None:
    outcome = run("nothing", "delta", SMALL, 3)
    assert outcome.log == ()
    assert outcome.seconds == 0.0


def test_the_crammer_works_in_the_last_days_only() -> None:
    outcome = run("blocked cram", "delta", SMALL, 3)
    assert all(SMALL.exam - when <= timedelta(days=3) for _, _, when, _ in outcome.log)
    assert outcome.log


def test_equal_spacing_comes_back_to_every_skill_alike() -> None:
    outcome = run("equal spacing", "delta", scenario("even", 10, 20, 8.0, (-21, 0)), 3)
    asked = [skill for skill, *_ in outcome.log]
    counts = {asked.count(skill) for skill in set(asked)}
    assert len(set(asked)) == 10
    assert max(counts) - min(counts) <= 1


def test_a_learner_from_outside_plugs_in() -> None:
    parrot: Learner = Parrot()
    outcome = run("ours", parrot, SMALL, 1)
    assert outcome.exam_share > run("nothing", Parrot(), SMALL, 1).exam_share == 0.25
    assert outcome.log


def test_a_policy_from_outside_plugs_in() -> None:
    def patient(skills: Mapping[str, SkillPlan], exam: datetime, minutes: float) -> Planner:
        return Planner(skills, exam, minutes)

    assert run(patient, "delta", SMALL, 2) == run("ours", "delta", SMALL, 2)


def test_worked_answers_are_shown_and_logged_without_a_score() -> None:
    class Shower:
        def __init__(self, skills: Mapping[str, SkillPlan], *_: object) -> None:
            self.told: list[str] = []

        def choose(self, now: datetime) -> Choice:
            return Choice("skill-000", "skill-000/a", show=True)

        def record(self, *_: object) -> None:
            raise AssertionError

        def expose(self, skill: str, template: str, when: datetime) -> None:
            self.told.append(skill)

    outcome = run(Shower, Parrot(), SMALL, 1)
    assert {row[3] for row in outcome.log} == {None}
    assert outcome.exam_share == 0.25


def test_a_policy_may_not_run_ahead_of_the_lessons() -> None:
    class Eager(Planner):
        def choose(self, now: datetime, extra: bool = False) -> Choice:
            return Choice("skill-014", "skill-014/a")

    late = scenario("late", 15, 14, 8.0, (-7, 13))
    with pytest.raises(DrillError, match="before it is taught"):
        run(Eager, "delta", late, 1)


def test_unknown_names_are_said_with_what_there_is() -> None:
    with pytest.raises(DrillError, match=re.escape('no policy "best". There are: nothing, random')):
        run("best", "delta", SMALL, 1)
    with pytest.raises(DrillError, match=re.escape('no scenario "x". There are: four-weeks')):
        run("ours", "delta", "x", 1)
    with pytest.raises(
        DrillError, match=re.escape('no simulated learner "x". There are: activation')
    ):
        run("ours", "x", SMALL, 1)


def test_logs_are_what_calibrate_takes() -> None:
    logs = [run("ours", "delta", SMALL, seed).log for seed in range(2)]
    weights = calibrate(logs)
    assert weights.base == weights.base  # a number


def test_the_scenarios_are_the_three_that_are_promised() -> None:
    sizes = {name: (len(place.skills), place.days) for name, place in SCENARIOS.items()}
    assert sizes["four-weeks"] == (100, 28)
    assert sizes["ten-weeks"] == (160, 70)
    assert sizes["one-week"][1] == 7
    along = SCENARIOS["ten-weeks"].lessons.values()
    assert min(along) < SCENARIOS["ten-weeks"].start < max(along) < SCENARIOS["ten-weeks"].exam


@given(seed=st.integers(0, 10**6), family=st.sampled_from(sorted(LEARNERS)))
@settings(max_examples=50, deadline=None)
def test_shares_are_shares_and_practice_helps(seed: int, family: str) -> None:
    """On a person of any seed, a practised skill is worth more on the day than a neglected one."""
    practised, neglected = Simulated(family, seed), Simulated(family, seed)
    start = SMALL.start
    for person in (practised, neglected):
        person.expose("x", "x/lesson", start)
    for day in (2, 5, 9):
        score, seconds = practised.practise("x", "x/a", start + timedelta(days=day), Random(seed))
        assert 0.0 <= score <= 1.0
        assert 0.0 < seconds <= LONGEST
    exam = start + timedelta(days=12)
    assert 0.0 <= neglected.chance("x", exam) <= practised.chance("x", exam) <= 1.0
