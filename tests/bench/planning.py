"""How good the planner is, on simulated people that no number of it was tuned on.

    python tests/bench/planning.py people.jsonl                  # 12 people of each family
    python tests/bench/planning.py people.jsonl --minutes 9      # stop after 9 minutes; repeat
    python tests/bench/planning.py people.jsonl --report         # only the figures so far

Every run is kept as a line of the file, so that it goes on where it stopped; after a change of the
planner, `--forget "ours;shipped"`. A seed takes some four minutes of one processor, nearly all of
it for the plans that know more. The report counts people whom every policy and both family plans
met; bound and the plans that know the person are added where they were run. Shares are counted
from no practice at all:

    ours             weights fitted without the family that is judged (tests/bench/left_out.py)
    shipped          the weights that ship, for which all six families were seen
    best other       of the policies that do not know the learner, the best of each cell, chosen
                     on these very people, which flatters it
    family           the better of two plans that know the family and the lessons, but neither
                     person nor skill
    bound            no plan can pass it; where it is exact and proved

Intervals are 95 %: paired t over seeds, for ratios by leaving out one seed after the other.
Seeds from 500 on belong to this file; planner and rules were tuned on 9001 and above.
"""

from __future__ import annotations

import argparse
import json
import sys
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import partial
from math import isnan, nan
from pathlib import Path
from typing import Any

from left_out import left_out

from drill.memory import Memory, Weights
from drill.planning import Planner, SkillPlan, lessons
from tests.lab import (
    BOUND,
    LEARNERS,
    POLICIES,
    REFERENCES,
    SCENARIOS,
    Simulated,
    bound,
    exact,
    reference,
    run,
)
from tests.lab.comparison import interval, mean

FIRST_SEED, SEEDS = 500, 12
LEFT_OUT, SHIPPED, NOTHING = "ours", "shipped", "nothing"
FAMILY = tuple(name for name in REFERENCES if name.startswith("family"))
OTHERS = tuple(name for name in POLICIES if name not in ("ours", NOTHING))
EVERY = (NOTHING, *OTHERS, SHIPPED, LEFT_OUT, *REFERENCES, BOUND)
TARGETS = {"family": 0.95, "bound": 0.80}

Key = tuple[str, str, int, str]
Shares = dict[Key, float]
Cell = tuple[str, str]
"""Scenario and family."""


def main() -> None:
    """Run what is missing, then print the tables and the figures."""
    given = arguments()
    kept = read(given.people, given.forget)
    if not given.report:
        ends = time.monotonic() + 60.0 * given.minutes
        for key in missing(kept, given):
            if time.monotonic() > ends:
                break
            kept[key] = measure(key)
            with given.people.open("a", encoding="utf-8") as file:
                file.write(json.dumps([*key, kept[key]]) + "\n")
            print(f"\r{len(kept)} runs", end="", file=sys.stderr)
    report(kept)


def arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description="How good the planner is.")
    parser.add_argument("people", type=Path, help="File that keeps the runs, a line each.")
    parser.add_argument("--seeds", type=int, default=SEEDS)
    parser.add_argument("--first-seed", type=int, default=FIRST_SEED)
    parser.add_argument("--scenario", default=",".join(SCENARIOS))
    parser.add_argument("--policy", default=";".join(EVERY), help="With semicolons.")
    parser.add_argument("--minutes", type=float, default=1e9, help="Stop after so many.")
    parser.add_argument("--report", action="store_true", help="Run nothing.")
    parser.add_argument("--forget", default="", help="Policies to run again, with semicolons.")
    return parser.parse_args()


# -------------------------------------------------------------------- running


def read(path: Path, forget: str) -> Shares:
    """The runs kept in the file, without those of policies to run again."""
    kept: Shares = {}
    if path.exists():
        for line in path.read_text(encoding="utf-8").splitlines():
            scenario, family, seed, policy, share = json.loads(line)
            kept[scenario, family, seed, policy] = share
    again = set(forget.split(";")) & set(EVERY)
    if again:
        kept = {key: share for key, share in kept.items() if key[3] not in again}
        lines = [json.dumps([*key, share]) for key, share in kept.items()]
        path.write_text("".join(line + "\n" for line in lines), encoding="utf-8")
    return kept


def missing(kept: Shares, given: argparse.Namespace) -> Iterator[Key]:
    """What has still to be run, seed by seed, so that a stopped run can be reported."""
    for seed in range(given.first_seed, given.first_seed + given.seeds):
        for scenario in given.scenario.split(","):
            for family in LEARNERS:
                for policy in given.policy.split(";"):
                    key = (scenario, family, seed, policy)
                    if key not in kept and (policy != BOUND or has_bound(scenario, family)):
                        yield key


def has_bound(scenario: str, family: str) -> bool:
    return exact(Simulated(family, 0), SCENARIOS[scenario])


def measure(key: Key) -> float:
    """The exam share of one person under one policy; nan for a bound that was not proved."""
    name, family, seed, policy = key
    person, scenario = Simulated(family, seed), SCENARIOS[name]
    if policy == BOUND:
        found = bound(person, scenario, seed)
        return found.share if found.proved else nan
    made: Any = policy
    if policy in REFERENCES:
        made = reference(policy, person, scenario)
    elif policy == LEFT_OUT:
        made = partial(planner, left_out(family))
    elif policy == SHIPPED:
        made = "ours"
    return run(made, person, scenario, seed).exam_share


def planner(
    weights: Weights, skills: Mapping[str, SkillPlan], exam: Any, minutes_per_day: float
) -> Planner:
    """Our planner, beginning with these weights."""
    memory = Memory(weights, lessons(skills))
    return Planner(skills, exam, minutes_per_day, memory=memory)


# -------------------------------------------------------------------- figures


class People:
    """Shares by cell and seed, of the seeds on which everything was run."""

    def __init__(self, kept: Shares) -> None:
        self.kept = kept
        self.seeds: dict[Cell, list[int]] = {}
        for scenario in SCENARIOS:
            for family in LEARNERS:
                needed = (NOTHING, *OTHERS, SHIPPED, LEFT_OUT, *FAMILY)
                seeds = sorted({key[2] for key in kept if key[:2] == (scenario, family)})
                whole = [s for s in seeds if all((scenario, family, s, p) in kept for p in needed)]
                if whole:
                    self.seeds[scenario, family] = whole

    def shares(self, cell: Cell, policy: str, without: int | None = None) -> list[float]:
        return [self.kept[*cell, s, policy] for s in self.seeds[cell] if s != without]

    def share(self, cell: Cell, policy: str, without: int | None = None) -> float:
        return mean(self.shares(cell, policy, without))

    def best(self, cell: Cell, policies: Sequence[str], without: int | None = None) -> str:
        return max(policies, key=lambda policy: self.share(cell, policy, without))

    def bounded(self, cell: Cell) -> bool:
        """Whether there is a proved bound for all of the cell's people."""
        bounds = [self.kept.get((*cell, seed, BOUND), nan) for seed in self.seeds[cell]]
        return not any(isnan(share) for share in bounds)

    def part(self, cell: Cell, ours: str, of: Sequence[str], without: int | None = None) -> float:
        """How much of the way from nothing to the best of some policies ours goes."""
        nothing = self.share(cell, NOTHING, without)
        top = self.share(cell, self.best(cell, of, without), without)
        return (self.share(cell, ours, without) - nothing) / (top - nothing)


def report(kept: Shares) -> None:
    """All tables and figures."""
    people = People(kept)
    if not people.seeds:
        print("\nno person has met every policy yet")
        return
    print()
    for scenario in SCENARIOS:
        table(people, scenario)
    for ours in (LEFT_OUT, SHIPPED):
        told = "weights fitted without the judged family" if ours == LEFT_OUT else "shipped weights"
        conclude(people, ours, told)
    passed(people)


def table(people: People, scenario: str) -> None:
    """A line a family: shares in per cent, differences in points."""
    cells = [cell for cell in people.seeds if cell[0] == scenario]
    if not cells:
        return
    print(f"{scenario}, seeds {people.seeds[cells[0]]}")
    print(
        f"{'':11}{'nothing':>8}{'equal':>7}{'other':>7}{'ours':>7}{'shipped':>8}{'family':>7}"
        f"{'bound':>7}  {'ours-other':>12}  best other      of family  of bound  equal/best"
    )
    for cell in cells:
        other, family = people.best(cell, OTHERS), people.best(cell, FAMILY)
        shown = [people.share(cell, p) for p in (NOTHING, "equal spacing", other)]
        shown += [people.share(cell, p) for p in (LEFT_OUT, SHIPPED, family)]
        widths = (8, 7, 7, 7, 8, 7)
        numbers = "".join(f"{100 * v:{w}.1f}" for v, w in zip(shown, widths, strict=True))
        top = f"{100 * people.share(cell, BOUND):7.1f}" if people.bounded(cell) else " " * 7
        of_bound = f"{people.part(cell, LEFT_OUT, [BOUND]):9.3f}" if top.strip() else " " * 9
        print(
            f"{cell[1]:11}{numbers}{top}  {told(above(people, [cell], LEFT_OUT)):>12}  {other:14}"
            f"{people.part(cell, LEFT_OUT, FAMILY):11.3f}{of_bound}"
            f"{people.part(cell, 'equal spacing', [*FAMILY, LEFT_OUT]):11.2f}"
        )
    print()


def above(people: People, cells: Sequence[Cell], ours: str) -> tuple[float, float]:
    """Points by which ours is above the best other of each cell, a mean over cells, paired."""
    best = {cell: people.best(cell, OTHERS) for cell in cells}
    return over_seeds(
        people,
        cells,
        lambda cell, seed: people.kept[*cell, seed, ours] - people.kept[*cell, seed, best[cell]],
    )


def over_seeds(
    people: People, cells: Sequence[Cell], value: Callable[[Cell, int], float]
) -> tuple[float, float]:
    """In points; families of one seed share their missed days, so a seed counts as one."""
    common = set.intersection(*(set(people.seeds[cell]) for cell in cells))
    means = [mean([value(cell, seed) for cell in cells]) for seed in sorted(common)]
    middle, off = interval(means)
    return 100.0 * middle, 100.0 * off if len(means) > 1 else nan


def told(value: tuple[float, float]) -> str:
    return f"{value[0]:+.1f} ± {value[1]:.1f}"


def conclude(people: People, ours: str, name: str) -> None:
    """The figures over learners and scenarios."""
    cells = list(people.seeds)
    bounded = [cell for cell in cells if people.bounded(cell)]
    print(f"Ours with {name}:")
    for what, some, of in (("family", cells, FAMILY), ("bound", bounded, [BOUND])):
        if some:
            middle, off = ratio(people, some, ours, of)
            verdict = "reached" if middle >= TARGETS[what] else "missed"
            print(f"  of the {what}: {middle:.3f} ± {off:.3f} ({TARGETS[what]}: {verdict})")
    for family in LEARNERS:
        here = [cell for cell in cells if cell[1] == family]
        if here:
            equal = over_seeds(people, here, partial(against_equal, people, ours))
            points = told(above(people, here, ours))
            print(
                f"  {family:11} {points:>12} over the best other, {told(equal)} over equal spacing"
            )
    print()


def against_equal(people: People, ours: str, cell: Cell, seed: int) -> float:
    return people.kept[*cell, seed, ours] - people.kept[*cell, seed, "equal spacing"]


def ratio(
    people: People, cells: Sequence[Cell], ours: str, of: Sequence[str]
) -> tuple[float, float]:
    """The mean over cells of the part of the way, and half its interval (jackknife)."""
    whole = mean([people.part(cell, ours, of) for cell in cells])
    seeds = sorted({seed for cell in cells for seed in people.seeds[cell]})
    if any(len(people.seeds[cell]) < 3 for cell in cells):
        return whole, nan
    count = len(seeds)
    pseudo = [
        count * whole - (count - 1) * mean([people.part(cell, ours, of, seed) for cell in cells])
        for seed in seeds
    ]
    return whole, interval(pseudo)[1]


def passed(people: People) -> None:
    """The most by which any policy passed a bound: it should be nothing."""
    over = [
        (people.kept[*cell, seed, policy] - people.kept[*cell, seed, BOUND], policy, *cell, seed)
        for cell in people.seeds
        if people.bounded(cell)
        for seed in people.seeds[cell]
        for policy in EVERY
        if policy != BOUND and (*cell, seed, policy) in people.kept
    ]
    if over:
        most, policy, scenario, family, seed = max(over)
        print(
            f"Nearest to its bound: {policy}, {family}, {scenario}, seed {seed}: "
            f"{100 * most:+.2f} points from it ({len(over)} runs)"
        )


if __name__ == "__main__":
    main()
