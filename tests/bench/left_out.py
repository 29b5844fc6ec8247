"""Weights fitted without one family of learners, to judge the planner on that family.

    python tests/bench/left_out.py            # fits all again, about five minutes, and compares
    python tests/bench/left_out.py --write    # and writes left_out.json

The logs are of people of the lab (`tests.lab`, seeds from 70000 on, which no figure uses) in
scenarios of their own, practising by five habits that know nothing of the planner. Nothing that
is shipped reads this.
"""

from __future__ import annotations

import json
import os
import sys
from collections import Counter
from collections.abc import Iterable
from concurrent.futures import ProcessPoolExecutor
from functools import cache
from pathlib import Path
from random import Random

os.environ["OMP_NUM_THREADS"] = "1"  # small matrices: threads would only wait for each other

from fit_weights import PRIOR, SPREADS, rounded

from drill.memory import Weights
from drill.memory.weights import Level, Mechanism, Shape, Spread, Ways
from tests.lab import LEARNERS, Scenario, Simulated, run, scenario
from tests.lab.calibration import SHAPE_MOVES, fit_first, fit_second, walk
from tests.lab.fitting import Log

FILE = Path(__file__).with_suffix(".json")
PER_FAMILY, SEARCH_PER_FAMILY, SEED, SEARCH_SEED, PROBES = 30, 8, 70000, 75000, 8
HABITS = ("random", "equal spacing", "fixed order", "blocked cram", "published gap")


def left_out(family: str) -> Weights:
    """The weights fitted without that family."""
    return _kept()[family]


@cache
def _kept() -> dict[str, Weights]:
    rows = json.loads(FILE.read_text(encoding="utf-8"))["weights"]
    return {family: _weights(row) for family, row in rows.items()}


def _weights(row: dict[str, object]) -> Weights:
    kinds = {"shape": Shape, "spread": Spread, "mechanism": Mechanism, "ways": Ways}
    kinds |= {"skill": Level, "template": Level}
    parts = {name: kind(**row[name]) for name, kind in kinds.items()}
    return Weights(base=row["base"], **parts)


def life(family: str, number: int, first: int) -> Log:
    """The log of one person: each answer, then a few exam-day shares that weigh as much."""
    rng = Random(f"{family} {number} {first}")
    place = some_scenario(number, rng)
    person = Simulated(family, first + number)
    outcome = run(rng.choice(HABITS), person, place, first + number)
    seen: Counter[str] = Counter()
    rows: list[tuple[object, ...]] = []
    for row in outcome.log:
        seen[row[0]] += 1
        rows.append((*row, 0.0, 1.0 / seen[row[0]]))
    probes = rng.sample(list(place.skills), min(PROBES, len(place.skills)))
    weight = sum(1.0 / turn for most in seen.values() for turn in range(1, most + 1)) / len(probes)
    lessons = [(skill, None, when, None) for skill, when in place.lessons.items()]
    asked = [
        (skill, f"{skill}/exam", place.exam, person.chance(skill, place.exam), 0.0, weight, True)
        for skill in probes
    ]
    return [*lessons, *rows, *asked]


def some_scenario(number: int, rng: Random) -> Scenario:
    days, skills = rng.choice((7, 14, 28, 50, 70)), rng.randint(15, 80)
    minutes = rng.choice((5.0, 10.0, 15.0))
    taught = (-42, 0) if rng.random() < 0.6 else (-14, int(days * 0.8))
    return scenario(f"tr{number}", skills, days, minutes, taught)


def fitted(families: list[str]) -> Weights:
    """Weights fitted to the logs of these families alone."""
    some, every = lab_lives(families)

    def first(logs: object, weights: Weights) -> tuple[Weights, float]:
        return fit_first(logs, weights, PRIOR, False)  # type: ignore[arg-type]

    weights = walk(some, PRIOR, (*SHAPE_MOVES, *SPREADS), first)
    weights, _ = first(every, weights)
    return rounded(second(some, every, weights))


def lab_lives(families: Iterable[str] = tuple(LEARNERS)) -> tuple[list[Log], list[Log]]:
    """Logs to search with, and more to fit to."""
    names = list(families)
    some = [life(f, n, SEARCH_SEED) for f in names for n in range(SEARCH_PER_FAMILY)]
    return some, [life(f, n, SEED) for f in names for n in range(PER_FAMILY)]


def second(some: list[Log], every: list[Log], weights: Weights) -> Weights:
    """The second opinion: walked on some, then in smaller steps on all."""
    return fit_second(every, fit_second(some, weights), (0.25,))


def as_row(weights: Weights) -> dict[str, object]:
    parts = ("skill", "template", "shape", "spread", "mechanism", "ways")
    return {"base": weights.base} | {name: getattr(weights, name)._asdict() for name in parts}


def main() -> None:
    """Fit each again; say whether it is what is kept; write it when asked to."""
    rows = {}
    others = [[family for family in LEARNERS if family != left] for left in LEARNERS]
    with ProcessPoolExecutor(2) as pool:
        found = dict(zip(LEARNERS, pool.map(fitted, others), strict=True))
    for left in LEARNERS:
        rows[left] = as_row(found[left])
        same = "--write" not in sys.argv and _kept().get(left) == _weights(rows[left])
        print(f"without {left}: {'as kept' if same else 'not what is kept'}", flush=True)
    if "--write" in sys.argv[1:]:
        about = f"{PER_FAMILY} people of each of five families, seeds from {SEED}; see left_out.py"
        text = json.dumps({"about": about, "weights": rows}, indent=1)
        FILE.write_text(text + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
