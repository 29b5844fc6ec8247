"""Faults planted in the arithmetic of questions, one at a time: how many the second judge notices.

    python tests/bench/planted_faults.py                       # every fault, the whole bank
    python tests/bench/planted_faults.py --only rounding       # a group, or a fault by its name
    python tests/bench/planted_faults.py --table my_faults.py  # others: a file with FAULTS

Counted are pairs of a fault and a shipped question that uses what it is planted in. A pair where no
value of the seeds looked at changes is listed apart. A fault is noticed where the judge names a
number ("judge"), where no question is made at all ("none"), where the file is refused, or where the
program stops with an exception of its own; the last three are told apart, for they need no judge.

A fault of one's own is a `Fault` in a tuple FAULTS, see planted.py beside this file:

    def sum_without_its_last(engine):
        engine.function("sum", lambda work: lambda values: work([values[0][:-1]]))

    FAULTS = (Fault("sum leaves out the last", "lists", "sum", sum_without_its_last),)
"""

from __future__ import annotations

import argparse
import runpy
import sys
from collections import Counter
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from drill.bank import Bank, read_template
from drill.errors import Problem
from drill.generate import PEOPLE, generate
from drill.judge import Case, doubts
from drill.model import Question, Template
from drill.places import bank_dir
from tests.bench.planted import Fault, planted, used_by
from tests.bench.planted_table import FAULTS

SEEDS = 10


@dataclass(frozen=True)
class Healthy:
    """A shipped question without a fault: what it uses, and what its first seeds give."""

    template: Template
    seeds: int

    @cached_property
    def uses(self) -> frozenset[str]:
        return used_by(self.template)

    @cached_property
    def seen(self) -> tuple[Any, ...]:
        return tuple(seen(generate(self.template, seed)) for seed in range(self.seeds))


def seen(question: Question | Problem) -> Any:
    """Every number and text of a question that somebody sees or that marks an answer."""
    if isinstance(question, Problem):
        return "no question"
    parts = [
        (
            part.ask,
            part.hint,
            part.model_answer,
            part.worked,
            part.unit,
            part.points,
            _key(part.key),
        )
        for part in question.parts
    ]
    texts = (question.title, question.text, question.picture, question.safety)
    return texts, question.scale, question.graph, parts


def _key(key: Any) -> Any:
    if hasattr(key, "cells"):
        return {name: _key(cell) for name, cell in key.cells.items()}
    if not hasattr(key, "chain"):
        return key
    slips = [(one.id, one.value, one.text, one.says, one.low, one.high) for one in key.slips]
    printed = {name: _plain(value) for name, value in key.chain.printed.items()}
    return (key.value, key.unit, key.low, key.high, key.decimals, key.figures, slips, printed)


def _plain(value: Any) -> Any:
    """A value without its unit's size, which is nobody's number."""
    if isinstance(value, tuple):
        return tuple(map(_plain, value))
    if hasattr(value, "cells"):
        return {name: _plain(cell) for name, cell in value.cells.items()}
    shown = getattr(value, "decimals", None), getattr(value, "figures", None)
    return (value.value, *shown) if hasattr(value, "value") else value


def healthy(seeds: int) -> list[Healthy]:
    """The whole bank."""
    bank = Bank.open(bank_dir())
    read = [bank.template(entry.id) for entry in bank.entries()]
    return [Healthy(one, seeds) for one in read if isinstance(one, Template)]


def outcome(one: Healthy) -> str:
    """ "unchanged", "judge", "refused", "none", "stopped" or "missed", with a fault planted."""
    template = read_template(Path(one.template.path), bank_dir())
    if not isinstance(template, Template):
        return "refused"
    case = Case(template.id, template.text, bank_dir(), PEOPLE)
    changed = False
    for seed, before in enumerate(one.seen):
        try:
            question = generate(template, seed)
        except Exception:  # the program itself stops: nobody needs a judge
            return "stopped"
        if seen(question) == before:
            continue
        changed = True
        if isinstance(question, Problem):
            return "none"
        if doubts(case, template, question):
            return "judge"
    return "missed" if changed else "unchanged"


def tried(fault: Fault, bank: list[Healthy]) -> dict[str, str]:
    """What becomes of a fault in every question that uses what it is planted in."""
    using = [one for one in bank if fault.uses in one.uses and one.seen]
    with planted(fault):
        return {one.template.id: outcome(one) for one in using}


def main() -> int:
    """Print a line for each fault, the sum, and every pair that was missed."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("--only", default="", help="a group, or part of a fault's name")
    parser.add_argument("--table", type=Path, help="a Python file with a tuple FAULTS")
    parser.add_argument("--seeds", type=int, default=SEEDS)
    options = parser.parse_args()
    table = runpy.run_path(str(options.table))["FAULTS"] if options.table else FAULTS
    bank = healthy(options.seeds)
    total: Counter[str] = Counter()
    missed: list[str] = []
    for fault in table:
        if options.only in (fault.group, "") or options.only in fault.name:
            found = tried(fault, bank)
            counts = Counter(found.values())
            total += counts
            missed += [f"{fault.name} | {id_}" for id_, what in found.items() if what == "missed"]
            print(f"{fault.group:12} {fault.name:52} {_told(counts)}", flush=True)
    changed = sum(total.values()) - total["unchanged"]
    noticed = changed - total["missed"]
    print(f"\n{len(table)} faults, {options.seeds} seeds: {_told(total)}")
    print(f"noticed {noticed} of {changed} pairs that change a value")
    print("\n".join(["missed:", *missed]) if missed else "none was missed")
    return 0


def _told(counts: Counter[str]) -> str:
    kinds = ("judge", "none", "refused", "stopped", "missed", "unchanged")
    return "  ".join(f"{kind} {counts[kind]:3}" for kind in kinds)


if __name__ == "__main__":
    sys.exit(main())
