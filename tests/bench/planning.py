"""How good the planner is, on simulated people no number of it was tuned on.

    python tests/bench/planning.py                 # 12 people of each family, about 15 minutes
    python tests/bench/planning.py --seeds 40      # narrower intervals

Every share is counted from no practice at all. The figures:

    ours / best plan knowing the family     the larger of two references that know the family and
                                            the lessons, but neither person nor skill
    ours / bound                            where the bound is exact and proved
    ours - best other                       the best of the policies that do not know the learner,
                                            chosen on these very people (which flatters it)

Seeds from 500 on belong to this file. The lab tuned on 9001 to 9003, weights are fitted on
learners of a simulation of their own (tests/bench/simulate.py).
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence

from drill.lab import BOUND, LEARNERS, POLICIES, REFERENCES, SCENARIOS, Row, compare

FIRST_SEED = 500
TARGETS = {"family": 0.95, "bound": 0.80}
Cells = dict[tuple[str, str, str], Row]


def main() -> None:
    """Run everything, print the tables and the figures."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seeds", type=int, default=12)
    parser.add_argument("--scenario", default=",".join(SCENARIOS))
    parser.add_argument("--jobs", type=int, default=2)
    given = parser.parse_args()
    scenarios = given.scenario.split(",")
    rows = compare(
        scenarios,
        list(LEARNERS),
        [*POLICIES, *REFERENCES, BOUND],
        range(FIRST_SEED, FIRST_SEED + given.seeds),
        given.jobs,
        lambda done, of: print(f"\r{done} of {of} people", end="", file=sys.stderr),
    )
    cells = {(row.scenario, row.learner, row.policy): row for row in rows}
    print(f"\n{given.seeds} people of each family, seeds from {FIRST_SEED}\n")
    for scenario in scenarios:
        table(cells, scenario)
    figures(cells, scenarios)


def table(cells: Cells, scenario: str) -> None:
    """Shares by policy and family, in per cent."""
    families = [*LEARNERS, "all"]
    print(f"{scenario:<22}" + "".join(f"{family[:6]:>8}" for family in families) + "   ours more")
    for policy in (*POLICIES, *REFERENCES, BOUND):
        shown = [cells.get((scenario, family, policy)) for family in families]
        line = "".join(f"{100 * row.share:8.1f}" if row else " " * 8 for row in shown)
        last = shown[-1]
        more = f"   {100 * last.ours_more:+5.1f} ± {100 * last.ours_off:.1f}" if last else ""
        print(f"{policy:<22}{line}{more}")
    print()


def figures(cells: Cells, scenarios: Sequence[str]) -> None:
    """The three figures, by scenario and together."""
    known: list[float] = []
    bounded: list[float] = []
    for scenario in scenarios:
        here = {family: against_family(cells, scenario, family) for family in LEARNERS}
        known += here.values()
        tops = {
            family: cells[scenario, family, "ours"].of_bound
            for family in LEARNERS
            if (scenario, family, BOUND) in cells
        }
        bounded += [value for value in tops.values() if value is not None]
        print(f"{scenario}: ours / best plan knowing the family {told(here)}")
        if tops:
            print(f"{scenario}: ours / bound {told(tops)}")
        print(f"{scenario}: ours - best other: {against_others(cells, scenario)}")
    print()
    conclude("ours / best plan knowing the family", known, TARGETS["family"])
    conclude("ours / bound where exact", bounded, TARGETS["bound"])


def against_family(cells: Cells, scenario: str, family: str) -> float:
    """Our gain over the gain of the better plan that knows the family."""
    nothing = cells[scenario, family, "nothing"].share
    best = max(
        cells[scenario, family, name].share for name in REFERENCES if name.startswith("family")
    )
    return (cells[scenario, family, "ours"].share - nothing) / (best - nothing)


def against_others(cells: Cells, scenario: str) -> str:
    """The best other policy over all families, and by how much ours is above it."""
    others = [name for name in POLICIES if name != "ours"]
    best = max(others, key=lambda name: cells[scenario, "all", name].share)
    row = cells[scenario, "all", best]
    plain = cells[scenario, "all", "equal spacing"]
    return (
        f"{100 * row.ours_more:+.1f} ± {100 * row.ours_off:.1f} points over {best}; "
        f"{100 * plain.ours_more:+.1f} ± {100 * plain.ours_off:.1f} over equal spacing"
    )


def told(values: dict[str, float | None] | dict[str, float]) -> str:
    return ", ".join(f"{name[:6]} {value:.2f}" for name, value in values.items() if value)


def conclude(name: str, values: Sequence[float], target: float) -> None:
    if values:
        mean = sum(values) / len(values)
        verdict = "reached" if mean >= target else "missed"
        print(f"{name}: {mean:.3f} on average (target {target}: {verdict})")


if __name__ == "__main__":
    main()
