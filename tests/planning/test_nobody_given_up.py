"""Nobody is given up: fallback, coverage, return, ladder, mixing, and why there is nothing."""

from __future__ import annotations

from collections import Counter
from datetime import timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drill.memory import Memory
from drill.planning import Planner, Reason, SkillPlan
from drill.planning.coverage import Unmet, pressing
from drill.planning.nothing_to_ask import Why
from tests.lab.hard_cases import PlanOnly
from tests.planning.helpers import EXAM, MINUTE, NOW, plan, plans, sit

DAY = timedelta(days=1)


def hopeless(skills: dict[str, SkillPlan], days: int = 12) -> Memory:
    """A memory in which practice changed nothing: every second answer right, for ever."""
    memory = Memory()
    for turn in range(days * 8):
        skill = sorted(skills)[turn % len(skills)]
        when = NOW - timedelta(days=days) + timedelta(hours=3 * turn)
        memory.observe(skill, f"{skill}/{turn % 2}", when, float(turn // len(skills) % 2))
    return memory


def test_who_does_not_move_is_asked_on_where_the_plan_alone_stops() -> None:
    skills = plans(8, 3)
    memory = hopeless(skills)
    bare = PlanOnly(skills, EXAM, 12.0, memory=Memory.from_state(memory.to_state()))
    ours = Planner(skills, EXAM, 12.0, memory=memory)
    asked = sit(ours, days=6, score=lambda choice: 0.5)
    assert len(asked) >= 6 * 12
    assert len(sit(bare, days=6, score=lambda choice: 0.5)) < len(asked)


@settings(max_examples=15, deadline=None)
@given(st.integers(8, 16), st.lists(st.sampled_from((0.0, 0.5, 1.0)), min_size=3, max_size=20))
def test_minutes_are_left_only_when_all_is_held_or_waits(skills: int, scores: list[float]) -> None:
    turns = iter(scores * 99)
    planner = Planner(plans(skills, 3), EXAM, 8.0)
    for day in range(6):
        now = NOW + day * DAY
        asked = sit(planner, begin=now, score=lambda _: next(turns))
        if planner.past.spent(now) < 480.0:
            why = planner.nothing(now + len(asked) * MINUTE)
            assert why is not None
            assert why.why in (Why.HELD, Why.TEACHER, Why.REST)


def test_a_bounded_belief_has_practice_help_and_changes_nothing_else() -> None:
    memory = hopeless(plans(4))
    before = memory.to_state()
    bounded, middle = memory.bounded(), memory.weights.mechanism
    assert middle.gain + bounded.learner.mean[1] >= 0.3 * middle.gain - 1e-9
    assert middle.wins + bounded.learner.mean[2] >= -1e-9
    assert bounded.learner.mean[4] <= 1e-9
    assert memory.to_state() == before


def test_misses_in_a_row_are_shown_then_asked_otherwise_then_sent_to_a_teacher_once() -> None:
    skills = plans(12, 3)
    planner = Planner(skills, EXAM, 30.0)
    told, kinds = [], []
    for day in range(16):
        now = NOW + day * DAY
        while (choice := planner.choose(now)) is not None:
            if choice.skill == "s3":
                kinds.append("w" if choice.show else "q")
            if choice.show:
                planner.expose(choice.skill, choice.template, now)
            else:
                score = 0.0 if choice.skill == "s3" else 1.0
                planner.record(choice.skill, choice.template, now, score, 60.0)
                if planner.for_teacher(choice.skill):
                    told.append((choice.skill, now))
            now += MINUTE
    assert "".join(kinds).replace("w", "").startswith("qqqq")
    assert "w" in "".join(kinds)[: "".join(kinds).rindex("q")]
    assert [skill for skill, _ in told] == ["s3"]


def test_the_lightest_template_follows_three_misses() -> None:
    load = {"x/0": 4.0, "x/1": 1.0, "x/2": 3.0, "x/3": 2.0}
    skills = {"x": plan("x", 4, load=load)} | plans(6)
    memory = Memory()
    for day in range(3):
        memory.observe("x", f"x/{day % 2 * 2}", NOW - timedelta(days=9 - day), 0.0)
    memory.expose("x", "x/2", NOW - timedelta(days=5))
    planner = Planner(skills, EXAM, 90.0, memory=memory)
    asked = [one.choice.template for one in sit(planner) if one.choice.skill == "x"]
    assert asked[0] == "x/1"


def test_after_the_teacher_the_skill_rests_four_days() -> None:
    memory = Memory()
    for turn in range(4):
        memory.observe("s0", f"s0/{turn % 2}", NOW - timedelta(hours=30 - turn), 0.0)
    planner = Planner(plans(6, 3), EXAM, 30.0, memory=memory)
    days = {one.when.date() for one in sit(planner, days=6) if one.choice.skill == "s0"}
    assert days
    assert min(days) >= (NOW + timedelta(days=2, hours=12)).date()


def test_a_miss_comes_back_within_four_days() -> None:
    planner = Planner(plans(20, 3), EXAM, 8.0)
    planner.record("s7", "s7/0", NOW, 0.0, 60.0)
    asked = sit(planner, days=4, begin=NOW + DAY, score=lambda choice: 1.0)
    assert any(one.choice.skill == "s7" for one in asked)


def known(skills: dict[str, SkillPlan], without: str = "") -> Memory:
    """A memory in which all but one skill were answered rightly, twice, last week."""
    memory = Memory()
    for turn, skill in enumerate(name for name in skills if name != without):
        for day in (9, 7):
            when = NOW - day * DAY + turn * MINUTE
            memory.observe(skill, f"{skill}/{day % 2}", when, 1.0)
    return memory


def test_a_miss_is_back_within_a_week_however_little_it_is_worth() -> None:
    skills = plans(20, 3) | {"x": plan("x", 3, marks=0.01)}
    memory = known(skills)
    memory.observe("x", "x/1", NOW - 4 * DAY, 0.0)
    planner = Planner(skills, EXAM, 8.0, memory=memory)
    asked = [one for one in sit(planner, days=3, score=lambda _: 1.0) if one.choice.skill == "x"]
    assert [one.when.date() for one in asked] == [(NOW + 2 * DAY).date()]


def test_a_skill_never_asked_is_asked_though_rest_is_thought_to_undo_the_asking() -> None:
    skills = plans(40, 3) | {"x": plan("x", 3)}
    memory = known(skills, without="x")
    memory.learner.mean = [2.9, -4.2, 0.23, 1.05, -0.45]
    planner = Planner(skills, NOW + 60 * DAY, 8.0, memory=memory)
    assert planner.ranking(NOW).prices.rise("x") < 0.0
    first = planner.choose(NOW)
    assert first is not None
    assert first.skill == "x"


def test_pressing_waits_while_there_is_time_and_gives_in_when_there_is_not() -> None:
    day = 86400.0
    unmet = [Unmet((4 + number) * day, 60.0, 30 * day) for number in range(4)]
    pace = 600.0 / day
    assert pressing(unmet, 0.0, pace) is None
    assert pressing(unmet, 3.9 * day, pace) == unmet[0].deadline
    assert pressing(unmet, 3.9 * day, pace / 40) is None, "more than can be afforded"
    assert pressing([], 0.0, pace) is None


def test_every_skill_is_met_in_time_when_time_allows() -> None:
    skills = plans(24, 3) | {"small": plan("small", 3, marks=0.05)}
    planner = Planner(skills, EXAM, 8.0)
    asked = sit(planner, days=19)
    assert {one.choice.skill for one in asked} == set(skills)


def alike(mixed: bool) -> list[str]:
    """Kinds of ten questions, where one kind is worth most by far."""
    skills = {f"a{n}": plan(f"a{n}", 3, marks=9.0, kind="symbols") for n in range(6)}
    skills |= {f"b{n}": plan(f"b{n}", 3, kind=f"b{n}") for n in range(9)}
    asked = sit(Planner(skills, EXAM, 10.0, mixed=mixed))
    return [skills[one.choice.skill].kind for one in asked if not one.choice.show]


def test_at_most_two_of_a_kind_in_ten_unless_a_topic_was_chosen() -> None:
    assert Counter(alike(True))["symbols"] == 2
    assert Counter(alike(False))["symbols"] > 2


def test_no_object_twice_in_a_sitting() -> None:
    skills = {
        f"s{n}": plan(f"s{n}", 2, objects={f"s{n}/0": "cylinder", f"s{n}/1": f"thing {n}"})
        for n in range(10)
    }
    asked = sit(Planner(skills, EXAM, 10.0))
    things = Counter(skills[one.choice.skill].objects[one.choice.template] for one in asked)
    assert things["cylinder"] == 1
    assert len(asked) == 10


def test_mixing_is_dropped_when_nothing_else_is_left() -> None:
    skills = {f"s{n}": plan(f"s{n}", 6, kind="one") for n in range(3)}
    assert len(sit(Planner(skills, EXAM, 8.0))) > 4


def held(skills: int = 3) -> Planner:
    memory = Memory()
    for turn in range(60 * skills):
        skill = f"s{turn % skills}"
        when = NOW - timedelta(days=30) + timedelta(hours=4 * turn)
        memory.observe(skill, f"{skill}/{turn // skills % 6}", min(when, NOW - DAY), 1.0)
    return Planner(plans(skills, 6), NOW + DAY, 600.0, memory=memory)


def test_when_all_is_held_that_is_said_and_more_can_still_be_had() -> None:
    planner = held()
    nothing = planner.nothing(NOW)
    assert nothing is not None
    assert (nothing.why, nothing.held, nothing.skills) == (Why.HELD, 3, 3)
    choice = planner.choose(NOW, wanted=True)
    assert choice is not None
    assert choice.why is Reason.WANTED


@pytest.mark.parametrize(
    ("planner", "why"),
    [
        (Planner({}, EXAM), Why.EMPTY),
        (Planner({"a": plan(taught_from=NOW + DAY)}, EXAM), Why.NOT_TAUGHT),
        (Planner(plans(9), EXAM, 1.0, asked=[("s0", "s0/0", NOW, 90.0)]), Why.MINUTES),
        (Planner({"x": plan(templates=1)}, EXAM, asked=[("x", "x/0", NOW, 9.0)]), Why.REST),
    ],
)
def test_why_there_is_nothing(planner: Planner, why: Why) -> None:
    nothing = planner.nothing(NOW + MINUTE)
    assert nothing is not None
    assert nothing.why is why
    assert (nothing.until is not None) is (why is Why.NOT_TAUGHT)
