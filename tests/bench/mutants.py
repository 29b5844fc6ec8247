"""The program broken on purpose, a place at a time: how many breaks the tests notice.

    pip install -e '.[mutants]'
    git clone . /tmp/copy                                    # what is broken is a copy
    python tests/bench/mutants.py /tmp/copy cover            # once: which tests run which lines
    python tests/bench/mutants.py /tmp/copy run --number 150 --seed 1    # resumes
    python tests/bench/mutants.py /tmp/copy report

A place is drawn at random in each of five rooms in turn, then one of the changes that cosmic-ray
knows for it, so that a comparison with ten others counts no more than a number. The type `X | Y`
is no place: it is never evaluated. The tests tried are those that run a line of the place, or for
a line that only an import runs those of its module; in folders of the room first. What survives
the first `FEW` of them meets all of them. A time that ran out counts as noticed, and is counted
apart. The copy's results are in `mutants.jsonl` in it.
"""

from __future__ import annotations

import argparse
import json
import os
import subprocess
import sys
from collections import defaultdict
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from random import Random
from typing import Any, NamedTuple

ROOMS = ("marking", "generate", "quantities", "store", "app")
FEW, MOST = 80, 1500
LONGEST = 900.0  # seconds for the tests of one mutant
_LEFT_OUT = ("BitOr", "RemoveDecorator", "Variable")
"""Changes of types, of what `@cache` and `@dataclass` are, and two kinds that need arguments."""
_IGNORED = ("tests/lab", "tests/documents/test_in_browser.py", "tests/test_wheel.py",
            "tests/cli/test_start.py", "tests/test_docs.py")  # fmt: skip
"""Slow, or about the text of files and not what they do: a change to any line fails some."""
Row = dict[str, Any]


class Place(NamedTuple):
    """Where something may be changed: a file, and its lines and columns."""

    path: str
    start: tuple[int, int]
    end: tuple[int, int]


def cover(copy: Path) -> None:
    """Run the tests once, and note which of them runs which line."""
    rooms = [f"--cov=drill.{room}" for room in ROOMS]
    ignored = [f"--ignore={path}" for path in _IGNORED]
    options = ("--cov-context=test", "--cov-report=", "-q", "-o", "addopts=--import-mode=importlib")
    command = [sys.executable, "-m", "pytest", *rooms, *ignored, *options, "tests"]
    subprocess.run(command, cwd=copy, env=_environment(copy), check=False)


def _environment(copy: Path) -> dict[str, str]:
    home = copy.with_name(f"{copy.name}-home")
    return {**os.environ, "PYTHONPATH": str(copy), "DRILL_HOME": str(home), "CI": "1",
            "COVERAGE_FILE": str(copy / ".coverage")}  # fmt: skip


# ---------------------------------------------------------------- which tests


@cache
def _lines(copy: Path, path: str) -> dict[int, list[str]]:
    """{line: tests that run it}."""
    from coverage import CoverageData

    data = CoverageData(str(copy / ".coverage"))
    data.read()
    found = data.contexts_by_lineno(str(copy / path))
    return {line: [one.rpartition("|")[0] for one in names if one] for line, names in found.items()}


def tests_of(copy: Path, place: Place) -> list[str]:
    """The tests that run a line of the place, in the order in which they are tried."""
    lines = _lines(copy, place.path)
    spanned = range(place.start[0], place.end[0] + 1)
    found = {name for line in spanned for name in lines.get(line, ())}
    if not found:  # run by an import only
        found = {name for names in lines.values() for name in names}
    room = place.path.split("/")[1]
    turn = Random(str(place))
    mixed = sorted(found, key=lambda name: (not name.startswith(f"tests/{room}/"), turn.random()))
    return mixed[:MOST]


def passes(copy: Path, tests: list[str]) -> tuple[bool, bool]:
    """Whether they all pass, and whether time ran out."""
    names = copy / "mutant-tests.txt"
    names.write_text("".join(f"{name}\n" for name in tests), "utf-8")
    command = [sys.executable, "-m", "pytest", "-x", "-q", "-p", "no:cacheprovider", f"@{names}"]
    environment = {**_environment(copy), "PYTHONDONTWRITEBYTECODE": "1"}
    try:
        done = subprocess.run(
            command, cwd=copy, env=environment, capture_output=True, timeout=LONGEST, check=False
        )
    except subprocess.TimeoutExpired:
        return False, True
    return done.returncode == 0, False


# ---------------------------------------------------------------- which mutants


def places(copy: Path, room: str) -> dict[Place, list[tuple[str, int]]]:
    """{place: (operator, occurrence)} of every change that could be made in a room."""
    from cosmic_ray.ast import ast_nodes, get_ast_from_path
    from cosmic_ray.plugins import get_operator, operator_names

    found: dict[Place, list[tuple[str, int]]] = defaultdict(list)
    wanted = [
        name for name in sorted(operator_names()) if not any(one in name for one in _LEFT_OUT)
    ]
    operators = [(name, get_operator(name)()) for name in wanted]
    for path in sorted((copy / "drill" / room).rglob("*.py")):
        nodes = list(ast_nodes(get_ast_from_path(path)))
        for name, operator in operators:
            spans = (span for node in nodes for span in operator.mutation_positions(node))
            for number, (start, end) in enumerate(spans):
                found[Place(str(path.relative_to(copy)), start, end)].append((name, number))
    return found


def drawn(copy: Path, number: int, seed: int) -> Iterator[tuple[Place, str, int]]:
    """So many mutants, the rooms in turn."""
    rng = Random(f"mutants {seed}")
    known = {room: places(copy, room) for room in ROOMS}
    order = {room: rng.sample(sorted(found), len(found)) for room, found in known.items()}
    for turn in range(number):
        room = ROOMS[turn % len(ROOMS)]
        place = order[room][turn // len(ROOMS)]
        yield (place, *rng.choice(known[room][place]))


def tried(copy: Path, place: Place, operator: str, number: int) -> Row:
    """One mutant: made, tested, undone."""
    from cosmic_ray.mutating import MutationVisitor
    from cosmic_ray.plugins import get_operator

    path = copy / place.path
    before = path.read_text("utf-8")
    after = MutationVisitor.mutate_code(before, get_operator(operator)(), number)
    row: Row = {"path": place.path, "line": place.start[0], "operator": operator,
                "changed": changed(before, after or before)}  # fmt: skip
    tests = tests_of(copy, place)
    try:
        path.write_text(after or before, "utf-8")
        survived, late = passes(copy, tests[:FEW]) if tests else (True, False)
        if survived and len(tests) > FEW:
            survived, late = passes(copy, tests[FEW:])
    finally:
        path.write_text(before, "utf-8")
    return {**row, "tests": len(tests), "survived": survived, "late": late}


def changed(before: str, after: str) -> list[str]:
    """The lines that differ, as they were and as they are."""
    both = zip(before.splitlines(), after.splitlines(), strict=False)
    return [line.strip() for old, new in both if old != new for line in (old, new)][:4]


# ---------------------------------------------------------------- figures


def report(rows: list[Row]) -> None:
    """Killed of all with an interval (Wilson, 95 %), by room, then every survivor."""
    for room in (*ROOMS, ""):
        some = [row for row in rows if row["path"].startswith(f"drill/{room}")]
        if some:
            killed = sum(not row["survived"] for row in some)
            low, high = interval(killed, len(some))
            late = sum(row["late"] for row in some)
            print(f"{room or 'all':10} {killed} of {len(some)} noticed, {killed / len(some):.2f} "
                  f"({low:.2f} to {high:.2f}); {late} by a time that ran out")  # fmt: skip
    for row in rows:
        if row["survived"]:
            print(f"{row['path']}:{row['line']} {row['operator']} ({row['tests']} tests)")
            print("".join(f"    {line}\n" for line in row["changed"]), end="")


def interval(good: int, number: int, z: float = 1.96) -> tuple[float, float]:
    """Wilson's interval of a share."""
    share, part = good / number, z * z / number
    middle = (share + part / 2) / (1 + part)
    half = z / (1 + part) * (share * (1 - share) / number + part / (4 * number)) ** 0.5
    return middle - half, middle + half


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("copy", type=Path)
    parser.add_argument("what", choices=("cover", "run", "report"))
    parser.add_argument("--number", type=int, default=150)
    parser.add_argument("--seed", type=int, default=1)
    given = parser.parse_args()
    copy = given.copy.resolve()
    results = copy / "mutants.jsonl"
    if given.what == "cover":
        cover(copy)
        return
    rows = [json.loads(line) for line in results.open()] if results.exists() else []
    if given.what == "run":
        for number, mutant in enumerate(drawn(copy, given.number, given.seed)):
            if number < len(rows):
                continue
            rows.append(tried(copy, *mutant))
            with results.open("a", encoding="utf-8") as file:
                file.write(json.dumps(rows[-1]) + "\n")
    report(rows)


if __name__ == "__main__":
    main()
