"""What all the remaining minutes can bring: the side of planning that forecasts.

Every skill is planned by itself at a price on time, the price being such that together they spend
the minutes there are (a Lagrangian relaxation; Whittle 1988, Journal of Applied Probability 25A).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import pairwise
from typing import NamedTuple

from drill.memory import ExpectedGain

COUNTS = (0, 1, 2, 3, 5, 8, 12, 18, 27, 40, 60, 90)
"""How many further askings a forecast tries; what lies between is interpolated."""
_EVENTS = 20000
"""Askings tried on paper for one forecast of all skills: bounds its time."""


class Stake(NamedTuple):
    """A skill as planning weighs it; times are POSIX seconds, `start` the first possible one."""

    marks: float
    seconds: float
    start: float
    exam: float


Curve = list[tuple[float, float]]
"""(further askings, expected exam-day share), from 0 askings on."""


def counts_for(skills: int, most: float) -> list[int]:
    """The counts a forecast tries when `skills` share the work and `most` askings can be had."""
    tried, total = [0], 0
    for count in COUNTS[1:]:
        total += count + 1
        if tried[-1] >= most or (skills * total > _EVENTS and count > 2):
            break
        tried.append(count)
    return tried


def curve(outlook: ExpectedGain, stake: Stake, counts: Iterable[int]) -> Curve:
    """The exam-day share for each count of further askings, spread evenly up to the exam."""
    span = max(0.0, stake.exam - stake.start)
    points: Curve = []
    for count in counts:
        times = [stake.start + span * turn / (count + 1) for turn in range(1, count + 1)]
        points.append((float(count), outlook.share(times, stake.exam)))
    return points


def hull(points: Curve) -> Curve:
    """The curve's upper hull: what a mixture of its plans can reach, its slopes falling."""
    top: Curve = []
    for point in points:
        while len(top) >= 2 and _slope(top[-2], top[-1]) <= _slope(top[-2], point):
            top.pop()
        top.append(point)
    while len(top) >= 2 and top[-1][1] <= top[-2][1]:
        top.pop()
    return top


def _slope(one: tuple[float, float], two: tuple[float, float]) -> float:
    return (two[1] - one[1]) / (two[0] - one[0])


def planned(
    stakes: Mapping[str, Stake], hulls: Mapping[str, Curve], seconds_until: Mapping[float, float]
) -> dict[str, float]:
    """The share each skill reaches on its exam day when the minutes go where they bring most.

    Args:
        seconds_until: {exam: seconds of practice there will be before it}; what an earlier exam
            uses is gone for the later ones.
    """
    offers = sorted(
        (-stakes[skill].marks * _slope(one, two) / stakes[skill].seconds, skill, one, two)
        for skill, points in hulls.items()
        for one, two in pairwise(points)
    )
    left = dict(seconds_until)
    shares = {skill: points[0][1] for skill, points in hulls.items()}
    for _, skill, one, two in offers:
        stake = stakes[skill]
        wanted = (two[0] - one[0]) * stake.seconds
        to_be_had = min(left[exam] for exam in left if exam >= stake.exam)
        part = min(1.0, max(0.0, to_be_had) / wanted)
        shares[skill] += part * (two[1] - one[1])
        for exam in left:
            if exam >= stake.exam:
                left[exam] -= part * wanted
    return shares
