"""How far off the two figures are, how often their ranges hold, and how much they jump.

    python tests/bench/figures.py rows.jsonl                     # 3 people of each kind
    python tests/bench/figures.py rows.jsonl --first-seed 690 --seeds 8
    python tests/bench/figures.py rows.jsonl --report

People of the six families and those whom planners give up (`tests.lab.hard_cases`) practise in the
lab's deck (40 skills, 28 days, 12 minutes a day) as `Planner` chooses. When a session begins with
20, 40 or 80 answers or more, what is said to be held today is compared with the true share of that
moment, and what is shown for the day with the true share of the exam. Low scorers are those right
on 70 % of their marks or less until then. Jumps are those of the day's figure between sessions,
from 40 answers on, as shown and as it would be unsmoothed.

What the ranges are made of was fitted on seeds 9710 to 9716.
"""

from __future__ import annotations

import argparse
import json
from collections.abc import Callable, Iterable
from datetime import date, datetime
from pathlib import Path
from typing import Any

from drill.planning import Choice, Planner
from drill.planning.figures import DAY_FROM, Kept, figures
from tests.lab import LEARNERS, run
from tests.lab.hard_cases import HARD_CASES, place_of
from tests.lab.scenarios import DECK

MOMENTS = (20, 40, 80)
Row = dict[str, Any]


class Watched(Planner):
    """A planner whose figures are noted as each session begins."""

    def watch(self, person: Any) -> None:
        self.person, self.rows, self.jumps = person, list[Row](), list[tuple[float, float]]()
        self.kept: Kept | None = None
        self.got, self.of, self.raw, self.seen = 0.0, 0.0, 0.0, date.min
        self.waiting = list(MOMENTS)

    def choose(self, now: datetime, extra: bool = False, wanted: bool = False) -> Choice | None:
        if now.date() != self.seen:
            self.seen = now.date()
            self.note(now)
        return super().choose(now, extra, wanted)

    def record(self, skill: str, template: str, when: datetime, score: float, *rest: Any) -> None:
        super().record(skill, template, when, score, *rest)
        self.got += self.skills[skill].marks * score
        self.of += self.skills[skill].marks

    def note(self, now: datetime) -> None:
        found = figures(self, now, self.kept)
        if found.held is None:
            return
        raw = self.forecast(now)
        if found.kept and self.kept:
            self.jumps.append((found.kept.share - self.kept.share, raw.expected - self.raw))
        self.kept, self.raw = found.kept, raw.expected
        if not self.waiting or found.answers < self.waiting[0]:
            return
        moment = self.waiting.pop(0)
        total = sum(plan.marks for plan in self.skills.values())
        true = sum(p.marks * self.person.chance(skill, now) for skill, p in self.skills.items())
        day = found.on_the_day
        self.rows.append(
            {
                "at": moment,
                "right": self.got / self.of,
                "held": [*vars(found.held).values()],
                "true_held": true / total,
                "day": [*vars(day).values()] if day and moment >= DAY_FROM else None,
                "raw": raw.expected,
            }
        )


def person(who: str, seed: int) -> list[Row]:
    """The rows of one person."""
    place = place_of(who, DECK)
    learner = (HARD_CASES.get(who) or LEARNERS[who])(seed)
    made: list[Watched] = []

    def policy(*given: Any) -> Watched:
        made.append(Watched(*given))
        made[0].watch(learner)
        return made[0]

    truth = run(policy, learner, place, seed).exam_share
    told = [{**row, "who": who, "seed": seed, "truth": truth} for row in made[0].rows]
    return [*told, {"who": who, "seed": seed, "at": 0, "jumps": made[0].jumps}]


def main() -> None:
    """Run what is missing, then the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("file", type=Path)
    parser.add_argument("--first-seed", type=int, default=680)
    parser.add_argument("--seeds", type=int, default=3)
    parser.add_argument("--report", action="store_true")
    given = parser.parse_args()
    rows = [json.loads(line) for line in given.file.open()] if given.file.exists() else []
    done = {(row["who"], row["seed"]) for row in rows}
    for seed in range(given.first_seed, given.first_seed + given.seeds):
        for who in (*LEARNERS, *HARD_CASES):
            if not given.report and (who, seed) not in done:
                found = person(who, seed)
                rows += found
                with given.file.open("a", encoding="utf-8") as file:
                    file.writelines(json.dumps(row) + "\n" for row in found)
    report(rows)


GROUPS: dict[str, Callable[[Row], bool]] = {
    "families": lambda row: row["who"] in LEARNERS,
    "hard cases": lambda row: row["who"] in HARD_CASES,
    "low scorers": lambda row: row["right"] <= 0.7,
    "all": lambda row: True,
}


def report(rows: list[Row]) -> None:
    """Mean error, root mean square error and cover, in points of 100; then the jumps."""
    for moment in MOMENTS:
        for name, belongs in GROUPS.items():
            some = [row for row in rows if row["at"] == moment and belongs(row)]
            if some:
                held = errors((row["held"], row["true_held"]) for row in some)
                day = errors((row["day"], row["truth"]) for row in some if row["day"])
                print(f"{moment:3} answers  {name:12} {len(some):3}  held {held}  on the day {day}")
    jumps = [jump for row in rows if row["at"] == 0 for jump in row["jumps"]]
    for name, place in (("shown", 0), ("unsmoothed", 1)):
        sizes = sorted(abs(jump[place]) for jump in jumps)
        if sizes:
            print(
                f"jumps {name:11} 90th percentile {100 * sizes[int(0.9 * len(sizes))]:.1f} points"
            )


def errors(told: Iterable[tuple[list[float], float]]) -> str:
    rows = list(told)
    if not rows:
        return "not shown"
    off = [share[0] - truth for share, truth in rows]
    size = (sum(one * one for one in off) / len(off)) ** 0.5
    inside = sum(share[1] <= truth <= share[2] for share, truth in rows) / len(rows)
    wide = sum(share[2] - share[1] for share, _ in rows) / len(rows)
    return (
        f"{100 * sum(off) / len(off):+5.1f} (rms {100 * size:4.1f}), inside {inside:.2f}, "
        f"{100 * wide:.0f} wide"
    )


if __name__ == "__main__":
    main()
