"""What exam day is likely to bring, with a range that owns up to what is not known.

The range is for one drawn paper of about 60 marks on templates never asked. It adds up

    the paper    which questions are drawn, and how their marks fall
    the learner  how able, and how well practice and rest work on this one
    the model    the two opinions of memory, and what neither knows

Only the first averages out over many questions. How much each of the others counts was fitted on
simulated learners of six families, so that 8 papers in 10 fall inside; tests/bench/ranges.py
measures it on others. The share itself is the activation model's, which planning goes by; how
unsure it is of this learner comes from what it believes of the learner's five numbers
(`learner_effects.py`).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import sqrt
from typing import NamedTuple

from drill.memory import ExpectedGain, Memory
from drill.planning.lookahead import Stake, counts_for, curve, hull, planned
from drill.planning.plan_values import Forecast

PAPER_MARKS = 60.0
_EIGHTY = 1.2816
"""Standard deviations either side that hold 80 % of a normal distribution."""
_UNKNOWN, _FROM_PRACTICE, _FROM_REST, _FROM_OPINIONS = 0.03, 0.15, 0.1, 0.15
"""Standard deviations: of any share; then per share that practice is to bring, per share that is
to be forgotten, per share the opinions are apart."""
_FROM_LEARNER = 0.65
"""Standard deviations per share that the unsure numbers of the learner move."""
_PRACTISED = 0.01
"""A skill whose share is planned to rise by more than this will have been practised by the exam."""
_DOWN, _UP = 1.5, 0.65
"""How far the range reaches down and up, for each standard deviation: practice that works less
well on a learner than on most costs more than practice that works better brings."""
_STRONG = 0.1
"""Opinions further apart than this are said to disagree."""


class _View(NamedTuple):
    """One skill: its part of all marks, and shares now, without and with further practice."""

    part: float
    marks: float
    now: float
    untouched: float
    expected: float
    apart: float
    slopes: Sequence[float]
    skill_variance: float

    @property
    def slope(self) -> float:
        """How fast the expected share moves with its logit."""
        return self.expected * (1.0 - self.expected)

    @property
    def alone(self) -> float:
        """The variance of the share by itself, apart from what skills have in common."""
        return self.slope**2 * self.skill_variance

    @property
    def falls(self) -> float:
        """The variance of one question's share of marks about its expected share."""
        return self.slope * (1.0 + 2.0 / max(1.0, self.marks)) / 3.0


def forecast(
    memory: Memory, stakes: Mapping[str, Stake], now: float, minutes_per_day: float
) -> Forecast:
    """The forecast for all skills when their minutes go where they bring most."""
    if not stakes:
        return Forecast(0.0, 0.0, 0.0, {})
    views = _views(memory, stakes, now, minutes_per_day)
    ahead = [views[skill] for skill, stake in stakes.items() if stake.exam > now]
    paper = ahead or list(views.values())
    expected, apart = _mean(paper, "expected"), abs(_mean(paper, "apart"))
    _, low, high = _range(expected, sqrt(_common(memory, paper) + _paper(paper)))
    per_skill = {
        skill: _range(view.expected, sqrt(_common(memory, [view]) + view.alone))
        for skill, view in views.items()
    }
    return Forecast(expected, low, high, per_skill, apart, _doubt(apart))


def _views(
    memory: Memory, stakes: Mapping[str, Stake], now: float, minutes: float
) -> dict[str, _View]:
    outlooks = {skill: ExpectedGain(memory, skill) for skill in stakes}
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
            marks=stake.marks,
            now=outlook.share((), now),
            untouched=untouched,
            expected=expected[skill],
            apart=outlook.first((), exam) - untouched,
            slopes=outlook.slopes(times, exam),
            skill_variance=outlook.skill_variance,
        )
    return views


def _shares(
    outlooks: Mapping[str, ExpectedGain], stakes: Mapping[str, Stake], now: float, minutes: float
) -> dict[str, float]:
    seconds_until = {
        stake.exam: max(0.0, stake.exam - now) / 86400.0 * minutes * 60.0
        for stake in stakes.values()
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


def _common(memory: Memory, views: list[_View]) -> float:
    """The variance that all these skills share: it does not average out over a paper."""
    untouched = _mean(views, "untouched")
    moved = (
        (_UNKNOWN, 1.0),
        (_FROM_PRACTICE, _mean(views, "expected") - untouched),
        (_FROM_REST, _mean(views, "now") - untouched),
        (_FROM_OPINIONS, _mean(views, "apart")),
        (_FROM_LEARNER, _unsure(memory, views)),
    )
    return sum((much * share) ** 2 for much, share in moved)


def _unsure(memory: Memory, views: list[_View]) -> float:
    """How far the share moves with one standard deviation of what is believed of the learner."""
    whole = sum(view.part for view in views) or 1.0
    slopes = [
        sum(view.part * view.slopes[place] for view in views) / whole
        for place in range(len(views[0].slopes))
    ]
    variance = sum(
        one * two * memory.learner.cov[row][column]
        for row, one in enumerate(slopes)
        for column, two in enumerate(slopes)
    )
    return sqrt(max(0.0, variance))


def _paper(views: list[_View]) -> float:
    """The variance of one drawn paper about the learner's share over all that could be asked.

    Marks of one question hang together: a third of them falls alike.
    """
    mean = _mean(views, "expected")
    questions = max(1.0, PAPER_MARKS / max(1.0, _mean(views, "marks")))
    whole = sum(view.part for view in views) or 1.0
    between = sum(view.part * (view.expected - mean) ** 2 for view in views) / whole
    drawn = between * max(0.0, 1.0 - questions / len(views))
    return (drawn + _mean(views, "falls")) / questions + _mean(views, "alone") / min(
        questions, len(views)
    )


def _range(share: float, spread: float) -> tuple[float, float, float]:
    away = _EIGHTY * spread
    return share, max(0.0, share - _DOWN * away), min(1.0, share + _UP * away)


def _doubt(apart: float) -> str:
    if apart <= _STRONG:
        return ""
    return (
        f"Two ways of judging what lasts differ by {100 * apart:.0f} % of the marks, "
        "so the range is wide."
    )
