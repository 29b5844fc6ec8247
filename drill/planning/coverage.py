"""Every skill should be asked in good time before the exam, if there is enough time.

A skill never asked is planned for with the averages of other skills. Only an answer shows whether
this learner can do it, so each skill has a day by which it should have been asked.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from typing import NamedTuple

BY = 0.6
"""Met by this share of the time between its lesson, or the first sitting, and the exam."""
AFFORDABLE = 0.4
"""Nothing is done for it while the skills not met would take more than this share of the time."""
_PRESSING = 0.5
"""Nor before they take more than this share of the time until one of them should be met."""


class Unmet(NamedTuple):
    """A skill never asked: when it should be met (POSIX seconds), and what one asking takes."""

    deadline: float
    seconds: float
    exam: float


def deadline(start: float, exam: float) -> float:
    """When a skill should be met whose lesson, or whose learner's first sitting, was at `start`."""
    return start + BY * (exam - start)


def affordable(unmet: Collection[Unmet], now: float, pace: float) -> bool:
    """Whether there is time to meet all of them once and practise besides."""
    left = pace * (max((one.exam for one in unmet), default=now) - now)
    return sum(one.seconds for one in unmet) <= AFFORDABLE * left


def pressing(unmet: Iterable[Unmet], now: float, pace: float) -> float | None:
    """The deadline that needs attention now, None when all can be left to the plan.

    Args:
        pace: seconds of practice there will be in each second up to the exam.
    """
    waiting = sorted(unmet)
    if not waiting or not affordable(waiting, now, pace):
        return None
    needed = 0.0
    for one in waiting:
        needed += one.seconds
        if needed > _PRESSING * pace * max(0.0, one.deadline - now):
            return one.deadline
    return None
