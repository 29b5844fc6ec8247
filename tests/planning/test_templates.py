"""Which template: rested, never the last of two, and worked answers that are no askings."""

from __future__ import annotations

from datetime import timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from drill.planning import Choice, Planner, SkillPlan
from tests.planning.helpers import EXAM, MINUTE, NOW, Asking, plan, plans, sit

DAY = timedelta(days=1)


@settings(max_examples=30, deadline=None)
@given(
    st.lists(st.tuples(st.integers(1, 4), st.booleans()), min_size=6, max_size=9),
    st.sampled_from((0.0, 0.5, 1.0)),
)
def test_every_template_rests_as_long_as_it_should(
    kinds: list[tuple[int, bool]], score: float
) -> None:
    skills = {
        f"s{number}": plan(f"s{number}", count, draws)
        for number, (count, draws) in enumerate(kinds)
    }
    asked = sit(Planner(skills, EXAM), days=4, score=lambda choice: score)
    asked = [asking for asking in asked if not asking.choice.show]
    for place, asking in enumerate(asked):
        for before, gone in enumerate(reversed(asked[:place])):
            if gone.choice.template == asking.choice.template:
                assert_rested(skills[asking.choice.skill], asking, gone, others=before)


def assert_rested(skill: SkillPlan, asking: Asking, gone: Asking, others: int) -> None:
    if skill.templates[asking.choice.template]:
        assert others >= 5
    else:
        assert asking.when - gone.when >= DAY


@settings(max_examples=30, deadline=None)
@given(st.integers(2, 4), st.integers(3, 8))
def test_never_the_last_one_and_always_the_least_recent(templates: int, skills: int) -> None:
    asked = sit(Planner(plans(skills, templates), EXAM), days=3)
    last: dict[str, list[str]] = {}
    for asking in asked:
        gone = last.setdefault(asking.choice.skill, [])
        if gone:
            assert asking.choice.template != gone[-1]
        if asking.choice.template in gone:
            assert len(set(gone)) == templates
            gone.remove(asking.choice.template)
        gone.append(asking.choice.template)


def test_none_eligible_the_skill_waits() -> None:
    planner = Planner({"x": plan(templates=1, draws=False)}, EXAM)
    assert planner.choose(NOW) is not None
    planner.record("x", "x/0", NOW, 0.0, 60.0)
    assert planner.choose(NOW + MINUTE) is None
    assert planner.choose(NOW + DAY) is not None


def test_too_few_templates_for_five_others_rest_a_day() -> None:
    planner = Planner(plans(2, 1), EXAM)
    assert len(sit(planner)) == 2
    assert len(sit(planner, begin=NOW + DAY)) == 2


def test_a_question_of_two_skills_is_one_asking() -> None:
    planner = Planner(plans(8, 1), EXAM)
    planner.record("s0", "s0/0", NOW, 0.0, 60.0)
    for number in range(1, 5):
        now = NOW + number * MINUTE
        planner.record("s7", f"s{number}/0", now, 0.0, 0.0)
        planner.record(f"s{number}", f"s{number}/0", now, 0.0, 60.0)
    assert planner.past.count == 5
    assert planner.past.last_skill == "s4"
    assert planner.past.spent(NOW) == 300.0
    assert planner.past.template("s0", {"s0/0": True}, NOW.timestamp() + 600) is None


def test_past_askings_count_for_the_rules() -> None:
    asked = [("x", "x/0", NOW - MINUTE, 60.0)]
    skills = {"x": plan("x"), "y": plan("y", marks=0.1)}
    assert Planner(skills, EXAM).choose(NOW) == Choice("x", "x/0")
    assert Planner(skills, EXAM, asked=asked).choose(NOW) == Choice("y", "y/0")
    assert Planner({"x": plan("x")}, EXAM, asked=asked).choose(NOW) == Choice("x", "x/1")


def test_a_worked_answer_first_then_the_same_skill_asked() -> None:
    planner = Planner(plans(6, worked_first=True), EXAM)
    shown = planner.choose(NOW)
    assert shown is not None
    assert shown.show
    planner.expose(shown.skill, shown.template, NOW)
    assert planner.choose(NOW + MINUTE) == Choice(shown.skill, shown.template)


def test_a_worked_answer_comes_first_and_again_after_misses_asked_on_another_day() -> None:
    planner = Planner(plans(1, 6, worked_first=True), EXAM)
    asked = sit(planner, days=2, score=lambda choice: 0.0)
    assert [asking.choice.show for asking in asked[:2]] == [True, False]
    again = next(place for place, one in enumerate(asked[1:], 1) if one.choice.show)
    assert all(one.when.date() > asked[again].when.date() for one in asked[again + 1 :])


def test_no_second_worked_answer_after_success() -> None:
    asked = sit(Planner(plans(4, worked_first=True), EXAM), days=6, score=lambda choice: 1.0)
    assert sum(asking.choice.show for asking in asked) == 4


def test_no_worked_answer_of_a_text_that_is_always_the_same() -> None:
    asked = sit(Planner(plans(3, draws=False, worked_first=True), EXAM))
    assert asked
    assert not any(asking.choice.show for asking in asked)
