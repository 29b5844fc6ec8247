"""Whether nobody is given up, and what that costs: the planner against the plan with no rule.

    python tests/bench/everyone.py runs.jsonl --first-seed 640         # 14 seeds, six families
    python tests/bench/everyone.py runs.jsonl --first-seed 640 --hard  # learners given up before
    python tests/bench/everyone.py runs.jsonl --report

Both policies meet the same people on the same days. Every run is kept as a line of the file, so
that it goes on where it stopped. Shown: exam-day marks in 100 and the paired difference with its
95 % interval over seeds; the least part of the minutes used by anybody, minutes left because all
is held counting as used; the skills met; the misses asked again within four days. Rules were
chosen on seeds from 9600 on.
"""

from __future__ import annotations

import argparse
import json
from collections import defaultdict
from collections.abc import Iterator, Mapping
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

from drill.planning import Choice, Planner, SkillPlan
from drill.planning.nothing_to_ask import Why, why_nothing
from tests.lab import LEARNERS, SCENARIOS, Scenario, run
from tests.lab.comparison import interval, mean
from tests.lab.hard_cases import HARD_CASES, PlanOnly, place_of
from tests.lab.scenarios import DECK
from tests.lab.simulation import LogRow

SEEDS = 14
PLACES = {"deck": DECK, **SCENARIOS}
POLICIES: Mapping[str, type[Planner]] = {"plan only": PlanOnly, "ours": Planner}
BACK = timedelta(days=4)

Key = tuple[str, str, int, str]
"""Scenario, learner, seed, policy."""


def watched(made: type[Planner], lost: list[float]) -> Any:
    """The planner, noting the seconds of each session that it left though not all was held."""

    class Watched(made):  # type: ignore[misc,valid-type]
        def choose(self, now: datetime, extra: bool = False, wanted: bool = False) -> Choice | None:
            choice: Choice | None = super().choose(now, extra, wanted)
            left = 60.0 * self.minutes_per_day - self.past.spent(now)
            idle = choice is None and left > 0.0
            if idle and why_nothing(self, now, spent=False).why is not Why.HELD:
                lost.append(left)
            return choice

    def policy(skills: Mapping[str, SkillPlan], exam: datetime, minutes: float) -> Planner:
        return Watched(skills, exam, minutes)

    return policy


def measure(key: Key) -> dict[str, float]:
    """One learner with one planner up to the exam."""
    name, who, seed, policy = key
    place = place_of(who, PLACES[name])
    make = HARD_CASES.get(who) or LEARNERS[who]
    lost: list[float] = []
    outcome = run(watched(POLICIES[policy], lost), make(seed), place, seed)
    there = len(place.sessions(seed)) * 60.0 * place.minutes_per_day
    met = {row[0] for row in outcome.log if row[3] is not None}
    misses, back = returned(outcome.log, place)
    return {
        "share": outcome.exam_share,
        "used": 1.0 - sum(lost) / there,
        "met": len(met) / len(place.skills),
        "misses": misses,
        "back": back,
    }


def returned(log: tuple[LogRow, ...], place: Scenario) -> tuple[int, int]:
    """Misses with four days left to the exam, and how many were asked again within them."""
    asked: dict[str, list[tuple[datetime, float]]] = defaultdict(list)
    for skill, _, when, score in log:
        if score is not None:
            asked[skill].append((when, score))
    misses = back = 0
    for row in asked.values():
        for (when, score), (later, _) in zip(row, [*row[1:], (place.exam, 0.0)], strict=True):
            if score < 0.5 and when + BACK < place.exam:
                misses += 1
                back += later - when <= BACK
    return misses, back


def main() -> None:
    """Run what is missing, then the tables."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("file", type=Path)
    parser.add_argument("--first-seed", type=int, default=640)
    parser.add_argument("--seeds", type=int, default=SEEDS)
    parser.add_argument("--hard", action="store_true")
    parser.add_argument("--scenario", default=",".join(PLACES))
    parser.add_argument("--policy", default=",".join(POLICIES))
    parser.add_argument("--report", action="store_true")
    given = parser.parse_args()
    kept = read(given.file)
    if not given.report:
        for key in keys(given):
            if key not in kept:
                kept[key] = measure(key)
                with given.file.open("a", encoding="utf-8") as file:
                    file.write(json.dumps([*key, kept[key]]) + "\n")
    report(kept)


def read(path: Path) -> dict[Key, dict[str, float]]:
    kept = {}
    if path.exists():
        for line in path.read_text(encoding="utf-8").splitlines():
            place, who, seed, policy, row = json.loads(line)
            kept[place, who, seed, policy] = row
    return kept


def keys(given: argparse.Namespace) -> Iterator[Key]:
    for seed in range(given.first_seed, given.first_seed + given.seeds):
        for place in given.scenario.split(","):
            for who in HARD_CASES if given.hard else LEARNERS:
                for policy in given.policy.split(","):
                    yield place, who, seed, policy


def report(kept: Mapping[Key, Mapping[str, float]]) -> None:
    """A line for each scenario and learner, then each scenario over the six families."""
    print(
        f"{'':26}{'policy':11}{'share':>6}{'used':>7}{'least':>6}{'met':>7}{'least':>6}{'back':>6}"
    )
    for place in PLACES:
        for whos in ([one] for one in (*HARD_CASES, *LEARNERS)):
            lines(kept, place, whos)
        lines(kept, place, list(LEARNERS))
    lines(kept, "", list(LEARNERS))


def lines(kept: Mapping[Key, Mapping[str, float]], place: str, whos: list[str]) -> None:
    """One line a policy, and the paired difference; a seed counts as one."""
    groups: dict[str, dict[Key, Mapping[str, float]]] = {}
    for policy in POLICIES:
        groups[policy] = {
            (*key[:3], ""): row
            for key, row in kept.items()
            if key[3] == policy and key[1] in whos and place in ("", key[0])
        }
        rows = list(groups[policy].values())
        if rows:
            told = f"{place or 'together'} {whos[0] if len(whos) == 1 else 'all families'}"
            shown = [mean([row[name] for row in rows]) for name in ("share", "used", "met")]
            least = [min(row[name] for row in rows) for name in ("used", "met")]
            back = sum(row["back"] for row in rows) / max(1.0, sum(row["misses"] for row in rows))
            print(
                f"{told:26}{policy:11}{100 * shown[0]:6.2f}{shown[1]:7.3f}{least[0]:6.2f}"
                f"{shown[2]:7.3f}{least[1]:6.2f}{back:6.2f}"
            )
    both = groups["plan only"].keys() & groups["ours"].keys()
    if both:
        apart: dict[int, list[float]] = defaultdict(list)
        for key in both:
            apart[key[2]].append(groups["ours"][key]["share"] - groups["plan only"][key]["share"])
        middle, off = interval([mean(some) for some in apart.values()])
        print(f"{'':26}ours - plan only {100 * middle:+.2f} ± {100 * off:.2f} points")


if __name__ == "__main__":
    main()
