"""How often one drawn paper falls inside the 80 % range that was forecast for it.

    python tests/bench/ranges.py                    # 200 people of each family, about 40 minutes
    python tests/bench/ranges.py --seeds 20         # a rougher figure

Each person of `tests.lab` practises as `Planner` chooses, up to the exam, and misses days. At four
moments on the way (before the first question, after a quarter and a half of the days, on the last
evening) the planner says its range. On exam day one paper is drawn: questions of different skills
in random order until 60 marks, on templates never asked. Its marks fall independently, as in the
lab (the first figure), or hang together within a question, a third of them alike (the second).

Seeds from 3000 on belong to this file, those from 7000 on to fitting what the range is made of
(`--first-seed 7000`).
"""

from __future__ import annotations

import argparse
from collections import defaultdict
from collections.abc import Iterable, Mapping
from concurrent.futures import ProcessPoolExecutor
from datetime import datetime
from functools import partial
from random import Random
from typing import NamedTuple

from drill.planning import Choice, Forecast, Planner, SkillPlan
from tests.lab import LEARNERS, SCENARIOS, run

FIRST_SEED, PAPER_MARKS, ALIKE = 3000, 60.0, 1.0 / 3.0
MOMENTS = {"first": 0.0, "quarter": 0.25, "half": 0.5, "eve": 1.0}
LEAST, MOST, LEAST_FAMILY = 0.75, 0.88, 0.60


class Told(NamedTuple):
    """One forecast of one person, the true share, and the paper it was for."""

    scenario: str
    family: str
    moment: str
    expected: float
    low: float
    high: float
    truth: float
    paper: float
    alike: float

    @property
    def inside(self) -> bool:
        return self.low <= self.paper <= self.high

    @property
    def inside_alike(self) -> bool:
        return self.low <= self.alike <= self.high


class Watched(Planner):
    """A planner that says what it expects at the moments asked for."""

    def __init__(
        self,
        at: Mapping[str, datetime],
        said: dict[str, Forecast],
        skills: Mapping[str, SkillPlan],
        exam: datetime,
        minutes: float,
    ) -> None:
        super().__init__(skills, exam, minutes)
        self.at, self.said = at, said

    def choose(self, now: datetime, extra: bool = False) -> Choice | None:
        for moment, due in self.at.items():
            if moment not in self.said and now >= due:
                self.said[moment] = self.forecast(now)
        return super().choose(now, extra)


def person(scenario_name: str, family: str, seed: int) -> list[Told]:
    """One person from the first session to the paper."""
    scenario = SCENARIOS[scenario_name]
    sessions = scenario.sessions(seed)
    at = {name: sessions[round(part * (len(sessions) - 1))] for name, part in MOMENTS.items()}
    learner = LEARNERS[family](seed)
    said: dict[str, Forecast] = {}
    run(partial(Watched, at, said), learner, scenario, seed)
    shares = {skill: learner.chance(skill, scenario.exam) for skill in scenario.skills}
    marks = {skill: plan.marks for skill, plan in scenario.skills.items()}
    truth = sum(marks[skill] * share for skill, share in shares.items()) / sum(marks.values())
    paper, alike = (draw(shares, marks, seed, rho) for rho in (0.0, ALIKE))
    return [
        Told(scenario_name, family, name, f.expected, f.low, f.high, truth, paper, alike)
        for name, f in said.items()
    ]


def draw(shares: Mapping[str, float], marks: Mapping[str, float], seed: int, rho: float) -> float:
    """The share of marks earned on one paper of about 60 marks."""
    rng = Random(f"paper {seed}")
    earned = most = 0.0
    for skill in rng.sample(sorted(shares), len(shares)):
        together = rng.random() < shares[skill]
        for _ in range(int(marks[skill])):
            earned += together if rng.random() < rho**0.5 else rng.random() < shares[skill]
        most += marks[skill]
        if most >= PAPER_MARKS:
            break
    return earned / most


def cover(told: Iterable[Told]) -> float:
    rows = list(told)
    return sum(one.inside for one in rows) / len(rows)


def table(told: list[Told], by: str) -> dict[str, float]:
    """Cover by family, moment or scenario; prints it with the bias and the mean width."""
    groups: dict[str, list[Told]] = defaultdict(list)
    for one in told:
        groups[getattr(one, by)].append(one)
    for name, rows in groups.items():
        size = len(rows)
        bias = sum(one.expected - one.truth for one in rows) / size
        off = (sum((one.expected - one.truth) ** 2 for one in rows) / size) ** 0.5
        width = sum(one.high - one.low for one in rows) / size
        alike = sum(one.inside_alike for one in rows) / size
        print(
            f"  {name:<12} inside {cover(rows):5.1%}  marks alike {alike:5.1%}  "
            f"width {100 * width:4.1f}  expected - true {100 * bias:+5.1f} (rms {100 * off:4.1f})"
            f"  forecasts {size}"
        )
    return {name: cover(rows) for name, rows in groups.items()}


def main() -> None:
    """Everybody, then cover by family, moment and scenario."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seeds", type=int, default=200)
    parser.add_argument("--first-seed", type=int, default=FIRST_SEED)
    parser.add_argument("--scenario", default="one-week,four-weeks")
    parser.add_argument("--jobs", type=int, default=2)
    given = parser.parse_args()
    scenarios = given.scenario.split(",")
    seeds = range(given.first_seed, given.first_seed + given.seeds)
    # people take the scenarios in turn: so many runs a family, not so many a scenario
    tasks = [
        (scenarios[place % len(scenarios)], family, seed)
        for place, seed in enumerate(seeds)
        for family in LEARNERS
    ]
    with ProcessPoolExecutor(given.jobs) as pool:
        told = [one for rows in pool.map(person, *zip(*tasks, strict=True)) for one in rows]
    for by in ("scenario", "moment", "family"):
        print(f"by {by}")
        families = table(told, by)
    print("together")
    mean = cover(told)
    verdict = LEAST <= mean <= MOST and min(families.values()) >= LEAST_FAMILY
    print(
        f"inside {mean:.1%} on average ({LEAST:.0%} to {MOST:.0%}), least of a family "
        f"{min(families.values()):.1%} ({LEAST_FAMILY:.0%}): {'reached' if verdict else 'missed'}"
    )


if __name__ == "__main__":
    main()
