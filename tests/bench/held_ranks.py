"""Whether what is said to be held today ranks a learner's skills as the truth does.

    python tests/bench/held_ranks.py                              # 2 people of each family
    python tests/bench/held_ranks.py --first-seed 730 --seeds 4

People practise over ten weeks as `Planner` chooses. Once a week, as a session begins, the skills
asked so far are ranked by what is held and by the true chance of that moment: Spearman's rank
correlation, its mean over weeks and people, for each family.
"""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from datetime import datetime, timedelta
from typing import Any

from drill.planning import Choice, Planner
from tests.lab import LEARNERS, SCENARIOS, run
from tests.lab.comparison import mean

_LEAST = 10
"""Skills that have to be asked before they are ranked."""


class Watched(Planner):
    """A planner whose memory is held against the truth once a week."""

    def watch(self, person: Any) -> None:
        self.person, self.found = person, list[float]()
        self.due: datetime | None = None

    def choose(self, now: datetime, extra: bool = False, wanted: bool = False) -> Choice | None:
        if self.due is None or now >= self.due:
            self.due = now + timedelta(days=7)
            asked = [skill for skill, last in self.memory.last.items() if last.answers]
            if len(asked) >= _LEAST:
                held = [self.memory.held(skill, now) for skill in asked]
                self.found.append(spearman(held, [self.person.chance(s, now) for s in asked]))
        return super().choose(now, extra, wanted)


def spearman(one: Sequence[float], two: Sequence[float]) -> float:
    """The rank correlation of two rows of numbers; equal ones share their middle rank."""
    a, b = ranks(one), ranks(two)
    middle = (len(a) + 1) / 2.0
    both = sum((x - middle) * (y - middle) for x, y in zip(a, b, strict=True))
    spread = sum((x - middle) ** 2 for x in a) * sum((y - middle) ** 2 for y in b)
    return both / spread**0.5 if spread else 0.0


def ranks(numbers: Sequence[float]) -> list[float]:
    """The rank of each, from 1 on."""
    return [
        sum(other < one for other in numbers) + (sum(other == one for other in numbers) + 1) / 2.0
        for one in numbers
    ]


def person(family: str, seed: int) -> float:
    """The mean over the weeks of one person."""
    learner = LEARNERS[family](seed)
    made: list[Watched] = []

    def policy(*given: Any) -> Watched:
        made.append(Watched(*given))
        made[0].watch(learner)
        return made[0]

    run(policy, learner, SCENARIOS["ten-weeks"], seed)
    return mean(made[0].found)


def main() -> None:
    """A line for each family, then the mean of the families."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--first-seed", type=int, default=730)
    parser.add_argument("--seeds", type=int, default=2)
    given = parser.parse_args()
    seeds = range(given.first_seed, given.first_seed + given.seeds)
    found = {}
    for family in LEARNERS:
        found[family] = mean([person(family, seed) for seed in seeds])
        print(f"{family:12} {found[family]:.2f}", flush=True)
    print(f"{'mean':12} {mean(list(found.values())):.2f}")


if __name__ == "__main__":
    main()
