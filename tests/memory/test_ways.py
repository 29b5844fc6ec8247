"""What is believed of one learner moves towards the answers, grows sure, and finds slopes."""

from __future__ import annotations

import random
from math import sqrt

import pytest

from drill.memory.activation import Features
from drill.memory.learner_effects import SIZE, LearnerEffects, share_of
from drill.memory.shipped import SHIPPED

SPREAD = SHIPPED.ways
NONE: Features = (0.0, 0.0, 0.0, 0.0)


def told(rows: list[tuple[Features, float]]) -> LearnerEffects:
    learner = LearnerEffects(SPREAD)
    for seen, score in rows:
        learner.learn(0.0, seen, "yield", score, 0.05, 0.05)
    return learner


def test_before_any_answer_it_is_the_learner_in_the_middle() -> None:
    mean, variance = LearnerEffects(SPREAD).offset(NONE, "yield")
    assert (mean, variance) == (0.0, pytest.approx(SPREAD.able + SPREAD.skill))


def test_right_answers_raise_and_wrong_ones_lower_it() -> None:
    assert told([(NONE, 1.0)]).offset(NONE, "yield")[0] > 0.0
    assert told([(NONE, 0.0)]).offset(NONE, "yield")[0] < 0.0


def test_every_answer_makes_surer_and_no_variance_leaves_its_bounds() -> None:
    seen: Features = (0.7, 1.0, 0.5, 0.3)
    few, many = told([(seen, 1.0)]), told([(seen, float(turn % 2)) for turn in range(400)])
    assert many.offset(seen, "yield")[1] < few.offset(seen, "yield")[1]
    for place in range(SIZE):
        assert 0.0 < many.cov[place][place] <= SPREAD[place]


def test_a_learner_to_whom_right_answers_bring_more_is_found_out() -> None:
    """The slope the answers were drawn with, found within twice what is said to be unsure."""
    rng, learner, slope = random.Random(7), LearnerEffects(SPREAD), 1.2
    for turn in range(800):
        seen: Features = (rng.gauss(0.0, 0.5), rng.choice((0.0, 0.7, 1.1, 1.4)), 0.0, 0.0)
        share = share_of(-0.8 + slope * seen[1], 0.0, 0.05, 0.05)
        learner.learn(-0.8, seen, f"skill {turn % 40}", float(rng.random() < share), 0.05, 0.05)
    assert abs(learner.mean[2] - slope) < 2.0 * sqrt(learner.cov[2][2]) + 0.1
    assert learner.mean[2] > 0.6


def test_another_skill_is_believed_in_only_as_far_as_the_learner_is() -> None:
    learner = told([(NONE, 1.0)] * 5)
    assert learner.offset(NONE, "yield")[0] > learner.offset(NONE, "filter")[0] > 0.0


def test_written_down_and_read_back_it_is_the_same() -> None:
    learner = told([((0.2, 0.7, 0.0, -0.4), 0.5), ((0.1, 0.0, 0.7, 0.4), 0.0)])
    again = LearnerEffects.from_state(SPREAD, learner.to_state())
    assert again.to_state() == learner.to_state()
