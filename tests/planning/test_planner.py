"""Which skill: taught, worth most, never twice running, and none when there is nothing to gain."""

from __future__ import annotations

import time
from datetime import datetime, timedelta, timezone
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drill.memory import Memory
from drill.planning import HORIZON, Planner, Reason, SkillPlan
from tests.planning.helpers import EXAM, MINUTE, NOW, plan, plans, sit


def first(skills: dict[str, SkillPlan], exam: datetime | None = EXAM, **given_: object) -> str:
    choice = Planner(skills, exam, **given_).choose(NOW)  # type: ignore[arg-type]
    assert choice is not None
    return choice.skill


def known(*skills: str, days: int = 8) -> Memory:
    """A memory of right answers to these skills on the days before."""
    memory = Memory()
    for day in range(days):
        for skill in skills:
            memory.observe(skill, f"{skill}/{day % 2}", NOW - timedelta(days=days - day), 1.0)
    return memory


def test_nothing_before_it_is_taught() -> None:
    planner = Planner({"later": plan(taught_from=NOW + timedelta(days=1))}, EXAM)
    assert planner.choose(NOW) is None
    assert planner.choose(NOW + timedelta(days=1)) is not None


@settings(max_examples=30, deadline=None)
@given(st.lists(st.integers(-5, 12), min_size=3, max_size=8), st.floats(0.5, 1.0))
def test_nothing_untaught_and_no_skill_twice_running(taught: list[int], score: float) -> None:
    skills = {
        f"s{number}": plan(f"s{number}", 3, taught_from=NOW + timedelta(days=day))
        for number, day in enumerate(taught)
    }
    asked = sit(Planner(skills, EXAM), days=4, score=lambda choice: score)
    for asking in asked:
        assert skills[asking.choice.skill].taught_from <= asking.when  # type: ignore[operator]
    for one, two in pairwise(asked):
        playing = [s for s in skills.values() if s.taught_from <= two.when]  # type: ignore[operator]
        same_sitting = two.when - one.when == MINUTE
        if same_sitting and len(playing) > 2:
            assert one.choice.skill != two.choice.skill


@settings(max_examples=20, deadline=None)
@given(st.lists(st.sampled_from((0.0, 0.5, 1.0)), min_size=1, max_size=30))
def test_the_same_history_gives_the_same_choices(scores: list[float]) -> None:
    told = []
    for _ in range(2):
        turns = iter(scores * 40)
        told.append(sit(Planner(plans(9), EXAM), days=2, score=lambda _: next(turns)))  # noqa: B023
    assert told[0] == told[1]


def test_more_marks_first() -> None:
    assert first({"a": plan("a", marks=1.0), "b": plan("b", marks=4.0)}) == "b"


def test_less_time_first() -> None:
    assert first({"a": plan("a", seconds=200.0), "b": plan("b", seconds=50.0)}) == "b"


def test_the_learners_own_seconds_count() -> None:
    skills = {"a": plan("a"), "b": plan("b", seconds=80.0)}
    asked = [("a", f"a/{turn % 2}", NOW - timedelta(days=9 - turn), 240.0) for turn in range(6)]
    assert first(skills) == "a"
    assert first(skills, asked=asked) == "b"


def test_what_is_known_waits_for_what_is_not() -> None:
    assert first({"a": plan("a"), "b": plan("b")}, memory=known("a")) == "b"


def test_a_skill_nearly_lost_is_not_chased_when_time_cannot_pay_it_back() -> None:
    memory = Memory()
    for day in range(12):
        when = NOW - timedelta(days=12 - day)
        memory.observe("lost", f"lost/{day % 2}", when, 0.0)
        memory.observe("half", f"half/{day % 2}", when, float(day % 2))
    skills = {"lost": plan("lost", seconds=180.0), "half": plan("half", seconds=60.0)}
    exam = NOW + timedelta(hours=20)
    assert memory.chance("lost", None, exam) < 0.15
    assert first(skills, exam, memory=memory) == "half"


def test_a_skills_own_exam_wins() -> None:
    over = {"a": plan("a", exam=NOW - timedelta(days=1)), "b": plan("b", marks=0.5)}
    assert first(over) == "b"
    soon = {"a": plan("a", exam=NOW + timedelta(days=1)), "b": plan("b")}
    planner = Planner(soon, NOW - timedelta(days=3))
    choice = planner.choose(NOW)
    assert choice is not None
    assert choice.skill == "a"


def test_when_every_exam_is_over_practice_goes_on() -> None:
    planner = Planner(plans(3), NOW - timedelta(days=1))
    assert planner.choose(NOW) is not None
    assert planner.exam_of(plan(), NOW) == NOW + HORIZON


def test_without_an_exam_four_weeks_ahead_are_planned() -> None:
    assert Planner(plans(3), None).choose(NOW) is not None
    assert timedelta(days=28) == HORIZON


def test_todays_minutes_are_kept_and_extra_ignores_them() -> None:
    planner = Planner(plans(12), EXAM, minutes_per_day=5.0)
    assert len(sit(planner)) == 5
    later = NOW + timedelta(minutes=30)
    assert planner.choose(later) is None
    assert planner.choose(later, extra=True) is not None
    assert planner.choose(NOW + timedelta(days=1)) is not None


def test_a_day_is_a_date_where_the_learner_is() -> None:
    asked = [("s0", "s0/0", NOW, 600.0)]
    planner = Planner(plans(6), EXAM, minutes_per_day=10.0, asked=asked)
    evening = NOW + timedelta(hours=6, minutes=30)
    assert planner.choose(evening) is None
    assert planner.choose(evening.astimezone(timezone(timedelta(hours=1)))) is not None


def test_rest_when_nothing_is_left_to_gain() -> None:
    planner = Planner({"a": plan("a", 6)}, NOW + timedelta(days=2), minutes_per_day=600.0)
    begun = NOW - timedelta(days=30)
    for turn in range(200):
        planner.memory.observe("a", f"a/{turn % 6}", begun + timedelta(hours=3 * turn), 1.0)
    assert planner.choose(NOW) is None


def test_past_askings_never_touch_memory() -> None:
    memory = known("s1")
    before = memory.to_state()
    Planner(plans(3), EXAM, memory=memory, asked=[("s0", "s0/0", NOW, 60.0)]).choose(NOW)
    assert memory.to_state() == before


def test_an_empty_deck_gives_nothing() -> None:
    assert Planner({}, EXAM).choose(NOW) is None
    assert Planner({"bare": SkillPlan(3.0, 60.0)}, EXAM).choose(NOW) is None


def test_looking_at_other_days_changes_nothing() -> None:
    asked = sit(Planner(plans(9), EXAM))
    planner, looked = Planner(plans(9), EXAM), []
    for asking in asked:
        looked.append(planner.choose(asking.when))
        for day in range(1, 8):
            planner.choose(asking.when + timedelta(days=day))
        choice = looked[-1]
        assert choice is not None
        planner.record(choice.skill, choice.template, asking.when, 0.5, 60.0)
    assert looked == [asking.choice for asking in asked]


@pytest.mark.parametrize("certain", [True, False])
def test_a_certain_error_comes_back_within_days(certain: bool) -> None:
    skills = plans(40) | {"small": plan("small", marks=0.2)}
    planner = Planner(skills, EXAM, minutes_per_day=4.0)
    planner.record("small", "small/0", NOW, 0.0, 60.0, certain_error=certain)
    asked = sit(planner, days=3, begin=NOW + timedelta(days=1))
    back = [asking.choice.why for asking in asked if asking.choice.skill == "small"]
    assert (Reason.CERTAIN in back) is certain


def test_a_certain_error_waits_for_a_learner_who_stays_away() -> None:
    memory = Memory()
    memory.observe("small", "small/0", NOW - timedelta(days=9), 0.0, certain_error=True)
    kept = Memory.from_state(memory.to_state())
    assert first(plans(40) | {"small": plan("small", marks=0.2)}, memory=kept) == "small"


def test_quick_with_500_skills_and_90_days() -> None:
    """Against the first choice of the same run: other programs may be busy beside it."""
    memory = Memory()
    for turn in range(1500):
        skill = f"s{turn % 500}"
        memory.observe(skill, f"{skill}/0", NOW - timedelta(minutes=turn), turn % 3 / 2)
    planner = Planner(plans(500, 3), NOW + timedelta(days=90), memory=memory)
    took = []
    for turn in range(9):
        now = NOW + turn * MINUTE
        begun = time.process_time()
        choice = planner.choose(now)
        took.append(time.process_time() - begun)
        assert choice is not None
        planner.record(choice.skill, choice.template, now, 0.5, 60.0)
    assert took[0] < 1.0
    assert sorted(took[1:])[4] < took[0] / 10, "a later choice plans nothing anew"


def test_practicals_are_mixed_where_that_costs_little() -> None:
    """By names alone all of salts would come first."""
    skills = {f"s{n}": plan(f"salts{n}") for n in range(6)}
    skills |= {f"t{n}": plan(f"t{n}") for n in range(6)}
    named = {
        skill: SkillPlan(
            3.0, 60.0, templates={f"{'salts' if skill[0] == 's' else 'titration'}/{skill}": True}
        )
        for skill in skills
    }
    asked = sit(Planner(named, EXAM, minutes_per_day=12.0))
    practicals = [asking.choice.template.split("/")[0] for asking in asked]
    assert len(practicals) == 12
    assert sum(one != two for one, two in pairwise(practicals)) >= 9


def test_mixing_never_puts_a_small_gain_before_a_large_one() -> None:
    skills = {
        "a": SkillPlan(4.0, 60.0, templates={"salts/a": True}),
        "b": SkillPlan(4.0, 60.0, templates={"salts/b": True}),
        "c": SkillPlan(1.0, 60.0, templates={"titration/c": True}),
    }
    asked = sit(Planner(skills, EXAM))
    assert [asking.choice.skill for asking in asked[:3]] == ["a", "b", "c"]


def test_missed_days_are_counted_on() -> None:
    """Whoever misses every second day is planned for half the days, in time."""
    regular, rare = Planner(plans(3), EXAM), Planner(plans(3), EXAM)
    for day in range(30):
        when = NOW - timedelta(days=30 - day)
        regular.record("s0", "s0/0", when, 1.0, 60.0)
        if day % 2 == 0:
            rare.record("s0", "s0/0", when, 1.0, 60.0)
    at = NOW.timestamp()
    assert regular.past.attended(at) > 0.9
    assert 0.45 < rare.past.attended(at) < 0.6
    assert Planner(plans(3), EXAM).past.attended(at) == 0.8


def test_a_skill_that_can_wait_for_its_exam_waits() -> None:
    """Alike in all but the date: those examined in two days cannot be practised later."""
    late = {f"a{n}": plan(f"a{n}", exam=NOW + timedelta(days=40)) for n in range(20)}
    soon = {f"b{n}": plan(f"b{n}") for n in range(20)}
    chosen = first(late | soon, NOW + timedelta(days=2), minutes_per_day=5.0)
    assert chosen.startswith("b")


def test_the_learners_pace_counts_for_skills_never_asked() -> None:
    planner = Planner(plans(20), EXAM)
    for turn in range(20):
        planner.record(f"s{turn % 10}", "x/0", NOW + turn * MINUTE, 1.0, 120.0)
    assert 75.0 < planner.past.seconds("s19", 60.0) < 120.0
