"""What practising today is worth, when each coming stretch of days has its price for a second.

Time is scarce, so every stretch of days up to the exam gets a price for a second of practice, such
that the skills, each choosing its best plan at these prices, together ask for the seconds there
are: the index of a one-skill problem with a price on time (Whittle 1988, Journal of Applied
Probability 25A). A skill loses, by waiting, the difference between its best plans with and without
today, in marks per second. A skill nearly lost loses little because its plans bring little; one
that can wait loses little because later is as good.

Each skill's demand is smoothed over its plans, plans that are nearly as good counting nearly as
much. With only the best plan, all skills would jump to the stretch that is slightly cheaper.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from math import exp, inf
from typing import NamedTuple

from drill.memory import ExpectedGain, Memory
from drill.memory.activation import DAY
from drill.planning.lookahead import Stake

SHARES = (0.15, 0.4, 0.75, 1.0)
"""Where the stretches end, as shares of the days to the last exam."""
_MOST_ENDS = 5
_SOFT = 0.1
"""Marks by which a plan must fall behind to be wanted a third as much."""
_BEGIN = 1.0 / 300.0
_COMMON_ROUNDS, _ROUNDS = 8, 30
"""Steps towards one price for all stretches, then towards a price for each: with fewer the plans
are clearly worse (on simulated people, seeds 9001 to 9003)."""
_SAMPLE = 60
"""Prices are found with about so many skills, evenly picked, that stand for all."""

AskingPlan = tuple[int, ...]
"""The stretches in which a skill is practised, by number from 1 on; 0 is today. Besides today at
most one: with two, plans lean more on what memory believes of later, and came out no better on
simulated people (seeds 9001 and 9002), at twice the cost."""


class Stretches(NamedTuple):
    """`moments`: POSIX seconds, for each stretch its middle; `room`: seconds today and in each."""

    moments: list[float]
    room: list[float]


def stretches(
    now: float, exams: Iterable[float], today: float, a_day: float, attended: float
) -> Stretches:
    """Stretches of days after today that grow towards the middle, cut at every exam.

    Args:
        today: seconds left today; `a_day`: seconds of a day of practice.
        attended: the share of days on which there will be practice.
    """
    days = sorted({int((exam - now) / DAY) for exam in exams})
    last = days[-1] if days else 0
    wanted = [*days[-1:], *days[:2], *(round(last * share) for share in SHARES)]
    ends = sorted(set(list(dict.fromkeys(end for end in wanted if end > 0))[:_MOST_ENDS]))
    moments, room, start = [], [max(today, 60.0)], 0
    for end in ends:
        moments.append(now + DAY * (start + end + 1) / 2)
        room.append(max(60.0, a_day * attended * (end - start)))
        start = end
    return Stretches(moments, room)


class DayPrices:
    """One day's worth of every skill, as memory stood when the day was planned.

    Args:
        stakes: the skills whose exam is ahead; one not taught yet asks for later days only.
        now: POSIX seconds.
    """

    def __init__(
        self, memory: Memory, stakes: Mapping[str, Stake], now: float, ahead: Stretches
    ) -> None:
        self.memory, self.moments = memory, ahead.moments
        self.plans: list[AskingPlan] = [
            (),
            *((place,) for place in range(1, len(ahead.moments) + 1)),
        ]
        self.stakes: dict[str, Stake] = {}
        self.rows: dict[str, list[float]] = {}
        self.worth: dict[str, float] = {}
        for skill, stake in stakes.items():
            self.stakes[skill], self.rows[skill] = stake, self._row(skill, stake, now)
        self._later = self._costs(self._prices(ahead.room), self.plans)
        for skill in stakes:
            self.worth[skill] = self._worth(skill)

    def refresh(self, skill: str, stake: Stake, now: float) -> None:
        """Weigh one skill anew, at the day's prices."""
        self.stakes[skill], self.rows[skill] = stake, self._row(skill, stake, now)
        self.worth[skill] = self._worth(skill)

    def rise(self, skill: str) -> float:
        """By how much an asking now, and none later, raises the skill's exam-day share."""
        row = self.rows[skill]
        return (row[len(self.plans)] - row[0]) / max(1e-9, self.stakes[skill].marks)

    # ---------------------------------------------------------------- values of plans

    def _row(self, skill: str, stake: Stake, now: float) -> list[float]:
        """Exam-day marks after each plan, then after today and each plan; -inf: not possible."""
        outlook, exam, marks = ExpectedGain(self.memory, skill), stake.exam, stake.marks
        later = [(at,) if stake.start <= at < exam else None for at in self.moments]
        plans: list[tuple[float, ...] | None] = [(), *later]
        row = [-inf if at is None else marks * outlook.share(at, exam) for at in plans]
        if stake.start > now:
            return row + [-inf] * len(row)
        return row + [
            -inf if at is None else marks * outlook.share((now, *at), exam) for at in plans
        ]

    def _worth(self, skill: str) -> float:
        """Marks per second that are lost when today is let go, the best plans compared."""
        row, seconds, costs = self.rows[skill], self.stakes[skill].seconds, self._later
        half = len(costs)
        if row[half] == -inf:
            return -inf
        without = max([row[n] - seconds * costs[n] for n in range(half)])
        within = max([row[half + n] - seconds * costs[n] for n in range(half)])
        return (within - without) / seconds

    # ---------------------------------------------------------------- prices

    def _prices(self, room: Sequence[float]) -> list[float]:
        """The price of a second today and in each stretch."""
        names = sorted(self.rows)[:: max(1, len(self.rows) // _SAMPLE)]
        prices = [_BEGIN] * len(room)
        if not names:
            return prices
        share = len(names) / len(self.rows)
        room = [share * seconds for seconds in room]
        asked = [(self.rows[name], self.stakes[name].seconds) for name in names]
        plans: list[AskingPlan] = [*self.plans, *((0, *plan) for plan in self.plans)]
        for turn in range(_COMMON_ROUNDS):
            step = _step(sum(self._wanted(asked, plans, prices)), sum(room), turn)
            prices = [price * step for price in prices]
        for turn in range(_ROUNDS):
            wanted = self._wanted(asked, plans, prices)
            prices = [
                max(1e-7, price * _step(here, seconds, turn))
                for price, here, seconds in zip(prices, wanted, room, strict=True)
            ]
        return prices

    def _wanted(
        self, asked: list[tuple[list[float], float]], plans: list[AskingPlan], prices: list[float]
    ) -> list[float]:
        """The seconds asked for today and in each stretch at these prices."""
        costs = self._costs(prices, plans)
        wanted = [0.0] * len(prices)
        for row, seconds in asked:
            worth = [value - seconds * cost for value, cost in zip(row, costs)]  # noqa: B905 (hot)
            least = max(worth) - 5.0 * _SOFT
            near = [
                (exp((value - least) / _SOFT), plan)
                for value, plan in zip(worth, plans)  # noqa: B905 (hot)
                if value > least
            ]
            whole = sum([weight for weight, _ in near])
            for weight, plan in near:
                for place in plan:
                    wanted[place] += weight / whole * seconds
        return wanted

    @staticmethod
    def _costs(prices: Sequence[float], plans: Sequence[AskingPlan]) -> list[float]:
        """The price of each plan for every second that a question takes."""
        return [sum([prices[place] for place in plan]) for plan in plans]


def _step(wanted: float, room: float, turn: int) -> float:
    """The factor on a price: dearer where more is asked for than there is, cheaper where less."""
    over = max(-1.0, min(1.0, wanted / room - 1.0))
    return exp(0.6 * over / (1.0 + turn / 4.0))
