"""How fast questions are made, checked and judged: instances a second on one core.

    python tests/bench/instances.py                     # every tenth template
    python tests/bench/instances.py --whole             # the whole bank
    python tests/bench/instances.py salts/percentage-yield

Prints, for the templates together, instances a second (processor time) of `generate` alone, of
`generate` with the checks of every instance, of the second judge alone, and milliseconds of one
sympy proof; then the slowest templates. Times vary between machines: compare ratios measured in
one run.
"""

from __future__ import annotations

import argparse
import sys
import time
from pathlib import Path
from statistics import median
from typing import NamedTuple

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from drill.bank import Bank
from drill.checking import CHECKS
from drill.generate import PEOPLE, generate
from drill.judge import Case, doubts, proof_doubts
from drill.model import Question, Template
from drill.places import bank_dir


class Row(NamedTuple):
    """Seconds of processor time for one instance of a template."""

    template: str
    made: float
    checked: float
    judged: float
    proved: float


def timed(template: Template, seeds: int) -> Row:
    """One template; seed 0 is made first, so that nothing is counted that is only done once."""
    first = generate(template, 0)
    assert isinstance(first, Question), first
    made: list[Question] = []
    start = time.process_time()
    for seed in range(1, seeds + 1):
        question = generate(template, seed)
        assert isinstance(question, Question), question
        made.append(question)
    between = time.process_time()
    for question in made:
        for look in CHECKS.values():
            assert not list(look(template, question))
    checked = time.process_time()
    case = Case(template.id, template.text, bank_dir(), PEOPLE)
    for question in made:
        assert not doubts(case, template, question)
    judged = time.process_time()
    for question in made[:3]:
        assert not proof_doubts(case, template, question)
    proved = time.process_time()
    return Row(
        template.id,
        (between - start) / seeds,
        (checked - start) / seeds,
        (judged - checked) / seeds,
        (proved - judged) / 3,
    )


def templates(names: list[str], whole: bool) -> list[Template]:
    """Those named, else every tenth of the bank, or all of it."""
    bank = Bank.open(bank_dir())
    ids = names or [entry.id for entry in bank.entries()][:: 1 if whole else 10]
    read = [bank.template(one) for one in ids]
    return [one for one in read if isinstance(one, Template)]


def main() -> int:
    """Print the figures."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("templates", nargs="*")
    parser.add_argument("--whole", action="store_true")
    parser.add_argument("--seeds", type=int, default=100)
    options = parser.parse_args()
    rows = [timed(one, options.seeds) for one in templates(options.templates, options.whole)]
    made = sum(row.made for row in rows) / len(rows)
    checked = sum(row.checked for row in rows) / len(rows)
    print(f"{len(rows)} templates, {options.seeds} instances of each, one core")
    print(f"without proof   {1 / made:8.0f} a second (median template {_rate(rows)} a second)")
    print(f"with all checks {1 / checked:8.0f} a second")
    print(f"the judge alone {len(rows) / sum(row.judged for row in rows):8.0f} a second")
    print(f"one sympy proof {1000 * sum(row.proved for row in rows) / len(rows):8.1f} ms")
    for row in sorted(rows, key=lambda row: -row.made)[:8]:
        print(f"  {row.template:36} {1 / row.made:6.0f} a second, checked {1 / row.checked:6.0f}")
    return 0


def _rate(rows: list[Row]) -> str:
    return f"{1 / median(row.made for row in rows):.0f}"


if __name__ == "__main__":
    sys.exit(main())
