"""How long gathering and reporting a class takes, and how much memory.

    python -m tests.bench.class_size            30 pupils, and 300 with 2,000 answers each
    python -m tests.bench.class_size 300 2000   so many pupils and answers

The commands are run as a teacher runs them, each in a process of its own.
"""

from __future__ import annotations

import os
import random
import subprocess
import sys
import time
from dataclasses import replace
from pathlib import Path
from tempfile import TemporaryDirectory

from drill.exchange.hand_in import packed
from tests.common.classes import SKILLS, class_of

_CLASSES = ((30, 100), (300, 2000))


def main() -> None:
    """Print a line a command."""
    given = [int(one) for one in sys.argv[1:3]]
    for pupils, answers in [tuple(given)] if len(given) == 2 else _CLASSES:
        with TemporaryDirectory() as folder:
            run(Path(folder), pupils, answers)


def run(folder: Path, pupils: int, answers: int) -> None:
    """One class, gathered and reported."""
    handed = folder / "class"
    handed.mkdir()
    size = 0
    for number in range(pupils):  # one at a time: a child's peak of memory begins with ours
        (one,) = class_of(1, number, SKILLS[0], answers)
        one = replace(one, code=f"k{number:03}", learner=random.Random(number).randbytes(16).hex())
        data = packed(one)
        size += len(data)
        (handed / f"{one.code}.handin").write_bytes(data)
    print(f"{pupils} pupils, {answers} answers each: {size / pupils / answers:.0f} bytes an answer")
    for says, arguments in (
        ("gathered", ["class", "collect", str(handed)]),
        ("gathered again", ["class", "collect", str(handed)]),
        ("reported", ["class", "report", "--at", "2027-03-01T17:00"]),
        (
            "as a page",
            ["class", "report", "--html", str(folder / "x.html"), "--at", "2027-03-01T17:00"],
        ),
    ):
        seconds, busy, memory = _timed(arguments, folder / "home")
        print(f"  {says:15} {seconds:6.2f} s ({busy:5.2f} s of a core)  {memory:5.0f} MB")


def _timed(arguments: list[str], home: Path) -> tuple[float, float, float]:
    """Seconds by the clock, seconds of a core, and the most memory in MB."""
    began = time.monotonic()
    script = (
        "import resource, sys; from drill.cli import run\n"
        "try: run()\n"
        "except SystemExit: pass\n"
        "used = resource.getrusage(resource.RUSAGE_SELF)\n"
        "print(used.ru_utime + used.ru_stime, used.ru_maxrss // 1024, file=sys.stderr)"
    )
    done = subprocess.run(
        [sys.executable, "-c", script, *arguments],
        env={**os.environ, "DRILL_HOME": str(home)}, capture_output=True, text=True, check=True,
    )  # fmt: skip
    busy, memory = done.stderr.split()[-2:]
    return time.monotonic() - began, float(busy), float(memory)


if __name__ == "__main__":
    main()
