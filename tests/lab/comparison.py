"""Policies against one another: the same people, the same missed days, 95 % intervals."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import asdict, dataclass
from math import sqrt
from typing import Any

from drill.errors import DrillError
from tests.lab.bounds import bound, exact
from tests.lab.learner import LEARNERS, Simulated
from tests.lab.policies import OURS, POLICIES
from tests.lab.references import REFERENCES, reference
from tests.lab.scenarios import SCENARIOS
from tests.lab.simulation import run

NOTHING, BOUND, ALL = "nothing", "bound", "all"
_T = (12.71, 4.30, 3.18, 2.78, 2.57, 2.45, 2.36, 2.31, 2.26, 2.23, 2.20, 2.18, 2.16, 2.14, 2.13)
"""Student's t for 95 %, 1 to 15 degrees of freedom."""

Job = tuple[str, str, int, tuple[str, ...]]
Cells = dict[str, tuple[float, float]]
"""{policy: (exam share, seconds used)} of one person in one scenario."""


@dataclass(frozen=True)
class Row:
    """One policy for one family (or all) in one scenario; shares 0..1.

    `off`: half the 95 % interval of `share`; `ours_more`, `ours_off`: by how much our planner is
    above this policy on the same people; `way`: how much of the way from no practice to the best
    plan known; `of_bound`: the same to the bound, None where there is none.
    """

    scenario: str
    learner: str
    policy: str
    share: float
    off: float
    ours_more: float
    ours_off: float
    way: float
    of_bound: float | None
    minutes: float


def compare(
    scenarios: Sequence[str],
    learners: Sequence[str],
    policies: Sequence[str],
    seeds: Iterable[int],
    jobs: int = 2,
    progress: Callable[[int, int], None] | None = None,
) -> list[Row]:
    """Rows for every scenario, learner (and all together) and policy.

    `policies`: names in `POLICIES`, `REFERENCES`, or "bound"; doing nothing and our planner are
    always run. `progress` hears how many of how many people are done.
    """
    _check(scenarios, learners, policies)
    missing = [name for name in (NOTHING, OURS) if name not in policies]
    names = tuple(dict.fromkeys((*missing, *policies)))
    work = [(place, who, seed, names) for place in scenarios for who in learners for seed in seeds]
    done: dict[Job, Cells] = {}
    for job, cells in zip(work, _results(work, jobs), strict=True):
        done[job] = cells
        if progress:
            progress(len(done), len(work))
    return [
        row
        for place in scenarios
        for who in (*learners, *([ALL] if len(learners) > 1 else []))
        for row in _rows(place, who, _by_seed(done, place, who))
    ]


def _check(scenarios: Sequence[str], learners: Sequence[str], policies: Sequence[str]) -> None:
    for given, known, what in (
        (scenarios, SCENARIOS, "scenario"),
        (learners, LEARNERS, "simulated learner"),
        (policies, (*POLICIES, *REFERENCES, BOUND), "policy"),
    ):
        for name in given:
            if name not in known:
                raise DrillError(f'no {what} "{name}". There are: {"; ".join(known)}.')


def _results(work: Sequence[Job], jobs: int) -> Iterable[Cells]:
    if jobs <= 1 or len(work) == 1:
        yield from map(measure, work)
        return
    with ProcessPoolExecutor(jobs) as pool:
        yield from pool.map(measure, work)


def measure(job: Job) -> Cells:
    """One person under every policy; a bound is left out where there is none."""
    place, family, seed, names = job
    scenario, cells = SCENARIOS[place], {}
    for name in names:
        person = Simulated(family, seed)
        if name == BOUND:
            if exact(person, scenario):
                found = bound(person, scenario, seed)
                if found.proved:
                    cells[name] = (found.share, 0.0)
            continue
        policy = reference(name, person, scenario) if name in REFERENCES else name
        outcome = run(policy, person, scenario, seed)
        cells[name] = (outcome.exam_share, outcome.seconds)
    return cells


# -------------------------------------------------------------------- from people to rows


def _by_seed(done: dict[Job, Cells], place: str, who: str) -> list[Cells]:
    """Each seed's cells, for all families their means; only what every person has."""
    seeds: dict[int, list[Cells]] = {}
    for (scenario, family, seed, _), cells in done.items():
        if scenario == place and who in (family, ALL):
            seeds.setdefault(seed, []).append(cells)
    every = [cells for people in seeds.values() for cells in people]
    names = [name for name in every[0] if all(name in cells for cells in every)]
    return [{name: _middle(people, name) for name in names} for people in seeds.values()]


def _middle(people: list[Cells], name: str) -> tuple[float, float]:
    return mean([cells[name][0] for cells in people]), mean([cells[name][1] for cells in people])


def _rows(place: str, who: str, people: list[Cells]) -> list[Row]:
    shares = {name: [cells[name][0] for cells in people] for name in people[0]}
    least = mean(shares[NOTHING])
    best = max(mean(values) for name, values in shares.items() if name != BOUND)
    top = mean(shares[BOUND]) if BOUND in shares else None
    rows = []
    for name, values in shares.items():
        share, off = interval(values)
        more, more_off = interval(
            [ours - one for ours, one in zip(shares[OURS], values, strict=True)]
        )
        way = (share - least) / (best - least) if best > least else 1.0
        of_bound = (share - least) / (top - least) if top is not None and top > least else None
        minutes = mean([cells[name][1] for cells in people]) / 60.0
        rows.append(Row(place, who, name, share, off, more, more_off, way, of_bound, minutes))
    return rows


def mean(values: Sequence[float]) -> float:
    """The arithmetic mean."""
    return sum(values) / len(values)


def interval(values: Sequence[float]) -> tuple[float, float]:
    """The mean and half its 95 % interval (0 for a single value)."""
    count, middle = len(values), mean(values)
    if count < 2:
        return middle, 0.0
    variance = sum((value - middle) ** 2 for value in values) / (count - 1)
    t = _T[count - 2] if count - 1 <= len(_T) else 1.96 + 2.5 / (count - 1)
    return middle, t * sqrt(variance / count)


def as_rows(rows: Iterable[Row]) -> list[dict[str, Any]]:
    """Plain values for JSON, rounded to what a simulation is good for."""
    return [
        {
            key: round(value, 4) if isinstance(value, float) else value
            for key, value in asdict(row).items()
        }
        for row in rows
    ]
