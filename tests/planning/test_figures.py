"""The two figures: when they are shown, how they move, and what is said of it."""

from __future__ import annotations

from datetime import timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drill.planning import Planner
from drill.planning.figures import Figures, Kept, figures
from tests.lab.hard_cases import HARD_CASES
from tests.planning.helpers import EXAM, MINUTE, NOW, plans, sit

DAY = timedelta(days=1)


def after(days: int, score: float = 0.6, minutes: float = 10.0) -> tuple[Planner, Figures]:
    planner = Planner(plans(12, 3), EXAM, minutes)
    sit(planner, days, score=lambda choice: score)
    return planner, figures(planner, NOW + days * DAY)


def test_no_figure_before_there_are_enough_answers() -> None:
    for days, held, day in (
        (0, False, False),
        (1, False, False),
        (3, True, False),
        (5, True, True),
    ):
        planner, found = after(days)
        assert found.answers == planner.memory.answers()
        assert (found.held is not None) is held, found.answers
        assert (found.on_the_day is not None) is day, found.answers
        assert (found.kept is not None) is day


def test_held_today_is_what_memory_holds_and_not_what_practice_will_bring() -> None:
    planner, found = after(6, score=0.3)
    now = NOW + 6 * DAY
    for skill, row in found.per_skill.items():
        assert row.held == pytest.approx(planner.memory.held(skill, now), abs=0.02)
        assert row.answers == planner.memory.last_answers(skill).answers
    assert found.held
    assert found.on_the_day
    assert found.on_the_day.share > found.held.share


@settings(max_examples=10, deadline=None)
@given(
    st.sampled_from(sorted(HARD_CASES)),
    st.integers(4, 9),
    st.lists(st.floats(0.0, 60.0), min_size=2, max_size=5),
    st.floats(0.0, 1.0),
)
def test_more_minutes_never_bring_less(
    case: str, days: int, minutes: list[float], last: float
) -> None:
    planner = Planner(plans(12, 3), EXAM, 12.0)
    turns = [0.0, 0.5, 1.0, last]
    sit(planner, days, score=lambda choice: turns[planner.memory.answers() % 4])
    found = figures(
        planner, NOW + days * DAY, Kept(last, 40, last, 40, 12.0, EXAM.isoformat()), minutes
    )
    shares = [found.by_minutes[number].share for number in sorted(found.by_minutes)]
    assert shares == sorted(shares)
    for share in found.by_minutes.values():
        assert 0.0 <= share.low <= share.share <= share.high <= 1.0


def test_where_more_minutes_cannot_be_told_apart_that_is_said() -> None:
    planner, _ = after(6)
    at = NOW + 6 * DAY
    assert figures(planner, at, minutes=(1, 60)).told_apart
    assert not figures(planner, at, minutes=(10.0, 10.1)).told_apart


def test_the_day_moves_by_half_and_not_again_without_an_answer() -> None:
    planner, first = after(6)
    at, kept = NOW + 6 * DAY, first.kept
    assert kept
    sit(planner, 1, score=lambda choice: 1.0, begin=at)
    raw = planner.forecast(at).expected
    second = figures(planner, at, kept)
    assert second.kept
    assert second.kept.share == pytest.approx((kept.share + raw) / 2.0)
    third = figures(planner, at, second.kept)
    assert third.on_the_day == second.on_the_day
    assert third.change == second.change


@pytest.mark.parametrize("what", ["minutes", "exam"])
def test_it_starts_anew_when_minutes_or_exam_change(what: str) -> None:
    planner, first = after(6)
    assert first.kept
    if what == "minutes":
        planner.minutes_per_day = 30.0
    else:
        planner.exam = EXAM + 9 * DAY
    found = figures(planner, NOW + 6 * DAY, first.kept)
    assert found.change
    assert found.change.anew == what
    assert found.kept
    assert found.kept.share == pytest.approx(planner.forecast(NOW + 6 * DAY).expected)


def test_what_changed_is_split_between_answers_and_days() -> None:
    planner, first = after(6)
    at = NOW + 9 * DAY
    before = planner.forecast(at)
    for turn in range(6):
        planner.record("s3", f"s3/{turn % 3}", at + turn * MINUTE, 1.0, 60.0)
    change = figures(planner, at, first.kept, before=before).change
    assert change
    assert change.by_answers is not None
    assert change.by_days is not None
    assert change.by_answers + change.by_days == pytest.approx(change.now - change.before)
    assert change.answers == 6
    assert change.by_answers > 0.0
    assert change.up[0][0] == "s3"
