"""How often planted weaknesses are found: among the first three, or of the first four.

    python tests/bench/weakness.py                          # 4 people of each family
    python tests/bench/weakness.py --first-seed 660 --seeds 10

Each person practises in a deck of the lab (`--deck deck`: 40 skills, 28 days, 12 minutes; `--deck
topic`: 14 skills, 8 minutes) as `Planner` chooses,
with one skill or five planted 30 points lower and slow to learn. After 40 and 80 answers and at
the end the skills are ranked by their effect (`drill.planning.weakness`), by what is held today,
by the marks still to win on the day, the order the report had before, and by the truth.
"""

from __future__ import annotations

import argparse
from collections import defaultdict
from datetime import datetime
from random import Random
from typing import Any

from drill.planning import Choice, Planner
from drill.planning.weakness import weak_skills
from drill.planning.why_weak import Answer
from tests.lab import LEARNERS, run
from tests.lab.planted import ALIKE, Planted
from tests.lab.scenarios import DECK, TOPIC, Scenario

PLACES = {"deck": DECK, "topic": TOPIC}
MOMENTS = (40, 80, 9999)
Found = dict[tuple[int, str, int], list[float]]
"""{(planted, order, answers): shares of the first three, or four, that were planted}"""


class Watched(Planner):
    """A planner whose skills are ranked on the way."""

    def watch(self, person: Planted, found: Found) -> None:
        self.person, self.planted, self.found = person, person.planted, found
        self.told: dict[str, list[Answer]] = defaultdict(list)
        self.waiting = list(MOMENTS)

    def choose(self, now: datetime, extra: bool = False, wanted: bool = False) -> Choice | None:
        if self.memory.answers() >= self.waiting[0]:
            self.rank(now, self.waiting.pop(0))
        return super().choose(now, extra, wanted)

    def record(self, skill: str, template: str, when: datetime, score: float, *rest: Any) -> None:
        super().record(skill, template, when, score, *rest)
        self.told[skill].append(Answer(when, score))

    def rank(self, now: datetime, moment: int) -> None:
        rows = weak_skills(self.memory, self.told, now)
        ahead = self.forecast(now).per_skill
        lost = {row.skill: self.skills[row.skill].marks * (1 - ahead[row.skill][0]) for row in rows}
        orders = {
            "effect": [row.skill for row in rows],
            "held": [row.skill for row in sorted(rows, key=lambda row: row.held)],
            "truth": sorted(self.skills, key=lambda skill: self.person.chance(skill, now)),
            "marks to win": sorted(lost, key=lambda skill: -lost[skill]),
        }
        for name, order in orders.items():
            self.found.setdefault((len(self.planted), name, moment), []).append(self.hit(order))

    def hit(self, order: list[str]) -> float:
        if len(self.planted) == 1:
            return float(bool(self.planted & set(order[:3])))
        return float(len(self.planted & set(order[:4])))


def person(place: Scenario, family: str, seed: int, count: int, alike: float, found: Found) -> None:
    """One person with so many planted skills."""
    planted = Random(f"planted {seed} {count}").sample(sorted(place.skills), count)
    learner = Planted(family, seed, planted, alike)
    made: list[Watched] = []

    def policy(*given: Any) -> Watched:
        made.append(Watched(*given))
        made[0].watch(learner, found)
        return made[0]

    run(policy, learner, place, seed)
    made[0].rank(place.exam, MOMENTS[-1])


def main() -> None:
    """Everybody, then a line for each number planted and each order."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--first-seed", type=int, default=660)
    parser.add_argument("--seeds", type=int, default=4)
    parser.add_argument("--spread", type=float, default=ALIKE, help="Of the other skills.")
    parser.add_argument("--deck", choices=PLACES, default="deck")
    given = parser.parse_args()
    found: Found = {}
    for seed in range(given.first_seed, given.first_seed + given.seeds):
        for family in LEARNERS:
            for count in (1, 5):
                person(PLACES[given.deck], family, seed, count, given.spread, found)
    for (count, name, moment), hits in sorted(found.items()):
        told = "planted among first 3" if count == 1 else "planted of first 4"
        when = f"{moment} answers" if moment < MOMENTS[-1] else "the end"
        share = sum(hits) / len(hits)
        print(f"{count} planted, {name:13} at {when:11} {told} {share:.2f} ({len(hits)})")


if __name__ == "__main__":
    main()
