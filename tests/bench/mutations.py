"""Shipped questions spoilt at random and proved: no traceback, none that takes over two seconds.

    python tests/bench/mutations.py --count 2000

Each is read and, where it can be read, made into three questions, marked and proved as by `drill
bank check`. Counted are those refused by their line, those refused by a check, those that pass (a
word or a number may change and leave a sound question), and the slowest, in seconds of processor.
"""

from __future__ import annotations

import argparse
import random
import sys
import tempfile
import time
import traceback
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path
from typing import NamedTuple

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from drill.bank import read_template
from drill.checking import check
from drill.model import Template
from drill.places import bank_dir
from tests.common.mutations import MUTATIONS

LONGEST = 2.0  # seconds of processor
SEEDS = 3


class Run(NamedTuple):
    """One spoilt question: how it was spoilt, what became of it, and the time it took."""

    name: str
    became: str
    seconds: float
    said: str = ""


def run(number: int, folder: Path) -> Run:
    """The spoilt question of that number; the same on every machine with the same bank."""
    rng = random.Random(f"mutation {number}")
    path = rng.choice(sorted(folder.glob("*/*.toml")))
    name = rng.choice(sorted(MUTATIONS))
    rows = MUTATIONS[name](path.read_text(encoding="utf-8").splitlines(), rng)
    with tempfile.TemporaryDirectory() as scratch:
        spoilt = Path(scratch) / path.parent.name / path.name
        spoilt.parent.mkdir()
        spoilt.write_text("\n".join(rows), encoding="utf-8", newline="")
        start = time.process_time()
        try:
            became = _proved(spoilt, folder)
        except Exception:
            return Run(name, "traceback", 0.0, f"{path} {name}\n{traceback.format_exc()}")
        return Run(name, became, time.process_time() - start, f"{number} {path.name} {name}")


def _proved(path: Path, folder: Path) -> str:
    read = read_template(path, folder)
    if not isinstance(read, Template):
        assert all(problem.line >= 1 and str(problem).isprintable() for problem in read)
        return "refused by its line"
    report = check([path], folder, seeds=SEEDS, jobs=1)
    assert all(str(problem).isprintable() for problem in report.problems)
    return "passes" if all(row["passed"] for row in report.rows) else "refused by a check"


def some(start: int, stop: int) -> list[Run]:
    """The runs of these numbers."""
    return [run(number, bank_dir()) for number in range(start, stop)]


def main() -> int:
    """Print the counts; 1 when something failed or took too long."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("--count", type=int, default=2000)
    parser.add_argument("--jobs", type=int, default=2)
    options = parser.parse_args()
    starts = range(0, options.count, 50)
    with ProcessPoolExecutor(options.jobs) as pool:
        lots = pool.map(some, starts, [min(at + 50, options.count) for at in starts])
        runs = [one for lot in lots for one in lot]
    for became, count in Counter(one.became for one in runs).most_common():
        print(f"{count:6} {became}")
    slowest = max(runs, key=lambda one: one.seconds)
    print(f"slowest {slowest.seconds:.2f} s: {slowest.said}")
    bad = [one for one in runs if one.became == "traceback" or one.seconds > LONGEST]
    for one in bad[:10]:
        print(f"{one.seconds:.2f} s {one.said}")
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
