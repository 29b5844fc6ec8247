"""The forecast: shares with an honest range, more with more practice, surer with more answers."""

from __future__ import annotations

from datetime import timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from drill.memory import Memory
from drill.planning import Planner
from tests.planning.helpers import EXAM, NOW, plan, plans, sit


def practised(score: float, days: int = 10) -> Planner:
    planner = Planner(plans(12, 3), EXAM, minutes_per_day=10.0)
    sit(planner, days, score=lambda choice: score)
    return planner


@settings(max_examples=20, deadline=None)
@given(
    st.integers(1, 30), st.floats(0.0, 40.0), st.sampled_from((0.0, 0.6, 1.0)), st.integers(0, 4)
)
def test_a_forecast_is_a_share_inside_its_range(
    skills: int, minutes: float, score: float, days: int
) -> None:
    planner = Planner(plans(skills), EXAM)
    sit(planner, days, score=lambda choice: score)
    found = planner.forecast(NOW + timedelta(days=days), minutes)
    assert found.per_skill.keys() == planner.skills.keys()
    for expected, low, high in ((found.expected, found.low, found.high), *found.per_skill.values()):
        assert 0.0 <= low <= expected <= high <= 1.0


def test_more_minutes_are_expected_to_bring_more() -> None:
    planner = practised(0.6)
    at = NOW + timedelta(days=10)
    shares = [planner.forecast(at, minutes).expected for minutes in (0, 2, 5, 10, 20, 60)]
    assert shares == sorted(shares)
    assert shares[-1] > shares[0] + 0.05


def test_nothing_more_is_what_is_left_on_the_day() -> None:
    planner = practised(0.6)
    found = planner.forecast(NOW + timedelta(days=10), 0)
    for skill, (expected, _, _) in found.per_skill.items():
        assert abs(expected - planner.memory.held(skill, EXAM)) < 0.01


def test_a_learner_who_is_little_known_has_a_wider_range() -> None:
    planner = practised(0.6)
    at = NOW + timedelta(days=10)
    before = planner.forecast(at, 0)
    planner.memory.learner.cov[0][0] += 2.0
    after = planner.forecast(at, 0)
    assert after.high - after.low > before.high - before.low + 0.03


def test_answers_make_it_surer() -> None:
    none, some = practised(0.6, days=0), practised(0.6, days=10)
    vague = none.forecast(NOW)
    surer = some.forecast(NOW + timedelta(days=10))
    assert surer.expected - surer.low < 0.8 * (vague.expected - vague.low)


def test_right_answers_raise_it() -> None:
    at = NOW + timedelta(days=10)
    assert practised(1.0).forecast(at).expected > practised(0.2).forecast(at).expected + 0.2


def test_marks_at_stake_weigh() -> None:
    memory = Memory()
    for day in range(10):
        for skill, score in (("good", 1.0), ("bad", 0.0)):
            memory.observe(skill, f"{skill}/{day % 2}", NOW - timedelta(days=10 - day), score)
    shares = []
    for marks in (1.0, 9.0):
        skills = {"good": plan("good", marks=marks), "bad": plan("bad")}
        shares.append(Planner(skills, EXAM, memory=memory).forecast(NOW, 0).expected)
    assert shares[1] > shares[0] + 0.1


def test_a_skill_whose_exam_is_over_is_not_in_the_paper_to_come() -> None:
    memory = Memory()
    for day in range(10):
        memory.observe("gone", f"gone/{day % 2}", NOW - timedelta(days=10 - day), 1.0)
    skills = {"gone": plan("gone", exam=NOW - timedelta(days=1)), "next": plan("next")}
    found = Planner(skills, EXAM, memory=memory).forecast(NOW, 0)
    assert abs(found.expected - found.per_skill["next"][0]) < 1e-12


def test_what_an_early_exam_uses_is_gone_for_the_late_one() -> None:
    late = plans(8)
    early = {f"e{n}": plan(f"e{n}", exam=NOW + timedelta(days=10)) for n in range(8)}

    def expected(skills: object) -> float:
        found = Planner(skills, EXAM, minutes_per_day=2.0).forecast(NOW)  # type: ignore[arg-type]
        return sum(found.per_skill[skill][0] for skill in late)

    assert expected(late | early) < expected(late) - 0.01


def test_opinions_far_apart_widen_the_range_and_are_said() -> None:
    planner = practised(0.6)
    at = NOW + timedelta(days=10)
    agreed = planner.forecast(at, 0)
    planner.memory.belief.person[0] += 3.0
    apart = planner.forecast(at, 0)
    assert agreed.doubt == ""
    assert apart.apart > agreed.apart + 0.1
    assert apart.doubt == (
        f"Two ways of judging what lasts differ by {100 * apart.apart:.0f} % of the marks, "
        "so the range is wide."
    )
    assert apart.high - apart.low > agreed.high - agreed.low


def test_an_empty_deck_has_an_empty_forecast() -> None:
    found = Planner({}, EXAM).forecast(NOW)
    assert (found.expected, found.per_skill) == (0.0, {})
