"""Fits the weights that `drill.memory` ships, on simulated learners, and writes shipped.py.

    python tests/bench/fit_weights.py            # shows what it finds
    python tests/bench/fit_weights.py --write    # and writes drill/memory/shipped.py

No log of any person is read. Two weightings make the fit serve a school: exam-day rows count as
much as practice rows, since what is shipped has to carry to a date, and the n-th answer to a skill
counts as 1/n, since most skills are asked only a few times.
"""

from __future__ import annotations

import os
import random
import sys
from collections import Counter
from hashlib import blake2b
from pathlib import Path

os.environ["OMP_NUM_THREADS"] = "1"  # small matrices: threads would only wait for each other

from practice_logs import Life, lives

from drill.memory import Weights
from drill.memory.weights import Level, Mechanism, Shape, Spread, Ways
from tests.lab.calibration import SHAPE_MOVES, SPREAD_MOVES, fit_first, walk

PER_FAMILY, SEED, SEARCH_PER_FAMILY, PROBES = 50, 20261, 10, 6
PRIOR = Weights(
    base=-1.0,
    skill=Level(practice=0.2, wins=0.2, shown=0.1, fresh=1.5),
    template=Level(practice=0.1, wins=0.1, shown=0.1, fresh=1.0),
    shape=Shape(onset=600.0, decay=0.2, wrong=0.9, shown=0.7),
    spread=Spread(person=1.0, skill=0.5, template=0.3, drift=0.001),
    mechanism=Mechanism(
        onset=6000.0,
        steep=0.3,
        least=0.2,
        firm=0.25,
        floor=0.05,
        wrong=0.85,
        shown=0.85,
        base=-2.0,
        gain=5.0,
        wins=0.05,
        guess=0.05,
        careless=0.05,
    ),
    ways=Ways(able=2.0, gain=4.0, wins=0.5, fails=0.5, rest=0.5, skill=1.0),
)
SPREADS = (*SPREAD_MOVES[:2], ("spread", "template", 1.6, 0.15, 1.0))
"""Real templates differ more than simulated ones: no less than 0.15 for them."""


def log_of(life: Life) -> list[tuple[object, ...]]:
    """The practice, then a few exam-day probes that together weigh as much."""
    rng = random.Random(f"probes {life.learner.family} {life.learner.seed}")
    probes = rng.sample(life.exam, min(PROBES, len(life.exam)))
    seen: Counter[str] = Counter()
    practice: list[tuple[object, ...]] = []
    for row in life.practice:
        seen[row[0]] += row[3] is not None
        practice.append((*row, 1.0 / max(1, seen[row[0]])))
    weight = sum(1.0 / place for most in seen.values() for place in range(1, most + 1))
    asked = [(*row[:3], life.truth[row[0]], 0.0, weight / len(probes)) for row in probes]
    return [*practice, *asked]


def main() -> None:
    """Search the shapes on some learners, fit the rest on all."""
    some = [log_of(life) for life in lives(SEARCH_PER_FAMILY, SEED + 1)]
    every = [log_of(life) for life in lives(PER_FAMILY, SEED)]

    def first(logs: object, weights: Weights) -> tuple[Weights, float]:
        return fit_first(logs, weights, PRIOR, False)  # type: ignore[arg-type]

    weights = walk(some, PRIOR, (*SHAPE_MOVES, *SPREADS), first)
    weights, loss = first(every, weights)
    print(f"first opinion: {loss:.4f}", weights.shape, weights.spread, weights.skill, sep="\n  ")
    from left_out import lab_lives, second  # it begins with what stands above

    weights = second(*lab_lives(), weights)
    print("second opinion:", weights.mechanism, weights.ways, sep="\n  ")
    if "--write" in sys.argv[1:]:
        write(rounded(weights), sum(len(log) for log in every))


def rounded(weights: Weights) -> Weights:
    """Four figures are all the fit is good for."""

    def short(part: tuple[float, ...]) -> list[float]:
        return [float(f"{number:.4g}") for number in part]

    return weights._replace(
        base=float(f"{weights.base:.4g}"),
        skill=Level(*short(weights.skill)),
        template=Level(*short(weights.template)),
        shape=Shape(*short(weights.shape)),
        spread=Spread(*short(weights.spread)),
        mechanism=Mechanism(*short(weights.mechanism)),
        ways=Ways(*short(weights.ways)),
    )


def write(weights: Weights, rows: int) -> None:
    """The module, with where its numbers come from beside them."""
    name = blake2b(repr(weights[:7]).encode(), digest_size=6).hexdigest()
    parts = ("skill", "template", "shape", "spread", "mechanism", "ways")
    body = "\n".join(f"    {part}={getattr(weights, part)!r}," for part in parts)
    text = f'''"""The weights a learner starts with, as tests/bench/fit_weights.py wrote them.

Do not edit: run it again. Fitted on {rows} rows of {PER_FAMILY} simulated learners of each of six
families (seed {SEED}), person spread 0.7 and skill spread 1.0 logits, with guessing, carelessness,
imperfect transfer, missed days and six habits of practice over 8 to 110 days; exam-day rows weigh
as much as practice. The activation model is fitted to people of `tests.lab`, 30 of
each family (seed 70000), whose lessons it is told. No log of any person went into them.
"""

from __future__ import annotations

from drill.memory.weights import Level, Mechanism, Shape, Spread, Ways, Weights

WEIGHTS_ID = "{name}"
"""Names these numbers, so that a kept state is known to fit them; a hash of their text."""

SHIPPED = Weights(
    base={weights.base!r},
{body}
)
'''
    target = Path(__file__).parents[2] / "drill" / "memory" / "shipped.py"
    target.write_text(text, encoding="utf-8")
    print(f"wrote {target.name}; run ruff format on it")


if __name__ == "__main__":
    main()
