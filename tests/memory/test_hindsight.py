"""Hindsight moves towards the answers, each kind by its own, and grows sure."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from drill.memory import Memory
from drill.memory.hindsight import AGAIN, FIRST, Hindsight

answers = st.lists(
    st.tuples(
        st.booleans(),
        st.floats(0.0, 1.0),
        st.floats(0.0, 1.0),
        st.sampled_from((0.0, 0.25, 0.5)),
    ),
    max_size=40,
)


def after(told: list[tuple[bool, float, float, float]]) -> Hindsight:
    hindsight = Hindsight()
    for practised, share, score, floor in told:
        hindsight.learn(practised, share, score, floor)
    return hindsight


@settings(max_examples=100, deadline=None)
@given(answers, st.floats(0.0, 1.0), st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_more_marks_never_correct_downwards(
    told: list[tuple[bool, float, float, float]], share: float, one: float, two: float
) -> None:
    less, more = sorted((one, two))
    worse, better = (after([*told, (True, share, score, 0.0)]) for score in (less, more))
    assert worse.again.mean <= better.again.mean + 1e-12
    assert worse.first == better.first


@settings(max_examples=100, deadline=None)
@given(answers)
def test_it_is_never_less_sure_than_before_any_answer(
    told: list[tuple[bool, float, float, float]],
) -> None:
    found = after(told)
    assert 0.0 < found.again.variance <= AGAIN.variance
    assert 0.0 < found.first.variance <= FIRST.variance
    assert Hindsight.from_state(found.to_state()).to_state() == found.to_state()


def test_answers_as_expected_leave_it_where_it_is_and_make_it_surer() -> None:
    start = Hindsight()
    start.again = start.again._replace(mean=0.0)
    for turn in range(200):
        start.learn(True, 0.5, float(turn % 2), 0.0)
    assert abs(start.again.mean) < 0.3
    assert start.again.variance < AGAIN.variance / 4


def test_a_first_asking_and_a_later_one_are_told_apart() -> None:
    memory, at = Memory(), datetime(2027, 1, 11, tzinfo=UTC)
    memory.observe("yield", "yield/one", at, 0.0)
    assert memory.hindsight.again == AGAIN
    assert memory.hindsight.first.mean < FIRST.mean
    memory.observe("yield", "yield/one", at + timedelta(days=1), 1.0)
    assert memory.hindsight.again.mean > AGAIN.mean


def test_a_skill_shown_before_counts_as_practised() -> None:
    memory, at = Memory(), datetime(2027, 1, 11, tzinfo=UTC)
    memory.expose("yield", "yield/one", at)
    memory.observe("yield", "yield/two", at + timedelta(days=1), 1.0)
    assert memory.hindsight.first == FIRST
    assert memory.hindsight.again.mean > AGAIN.mean


def test_what_a_right_answer_does_to_the_chance_does_not_hang_on_it() -> None:
    at = datetime(2027, 1, 11, tzinfo=UTC)
    plain, corrected = Memory(), Memory()
    corrected.hindsight = Hindsight(FIRST._replace(mean=2.0), AGAIN._replace(mean=-2.0))
    for memory in (plain, corrected):
        memory.observe("yield", "yield/one", at, 1.0)
    assert plain.chance("yield", None, at) == corrected.chance("yield", None, at)
