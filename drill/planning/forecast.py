"""What is held today and what to expect on exam day, each with an honest range.

Two figures that are never mixed: what the learner would earn now, and what on the day if practised
as planned. Both are shares over all that could be asked, of templates never asked, and each has
its own 80 % range. What makes the range on the day wide:

    the learner  how well practice and rest work on this one, and how able
    the plan     what practice is still to bring
    the model    the two opinions of memory, and what neither knows

How much each counts was fitted on 79 simulated people (seeds 9710 to 9716) to the interval score
of Gneiting & Raftery 2007, Strictly proper scoring rules, JASA 102, 359-378 (from memory), so that
the true share lies inside about as often as it says; tests/bench/figures.py measures it on others.
The shares are the activation model's, which planning goes by; how unsure it is of this learner
comes from what it believes of the learner's five numbers (`learner_effects.py`).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from math import sqrt
from typing import NamedTuple

from drill.memory import ExpectedGain, Memory
from drill.memory.activation import DAY
from drill.planning.lookahead import Stake, counts_for, curve, hull, planned
from drill.planning.plan_values import Forecast

_EIGHTY = 1.2816
"""Standard deviations either side that hold 80 % of a normal distribution."""
_BELIEVED = 0.85
"""Of what practice is planned to bring by the exam, this share is expected: people forget more and
miss more than is planned, and with all of it low scorers were told 5 to 8 points too much."""
_UNKNOWN, _FROM_PRACTICE, _FROM_OPINIONS, _FROM_LEARNER = 0.025, 0.15, 0.1, 0.7
"""Standard deviations on the day: of any share; then per share that practice is to bring, per share
the opinions are apart, per share that the unsure numbers of the learner move."""
_HELD_UNKNOWN, _HELD_LEARNER = 0.024, 0.9
"""The first and the last of them for what is held today."""
_PRACTISED = 0.01
"""A skill whose share is planned to rise by more than this will have been practised by the exam."""


class _View(NamedTuple):
    """One skill: its part of all marks, and shares now, without and with further practice.

    `slopes`, `slopes_now`: how fast the shares move with the learner's five numbers.
    """

    part: float
    now: float
    untouched: float
    expected: float
    apart: float
    slopes: Sequence[float]
    slopes_now: Sequence[float]
    skill_variance: float


Outlooks = Mapping[str, ExpectedGain]


def outlooks_of(memory: Memory, skills: Iterable[str]) -> Outlooks:
    """What practice would do for each skill, as memory is now."""
    return {skill: ExpectedGain(memory, skill) for skill in skills}


def forecast(
    memory: Memory,
    outlooks: Outlooks,
    stakes: Mapping[str, Stake],
    now: float,
    minutes_per_day: float,
) -> Forecast:
    """The forecast for all skills when their minutes go where they bring most."""
    if not stakes:
        return Forecast(0.0, 0.0, 0.0, {})
    views = _views(outlooks, stakes, now, minutes_per_day)
    ahead = [views[skill] for skill, stake in stakes.items() if stake.exam > now]
    exam = ahead or list(views.values())
    expected, low, high = _on_the_day(memory, exam)
    return Forecast(
        expected,
        low,
        high,
        {skill: _on_the_day(memory, [view]) for skill, view in views.items()},
        _held(memory, exam),
        {skill: view.now for skill, view in views.items()},
        abs(_mean(exam, "apart")),
    )


def _views(
    outlooks: Outlooks, stakes: Mapping[str, Stake], now: float, minutes: float
) -> dict[str, _View]:
    expected = _shares(outlooks, stakes, now, minutes)
    total = sum(stake.marks for stake in stakes.values()) or 1.0
    views = {}
    for skill, stake in stakes.items():
        outlook, exam = outlooks[skill], stake.exam
        untouched = outlook.share((), exam)
        practised = expected[skill] > untouched + _PRACTISED and exam > stake.start
        times = (0.5 * (stake.start + exam),) if practised else ()
        views[skill] = _View(
            part=stake.marks / total,
            now=outlook.share((), now),
            untouched=untouched,
            expected=untouched + _BELIEVED * (expected[skill] - untouched),
            apart=outlook.first((), exam) - untouched,
            slopes=outlook.slopes(times, exam),
            slopes_now=outlook.slopes((), now),
            skill_variance=outlook.skill_variance,
        )
    return views


def _shares(
    outlooks: Outlooks, stakes: Mapping[str, Stake], now: float, minutes: float
) -> dict[str, float]:
    seconds_until = {
        stake.exam: max(0.0, stake.exam - now) / DAY * minutes * 60.0 for stake in stakes.values()
    }
    hulls = {}
    for skill, stake in stakes.items():
        counts = counts_for(len(stakes), seconds_until[stake.exam] / stake.seconds)
        hulls[skill] = hull(curve(outlooks[skill], stake, counts))
    return planned(stakes, hulls, seconds_until)


def _mean(views: list[_View], name: str) -> float:
    """The mean of one of the views' numbers, each by its part of the marks."""
    whole = sum(view.part for view in views) or 1.0
    return sum(view.part * float(getattr(view, name)) for view in views) / whole


def _on_the_day(memory: Memory, views: list[_View]) -> tuple[float, float, float]:
    expected, untouched = _mean(views, "expected"), _mean(views, "untouched")
    moved = (
        _UNKNOWN,
        _FROM_PRACTICE * (expected - untouched),
        _FROM_OPINIONS * _mean(views, "apart"),
        _FROM_LEARNER * _unsure(memory, views, "slopes"),
    )
    return _range(expected, moved, _alone(views, "expected"))


def _held(memory: Memory, views: list[_View]) -> tuple[float, float, float]:
    moved = (_HELD_UNKNOWN, _HELD_LEARNER * _unsure(memory, views, "slopes_now"))
    return _range(_mean(views, "now"), moved, _alone(views, "now"))


def _range(share: float, moved: Sequence[float], alone: float) -> tuple[float, float, float]:
    """The share, and what holds it in 80 of 100 cases when so much moves it."""
    away = _EIGHTY * sqrt(sum(much * much for much in moved) + alone)
    return share, max(0.0, share - away), min(1.0, share + away)


def _unsure(memory: Memory, views: list[_View], name: str) -> float:
    """How far the share moves with one standard deviation of what is believed of the learner."""
    whole = sum(view.part for view in views) or 1.0
    slopes = [
        sum(view.part * getattr(view, name)[place] for view in views) / whole
        for place in range(len(views[0].slopes))
    ]
    variance = sum(
        one * two * memory.learner.cov[row][column]
        for row, one in enumerate(slopes)
        for column, two in enumerate(slopes)
    )
    return sqrt(max(0.0, variance))


def _alone(views: list[_View], name: str) -> float:
    """The variance that each skill has by itself: it averages out over many."""
    whole = sum(view.part for view in views) or 1.0
    alone = 0.0
    for view in views:
        share = float(getattr(view, name))
        alone += (view.part / whole * share * (1.0 - share)) ** 2 * view.skill_variance
    return alone
