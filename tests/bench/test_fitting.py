"""Fitting finds what it should. Slow: pytest tests/bench/test_fitting.py"""

from __future__ import annotations

from math import log

import pytest

from drill.memory import SHIPPED, Memory, Weights
from tests.lab import calibrate
from tests.lab.test_calibration import Log, logs


def loss(weights: Weights, told: list[Log]) -> float:
    """Mean negative log-likelihood, each answer predicted before it is told."""
    total, count = 0.0, 0
    for log_ in told:
        memory = Memory(weights)
        for skill, template, when, score in log_:
            chance = memory.chance(skill, template, when)
            total -= log(chance if score else 1.0 - chance)
            count += 1
            memory.observe(skill, template, when, score)
    return total / count


@pytest.fixture(scope="module")
def fitted() -> Weights:
    return calibrate(logs(60, seed=1))


def test_unseen_learners_are_predicted_better(fitted: Weights) -> None:
    unseen = logs(40, seed=2)
    assert loss(fitted, unseen) < loss(SHIPPED, unseen) - 0.02


def test_easiness_is_found(fitted: Weights) -> None:
    def easy(skill: str) -> float:
        return fitted.skills[skill] + fitted.templates[f"{skill}/1"]

    assert easy("easy") > easy("middling") + 0.5 > easy("hard") + 1.0


def test_what_must_not_be_negative_is_not(fitted: Weights) -> None:
    for level in (fitted.skill, fitted.template):
        assert all(weight >= 0.0 for weight in level)


def test_the_same_logs_give_the_same_weights(fitted: Weights) -> None:
    assert calibrate(logs(60, seed=1)) == fitted
