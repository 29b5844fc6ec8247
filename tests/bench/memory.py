"""How well memory predicts real answers, on a practice log given by its path.

    python tests/bench/memory.py path/to/practice_log.csv

The log: columns learner, unix_s, phase (practice or posttest), kc, item, result (1, 0 or S for
shown only), as in the public data object `largerawsample` of the R package LKT (CRAN, GPL-3; P. I.
Pavlik Jr. & L. G. Eglington). It is only measured against: no part of it, and no number fitted to
it, is in this project.
"""

from __future__ import annotations

import csv
import os
import sys
from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from math import log

from drill.memory import SHIPPED, Memory, Weights
from tests.lab import calibrate

FOLDS = 5
os.environ["OMP_NUM_THREADS"] = "1"  # small matrices: threads would only wait for each other


@dataclass
class Event:
    """One row of the log; `score` None: shown only."""

    skill: str
    template: str
    when: datetime
    score: float | None
    practice: bool

    def row(self) -> tuple[str, str, datetime, float | None]:
        return self.skill, self.template, self.when, self.score


@dataclass
class Told:
    """A prediction made before the answer was told, and the answer."""

    chance: float
    score: float
    practice: bool


def read(path: str) -> list[list[Event]]:
    """The log, one list a learner, in the order of the file."""
    learners: dict[str, list[Event]] = defaultdict(list)
    with open(path, encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            score = None if row["result"] == "S" else float(row["result"])
            when = datetime.fromtimestamp(int(row["unix_s"]), UTC)
            event = Event(row["kc"], row["item"], when, score, row["phase"] == "practice")
            learners[row["learner"]].append(event)
    return list(learners.values())


def online(weights: Weights, learners: Iterable[list[Event]]) -> Iterator[Told]:
    """Each answer predicted, then told."""
    for events in learners:
        memory = Memory(weights)
        for event in events:
            if event.score is None:
                memory.expose(event.skill, event.template, event.when)
                continue
            chance = memory.chance(event.skill, event.template, event.when)
            yield Told(chance, event.score, event.practice)
            memory.observe(event.skill, event.template, event.when, event.score)


def auc(told: list[Told]) -> float:
    """How often a right answer was given the higher chance than a wrong one; ties count half."""
    order = sorted(told, key=lambda one: one.chance)
    right = sum(one.score for one in told)
    rank, below, place = 0.0, 0, 0
    while place < len(order):
        end = place
        while end < len(order) and order[end].chance == order[place].chance:
            end += 1
        middle = below + (end - place + 1) / 2.0
        rank += middle * sum(one.score for one in order[place:end])
        below, place = below + end - place, end
    return (rank - right * (right + 1) / 2.0) / (right * (len(told) - right))


def nll(told: list[Told]) -> float:
    return -sum(log(t.chance if t.score else 1.0 - t.chance) for t in told) / len(told)


def brier(told: list[Told]) -> float:
    return sum((t.chance - t.score) ** 2 for t in told) / len(told)


def worst_bin(told: list[Told], bins: int = 10) -> float:
    """The furthest a tenth of the answers, by chance, lies from its mean chance."""
    order = sorted(told, key=lambda one: one.chance)
    parts = [order[len(order) * n // bins : len(order) * (n + 1) // bins] for n in range(bins)]
    return max(abs(sum(t.chance - t.score for t in part)) / len(part) for part in parts)


def report(name: str, told: list[Told]) -> None:
    print(
        f"{name:44} AUC {auc(told):.4f}  NLL {nll(told):.4f}  Brier {brier(told):.4f}  "
        f"worst tenth {worst_bin(told):.3f}  answers {len(told)}"
    )


def base_rate(told: list[Told]) -> list[Told]:
    mean = sum(t.score for t in told) / len(told)
    return [Told(mean, t.score, t.practice) for t in told]


def folds(learners: list[list[Event]], practice_only: bool) -> list[Told]:
    """Weights from four fifths of the learners, predictions for the fifth never seen."""
    told: list[Told] = []
    for fold in range(FOLDS):
        seen = [events for place, events in enumerate(learners) if place % FOLDS != fold]
        logs = [[e.row() for e in events if e.practice or not practice_only] for events in seen]
        unseen = [events for place, events in enumerate(learners) if place % FOLDS == fold]
        told += online(calibrate(logs), unseen)
    return told


def main() -> None:
    """All figures, each on a line."""
    learners = read(sys.argv[1])
    shipped = list(online(SHIPPED, learners))
    report("base rate", base_rate(shipped))
    report("shipped weights, nothing fitted", shipped)
    report(f"unseen learners, {FOLDS} folds", folds(learners, practice_only=False))
    later = [t for t in folds(learners, practice_only=True) if not t.practice]
    report("the same fitted to practice only, later test", later)
    weights = calibrate([[e.row() for e in events if e.practice] for events in learners])
    later = [told for told in online(weights, learners) if not told.practice]
    report("these learners' practice, their later test", later)


if __name__ == "__main__":
    main()
