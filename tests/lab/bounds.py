"""No policy can do better: a price-on-time bound on the exam share of one learner.

Any prices on the seconds of each session give a bound: each skill by itself cannot gain more than
its best plan of practice days at these prices, and all plans together cannot use more seconds
than there are (Whittle 1988, Journal of Applied Probability 25A; Adelman & Mersereau 2008,
Operations Research 56(3)). The lowest bound found over many prices is kept. It holds for the
expected share of every policy, even of one that knows the learner and the calendar beforehand.

It is offered only where every plan can be tried: families whose state does not depend on how
answers come out, few sessions, up to `most` practices of a skill, repeats within a session
included. That one more would not raise it is checked at the prices kept (`proved`). Worked answers
shown instead of questions asked are not tried: the scenarios have none. Practice is taken to happen
when its session ends; what that may be off by is a fifth of a point (`tests/bench/test_bounds.py`).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, exp

from drill.errors import DrillError
from tests.lab.learner import STEEPER, Simulated
from tests.lab.processes import Process, State, sigmoid
from tests.lab.scenarios import Scenario

LONGEST = 30
"""Days a scenario may have: with more there are too many plans to try them all."""
LEAST = 4
"""Practices of a skill that are tried; more where one more would raise the bound."""
_NODES = 150_000
"""No more practices are tried once there are so many plans."""
_AGAIN = 600.0
"""Seconds after which a skill may come again in the same session."""
_ROUNDS = 80
_GRAIN = 0.005
"""Logits are rounded up to this, so that few plans have to be kept: it only loosens the bound."""
_CEILING = 12.0

Plan = tuple[int, ...]
"""The sessions in which a skill is practised, by number."""
Offer = tuple[float, float, Plan]
"""A plan worth having: exam-day logit of the process, price of a second, the plan."""


@dataclass(frozen=True)
class Bound:
    """`share`: no policy's expected exam share is above it; `prices`: marks a second, by session.

    `proved`: one practice more than was tried raises no skill's best plan at these prices.
    """

    share: float
    proved: bool
    prices: tuple[float, ...]


def exact(learner: Simulated, scenario: Scenario) -> bool:
    """Whether a bound can be had for this learner in this scenario."""
    return not learner.process.outcome_matters and scenario.days <= LONGEST


def bound(learner: Simulated, scenario: Scenario, seed: int) -> Bound:
    """The bound for a learner who has not practised yet; `seed` draws the missed days.

    Raises:
        DrillError: the learner or the scenario is none that has a bound (see `exact`).
    """
    if not exact(learner, scenario):
        raise DrillError(
            f"no bound for {learner.family} learners in {scenario.name}: their state depends on "
            f"how answers come out, or there are more than {LONGEST} days."
        )
    problem = _Problem(learner, scenario, seed)
    for _ in range(LEAST):
        problem.grow()
    while True:
        prices = problem.best_prices()
        total, _ = problem.dual(prices)
        problem.grow()
        proved = problem.dual(prices)[0] <= total + 1e-9
        if proved or problem.nodes > _NODES:
            return Bound(total / problem.marks, proved, tuple(prices))


class _Problem:
    """The skills of one learner and the seconds of the sessions there will be."""

    def __init__(self, learner: Simulated, scenario: Scenario, seed: int) -> None:
        self.learner = learner
        self.exam = scenario.exam.timestamp()
        length = 60.0 * scenario.minutes_per_day
        self.sessions = [when.timestamp() + length for when in scenario.sessions(seed)]
        self.room = length
        self.skills: dict[float, list[tuple[float, float, float]]] = {}
        for skill, plan in scenario.skills.items():
            lesson = scenario.lessons[skill].timestamp()
            extra = learner.person + learner.easy(skill) - 2.0 * (1.0 - learner.transfer)
            row = (plan.marks, learner.seconds(skill), extra)
            self.skills.setdefault(lesson, []).append(row)
        self.plans = {lesson: self._begun(lesson) for lesson in self.skills}
        self.marks = sum(plan.marks for plan in scenario.skills.values())
        self.longest = max(learner.seconds(skill) for skill in scenario.skills)

    def _begun(self, lesson: float) -> _Plans:
        plans = _Plans(self.learner.process, self.sessions, self.exam)
        plans.begin(self.learner.process.shown(None, lesson)[0][1], lesson)
        return plans

    def grow(self) -> None:
        """Try one practice of each skill more."""
        for plans in self.plans.values():
            plans.grow()

    @property
    def nodes(self) -> int:
        """How many plans there are by now."""
        return sum(len(plans.places) for plans in self.plans.values())

    def dual(self, prices: Sequence[float]) -> tuple[float, list[float]]:
        """The bound in marks at these prices, and the seconds asked for in each session."""
        total, wanted = 0.0, [0.0] * len(prices)
        low, top = self.learner.guess, 1.0 - self.learner.careless
        for lesson, skills in self.skills.items():
            offers = self.plans[lesson].offers(prices)
            for marks, seconds, extra in skills:
                worth, plan = max(
                    (marks * (low + (top - low) * sigmoid(logit + extra)) - seconds * cost, plan)
                    for logit, cost, plan in offers
                )
                total += worth
                for session in plan:
                    wanted[session] += seconds
        # one question may run over; the next session pays for it, the last does not
        following = [*prices[1:], 0.0]
        over = sum(max(0.0, now - then) for now, then in zip(prices, following, strict=True))
        return total + self.room * sum(prices) + self.longest * over, wanted

    def best_prices(self) -> list[float]:
        """Prices that bring the bound down: dearer where too much is asked for, else cheaper.

        First one price for all sessions, then each by itself, with steps that would reach an
        aimed-at bound were the slope to last (Polyak 1969); the aim comes nearer when stuck.
        """
        price, count = 1.0 / 300.0, len(self.sessions)
        for turn in range(_ROUNDS // 3):
            _, wanted = self.dual([price] * count)
            asked = sum(wanted) / (self.room * count)
            price *= exp(max(-1.0, min(1.0, asked - 1.0)) / (1.0 + turn / 4.0))
        best = prices = [price] * count
        least, aim, stuck = float("inf"), 0.02, 0
        for _ in range(_ROUNDS):
            total, wanted = self.dual(prices)
            stuck += 1
            if total < least:
                least, best, stuck = total, prices, 0
            elif stuck >= 4:
                aim, stuck, prices = 0.6 * aim, 0, best
                total, wanted = self.dual(prices)
            slope = [self.room - asked for asked in wanted]
            step = (total - least * (1.0 - aim)) / (sum(part * part for part in slope) or 1.0)
            prices = [max(0.0, old - step * part) for old, part in zip(prices, slope, strict=True)]
        return best


class _Plans:
    """All plans for skills of one lesson, with the logit each leads to.

    Plans that leave the same state are one node: it knows the ways that lead to it, each a node
    with one practice less and the session of the practice between.
    """

    def __init__(self, process: Process, sessions: Sequence[float], exam: float) -> None:
        self.process, self.sessions, self.exam = process, sessions, exam
        self.places: list[int] = []
        self.ways: list[list[tuple[int, int]]] = []
        self._level: dict[tuple[State, int, float], int] = {}

    def begin(self, state: State, at: float) -> None:
        """The plan of no practice at all."""
        first = next((n for n, start in enumerate(self.sessions) if start > at), len(self.sessions))
        self._level = {(state, first, at): self._node(state)}

    def _node(self, state: State) -> int:
        logit = STEEPER * self.process.logit(state, self.exam)
        self.places.append(ceil(max(-_CEILING, min(_CEILING, logit)) / _GRAIN))
        self.ways.append([])
        return len(self.places) - 1

    def grow(self) -> None:
        """Let every plan of the most practices so far have one more."""
        level: dict[tuple[State, int, float], int] = {}
        for (state, first, last), node in self._level.items():
            for session in range(first, len(self.sessions)):
                at = max(self.sessions[session], last + _AGAIN)
                after = self.process.branches(state, at, 1.0)[0][1]
                key = (after, session, at)
                if key not in level:
                    level[key] = self._node(after)
                self.ways[level[key]].append((node, session))
        self._level = level

    def offers(self, prices: Sequence[float]) -> list[Offer]:
        """The plans that no other beats in both logit and price."""
        costs, chosen = [0.0], [(0, 0)]
        for ways in self.ways[1:]:
            way = ways[0] if len(ways) == 1 else min(ways, key=lambda w: costs[w[0]] + prices[w[1]])
            chosen.append(way)
            costs.append(costs[way[0]] + prices[way[1]])
        cheapest: dict[int, int] = {}
        for node, place in enumerate(self.places):
            if place not in cheapest or costs[node] < costs[cheapest[place]]:
                cheapest[place] = node
        offers: list[Offer] = []
        least = float("inf")
        for place in sorted(cheapest, reverse=True):
            node = cheapest[place]
            if costs[node] < least:
                least = costs[node]
                offers.append((place * _GRAIN, least, _plan(chosen, node)))
        return offers


def _plan(chosen: Sequence[tuple[int, int]], node: int) -> Plan:
    """The sessions of the cheapest way to a node."""
    plan: list[int] = []
    while node:
        node, session = chosen[node]
        plan.append(session)
    return tuple(plan)
