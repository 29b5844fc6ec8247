"""What a graph costs: the first one of a program, with all it imports, and later ones.

python -m tests.bench.graphs

Each figure is the middle one of several new processes. The time of a question without a graph,
taken in the same run, is beside it, and the ratio of the two.
"""

from __future__ import annotations

import subprocess
import sys
from statistics import median

RUNS = 9
WITHOUT, WITH = "salts/why-excess", "rates/rate-from-a-tangent"

_START = """
import io, os, sys, time
began = time.perf_counter()
from rich.console import Console
from drill.app.ask import question_of
from drill.app.context import open_bank
from drill.cli.screen import Screen
from drill.cli.views import show_question
out = io.TextIOWrapper(io.BytesIO(), "utf-8")
screen = Screen(False, Console(file=out, width=80, height=24, soft_wrap=True, markup=False))
bank = open_bank()
other = question_of(bank, "{without}", 1)
show_question(screen, other, "")
"""
_SHOW = """
def ms(work):
    start = time.perf_counter()
    work()
    return 1000 * (time.perf_counter() - start)
def ask():
    return question_of(bank, "{name}", 1)
made = ms(ask)
question = ask()
shown = ms(lambda: show_question(screen, question, ""))
later = min(ms(lambda: show_question(screen, question, "")) for _ in range(5))
print(made, shown, later)
"""
_PAGE = """
import time
from drill.bank import read_template
from drill.generate import generate
from drill.places import bank_dir
question = generate(read_template(bank_dir() / "{name}.toml", bank_dir()), 1)
from drill.drawings import graph_as_svg
def ms():
    start = time.perf_counter()
    graph_as_svg(question.graph)
    return 1000 * (time.perf_counter() - start)
first = ms()
print(first, min(ms() for _ in range(5)))
"""


def run(code: str) -> list[float]:
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    return [float(word) for word in done.stdout.split()]


def middle(code: str) -> list[float]:
    rows = [run(code) for _ in range(RUNS)]
    return [median(column) for column in zip(*rows, strict=True)]


def main() -> None:
    start = _START.format(without=WITHOUT)
    plain = middle(start + _SHOW.format(name=WITHOUT))
    made, shown, later = middle(start + _SHOW.format(name=WITH))
    first, again = middle(_PAGE.format(name=WITH))
    print("ms, middle of", RUNS, "processes")
    print(f"a question with a graph: made in {made:.0f}, shown in {shown:.0f}, later {later:.0f}")
    print(f"one without:             made in {plain[0]:.0f}, shown in {plain[1]:.1f}")
    print(f"ratio of made and shown: {(made + shown) / sum(plain[:2]):.1f}")
    print(f"vectors for a page: the first in {first:.0f}, later {again:.0f}")


if __name__ == "__main__":
    main()
