"""A planner that looks ahead to the exam at prices on time: the references of the lab.

Time is scarce, so every coming stretch of days gets a price for a second of practice, such that
the skills, each choosing its best plan at these prices, together ask for the seconds there are
(the relaxation that `bounds.py` makes a bound of). Today goes to the skills that lose most, per
second, when they may not be practised today but may be later.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from itertools import combinations
from math import exp

from drill.planning import Choice, SkillPlan
from tests.lab.models import Model, Times

DAY = 86400.0
_ROUNDS = 30
_SOFT = 0.05
"""Marks by which a plan must fall behind to be wanted a third as much."""
_MOST = 2
"""Further askings of a skill in one plan, today's not counted."""


class LookAhead:
    """The best plan that a model of the learner allows.

    Args:
        attended: the share of days on which there will be practice.
    """

    def __init__(
        self,
        model: Model,
        skills: Mapping[str, SkillPlan],
        exam: datetime,
        minutes_per_day: float,
        lessons: Mapping[str, datetime],
        attended: float = 0.8,
    ) -> None:
        self.model, self.skills, self.exam = model, dict(skills), exam
        self.lessons = sorted((when, skill) for skill, when in lessons.items())
        self.taught = {skill: when.timestamp() for skill, when in lessons.items()}
        self.budget, self.attended = minutes_per_day * 60.0, attended
        self.count = dict.fromkeys(skills, 0)
        self.worth: dict[str, float] = {}
        self.prices: list[float] = []
        self.moments: list[float] = []
        self.widths: list[float] = []
        self.plans: list[tuple[int, ...]] = []
        self._later: list[float] = []
        self._day: object = None

    # ---------------------------------------------------------------- as a policy

    def choose(self, now: datetime) -> Choice | None:
        """The skill that loses most by waiting, per second."""
        while self.lessons and self.lessons[0][0] <= now:
            when, skill = self.lessons.pop(0)
            self.model.lesson(skill, when.timestamp())
        if self._day != now.date():
            self._day = now.date()
            self._plan(now.timestamp())
        playing = [skill for skill in self.skills if self.taught[skill] <= now.timestamp()]
        best = max(playing, key=lambda skill: self.worth[skill], default=None)
        if best is None or self.worth[best] <= 0.0:
            return None
        templates = list(self.skills[best].templates)
        return Choice(best, templates[self.count[best] % len(templates)])

    def record(
        self, skill: str, template: str, when: datetime, score: float, seconds: float
    ) -> None:
        """An answer: the skill is weighed anew."""
        self.model.record(skill, template, when.timestamp(), score, seconds)
        self.count[skill] += 1
        at = when.timestamp() + seconds
        self.worth[skill] = self._worth(skill, self._values(skill, at))

    def expose(self, skill: str, template: str, when: datetime) -> None:
        """It never shows worked answers."""

    # ---------------------------------------------------------------- planning a day

    def _plan(self, now: float) -> None:
        self._stretches(now)
        values = {skill: self._values(skill, now) for skill in self.skills}
        self._find_prices(values)
        self._later = self._costs()[: len(self.plans) // 2]
        self.worth = {skill: self._worth(skill, row) for skill, row in values.items()}

    def _stretches(self, now: float) -> None:
        """Today, then stretches of days that grow towards the middle and shrink to the exam."""
        days = max(0, int((self.exam.timestamp() - now) / DAY))
        ends = sorted({round(days * share) for share in (0.1, 0.25, 0.45, 0.7, 0.9, 1.0)} - {0})
        starts = [0, *ends[:-1]] if ends else []
        middles = [(start + end + 1) / 2 for start, end in zip(starts, ends, strict=True)]
        self.moments = [now] + [now + DAY * middle for middle in middles]
        self.widths = [1.0] + [
            self.attended * (end - start) for start, end in zip(starts, ends, strict=True)
        ]
        later = range(1, len(self.moments))
        most = min(_MOST, len(self.moments) - 1)
        self.plans = [plan for size in range(most + 1) for plan in combinations(later, size)]
        self.plans += [(0, *plan) for plan in self.plans]
        if len(self.prices) != len(self.moments):
            last = self.prices[-1] if self.prices else 0.0
            self.prices = (self.prices + [last] * len(self.moments))[: len(self.moments)]

    def _values(self, skill: str, now: float) -> list[float]:
        """Exam-day marks for each plan; a plan before the lesson is worth nothing."""
        taught, marks = self.taught[skill], self.skills[skill].marks
        moments = [now, *self.moments[1:]]
        times: list[Times] = [tuple(moments[place] for place in plan) for plan in self.plans]
        able = [plan for plan in times if not plan or plan[0] >= taught]
        found = iter(self.model.values(skill, able))
        return [marks * next(found) if not plan or plan[0] >= taught else 0.0 for plan in times]

    def _find_prices(self, values: Mapping[str, list[float]]) -> None:
        """Raise the price where more is asked for than there is, lower it where less.

        Skills ask softly, nearly as good plans counting nearly as much: with hard choices all of
        them would jump to whichever stretch is cheapest by a hair.
        """
        room = [self.budget * width for width in self.widths]
        if not any(self.prices):
            self.prices = [1.0 / 300.0] * len(self.moments)
        for turn in range(_ROUNDS):
            costs = self._costs()
            wanted = [0.0] * len(room)
            for skill, row in values.items():
                seconds = self.model.seconds(skill)
                for plan, weight in zip(self.plans, _soft(row, costs, seconds), strict=True):
                    if weight > 0.01:
                        for place in plan:
                            wanted[place] += weight * seconds
            step = 0.6 / (1.0 + turn / 4.0)
            self.prices = [
                max(1e-7, price * exp(step * max(-1.0, min(1.0, asked / here - 1.0))))
                for price, asked, here in zip(self.prices, wanted, room, strict=True)
            ]

    def _costs(self) -> list[float]:
        """The price of each plan for every second that a question takes."""
        return [sum(self.prices[place] for place in plan) for plan in self.plans]

    def _worth(self, skill: str, row: list[float]) -> float:
        """Marks per second lost by not practising today, the best later plans compared."""
        seconds, half, costs = self.model.seconds(skill), len(self.plans) // 2, self._later
        without = max(row[place] - seconds * costs[place] for place in range(half))
        within = max(row[half + place] - seconds * costs[place] for place in range(half))
        return (within - without) / seconds


def _soft(row: list[float], costs: list[float], seconds: float) -> list[float]:
    """How much each plan is wanted; the weights add up to 1."""
    worth = [value - seconds * cost for value, cost in zip(row, costs)]  # noqa: B905 (hot)
    best = max(worth)
    weights = [exp((value - best) / _SOFT) if value > best - 5 * _SOFT else 0.0 for value in worth]
    total = sum(weights)
    return [weight / total for weight in weights]
