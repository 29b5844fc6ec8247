"""How long the first drawing of a sitting takes after its question is there, imports included.

python -m tests.bench.first_drawing

Each line is the median of fresh processes, in milliseconds of processor time: what is loaded then,
what is drawn then, and both as a share of the start of the program measured in the same run.
"""

from __future__ import annotations

import argparse
import subprocess
import sys
from collections.abc import Iterator
from statistics import median

TEMPLATES = (
    "measure/read-burette",
    "measure/read-ammeter",
    "measure/read-balance",
    "measure/name-from-drawing",
    "salts/fault-in-filtering",
    "water/fault-in-drawing",
    "water/label-the-parts",
    "safety/name-the-drawn-symbol",
)
ALLOWED = 60.0  # ms

_ONE = """
import io, sys
from time import process_time
from rich.console import Console
from drill.app.ask import question_of
from drill.app.context import open_bank
from drill.cli.screen import Screen
from drill.cli import views
question = question_of(open_bank(), sys.argv[1], 3)
out = io.TextIOWrapper(io.BytesIO(), "utf-8")
screen = Screen(False, Console(file=out, width=80, height=24, soft_wrap=True, markup=False))
screen.line("warm")
assert "drill.drawings" not in sys.modules
started = process_time()
views._show_picture(screen, question)
first = process_time()
views._show_picture(screen, question)
second = process_time()
assert "drill.drawings" in sys.modules
print(1000 * started, 1000 * (first - started), 1000 * (second - first))
"""


def once(template: str) -> tuple[float, float, float]:
    """Start of the program, first drawing, and the same drawing again, in ms."""
    run = [sys.executable, "-c", _ONE, template]
    made = subprocess.run(run, capture_output=True, text=True, check=True)
    start, first, again = map(float, made.stdout.split())
    return start, first, again


def lines(runs: int) -> Iterator[str]:
    yield f"{'template':32} {'first':>6} {'again':>6}   first / start   (at most {ALLOWED:.0f})"
    for template in TEMPLATES:
        found = [once(template) for _ in range(runs)]
        start, first, again = (median(column) for column in zip(*found, strict=True))
        verdict = "within" if first <= ALLOWED else "OVER"
        yield f"{template:32} {first:6.1f} {again:6.1f}   {first / start:13.2f}   {verdict}"


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--runs", type=int, default=5)
    for line in lines(parser.parse_args().runs):
        print(line, flush=True)


if __name__ == "__main__":
    main()
