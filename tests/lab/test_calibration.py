"""Calibration finds what is in the logs, and without logs keeps to its start."""

from __future__ import annotations

import random
from datetime import UTC, datetime, timedelta
from hashlib import blake2b
from math import exp, log
from typing import Any

from drill.memory import SHIPPED, WEIGHTS_ID
from tests.lab import calibrate
from tests.lab.calibration import _reach_days

START = datetime(2026, 9, 7, 17, 0, tzinfo=UTC)
EASE = {"easy": 1.5, "middling": 0.0, "hard": -1.5}
Log = list[tuple[Any, ...]]


def logs(learners: int, seed: int) -> list[Log]:
    """Learners who gain with each try and lose with the days; three skills, unlike in easiness."""
    rng = random.Random(seed)
    return [_log(rng) for _ in range(learners)]


def _log(rng: random.Random) -> Log:
    able, log_, now = rng.gauss(0.0, 0.7), [], START
    tries = dict.fromkeys(EASE, 0)
    last = dict.fromkeys(EASE, START)
    for _ in range(30):
        skill = rng.choice(list(EASE))
        now += timedelta(days=rng.choice((0.001, 0.01, 1.0, 4.0)))
        rested = (now - last[skill]).total_seconds() / 86400.0
        logit = EASE[skill] + able + 0.8 * log(1 + tries[skill]) - 0.5 * log(1 + rested)
        score = float(rng.random() < 1.0 / (1.0 + exp(-logit)))
        log_.append((skill, f"{skill}/{rng.randint(1, 2)}", now, score))
        tries[skill], last[skill] = tries[skill] + 1, now
    return log_


def test_nothing_to_learn_from_changes_nothing() -> None:
    assert calibrate([]) == SHIPPED
    assert calibrate([[("yield", "yield/one", START, None)]]) == SHIPPED


def test_a_few_answers_move_little() -> None:
    few = calibrate([log_[:4] for log_ in logs(2, seed=3)])
    assert abs(few.skill.fresh - SHIPPED.skill.fresh) < 0.5


def test_logs_of_minutes_are_told_from_logs_of_days() -> None:
    def every(gap: timedelta) -> list[Log]:
        rows = [("yield", "yield/one", START + turn * gap, 1.0) for turn in range(6)]
        return [[("yield", "yield/one", START - timedelta(days=9), None)], rows]

    assert not _reach_days(every(timedelta(minutes=5)))
    assert _reach_days(every(timedelta(days=1)))


def test_exposures_floors_and_parts_of_the_marks_are_taken() -> None:
    told = [
        ("yield", "yield/one", START, None),
        ("yield", "yield/one", START + timedelta(days=1), 0.5, 0.25),
        ("yield", "yield/two", START + timedelta(days=2), 1, 0.0),
    ]
    assert calibrate([told] * 3).templates.keys() == {"yield/one", "yield/two"}


def test_the_shipped_weights_carry_their_own_name() -> None:
    assert blake2b(repr(SHIPPED[:7]).encode(), digest_size=6).hexdigest() == WEIGHTS_ID
