"""Compares policies by the exam-day share they lead to, on the same simulated people.

    python -m tests.bench.compare --scenario one-week --learner delta,procedure --seeds 2

Left out, every scenario, learner and policy takes part; that takes some minutes. Share: of the
exam's marks, in per cent. Way: how far a policy comes, in per cent, from no practice to the best
plan that was run. Names with a comma are no rivals: "knowing" plans look into the head, "family"
plans know what kind of learner it is. Bound: no plan can pass it. ± is half a 95 % interval.
"""

from __future__ import annotations

import argparse
import json
import os
import sys

from rich.console import Console
from rich.table import Table

from tests.lab import BOUND, LEARNERS, POLICIES, REFERENCES, SCENARIOS, Row, as_rows, compare


def main() -> None:
    """Read the options, run the comparison, print a table for each scenario or all as JSON."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--scenario", default="", help=f"of {', '.join(SCENARIOS)}")
    parser.add_argument("--learner", default="", help=f"of {', '.join(LEARNERS)}")
    parser.add_argument("--policy", default="", help=f"of {', '.join(POLICIES)}")
    parser.add_argument("--seeds", type=int, default=3, help="people of each kind")
    parser.add_argument("--first-seed", type=int, default=1)
    parser.add_argument("--jobs", type=int, default=os.cpu_count() or 1)
    parser.add_argument("--no-references", action="store_true")
    parser.add_argument("--json", action="store_true")
    chosen = parser.parse_args()
    names = _names(chosen.policy) or [*POLICIES]
    if not chosen.no_references:
        names += [name for name in (*REFERENCES, BOUND) if name not in names]
    rows = compare(
        _names(chosen.scenario) or [*SCENARIOS],
        _names(chosen.learner) or [*LEARNERS],
        names,
        range(chosen.first_seed, chosen.first_seed + chosen.seeds),
        chosen.jobs,
        _progress,
    )
    if chosen.json:
        print(json.dumps(as_rows(rows), indent=2))
    else:
        show(rows)


def show(rows: list[Row]) -> None:
    """A table for each scenario: a row for each policy and kind of learner."""
    for scenario in dict.fromkeys(row.scenario for row in rows):
        table = Table(title=scenario)
        for head in ("policy", "learner", "share", "way", "ours above it by", "minutes"):
            table.add_column(head)
        for row in rows:
            if row.scenario == scenario:
                table.add_row(*_cells(row))
        Console().print(table)


def _cells(row: Row) -> tuple[str, ...]:
    return (
        row.policy,
        row.learner,
        f"{100 * row.share:.1f}{_off(row.off)}",
        f"{100 * row.way:.0f}",
        f"{100 * row.ours_more:+.1f}{_off(row.ours_off)}",
        f"{row.minutes:.0f}" if row.minutes else "",
    )


def _off(half: float) -> str:
    return f" ± {100 * half:.1f}" if half else ""


def _names(text: str) -> list[str]:
    return [name.strip() for name in text.split(",") if name.strip()]


def _progress(done: int, of: int) -> None:
    if done == of or done % 20 == 0:
        sys.stderr.write(f"{done} of {of} people\n")


if __name__ == "__main__":
    main()
