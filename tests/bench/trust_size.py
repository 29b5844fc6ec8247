"""How the time of a trust's report falls with workers, and how memory stays.

python -m tests.bench.trust_size        1, 2 and 4 million answers on one and two workers
"""

from __future__ import annotations

import random
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

from drill.app.classes.class_room import answer_of
from drill.app.classes.class_sums import Answer
from drill.app.classes.trust import write_rows
from tests.common.classes import SKILLS, practised

_PUPILS, _ANSWERS = 100, 2000
_COUNT = """
import resource, sys
from pathlib import Path
from drill.app.classes.trust import add_up
if __name__ == "__main__":
    folder, workers = Path(sys.argv[1]), int(sys.argv[2])
    schools = sorted(one.name for one in folder.iterdir())[: int(sys.argv[3])]
    sums = add_up(folder, schools, workers)
    kinds = (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)
    used = [resource.getrusage(kind) for kind in kinds]
    busy = sum(one.ru_utime + one.ru_stime for one in used)
    most = max(one.ru_maxrss for one in used)
    print(sums.pupils, sums.answers, sums.marks, most // 1024, round(busy, 1))
"""


def main() -> None:
    """A line for each size and number of workers."""
    with TemporaryDirectory() as place:
        folder, script = Path(place) / "trust", Path(place) / "count.py"
        script.write_text(_COUNT, encoding="utf-8")
        for school in range(_schools(4)):  # in a process of its own: a peak of memory is inherited
            write = [sys.executable, "-m", "tests.bench.trust_size", "write", str(folder)]
            subprocess.run([*write, str(school)], check=True)
        for millions in (1, 2, 4):
            for workers in (1, 2):
                began = time.monotonic()
                done = subprocess.run(
                    [sys.executable, str(script), str(folder), str(workers),
                     str(_schools(millions))],
                    capture_output=True, text=True, check=True,
                )  # fmt: skip
                pupils, answers, marks, memory, busy = done.stdout.split()
                seconds = time.monotonic() - began
                print(f"{int(answers):,} answers of {pupils} pupils, {workers} worker(s): ", end="")
                print(f"{seconds:6.1f} s ({busy} s of cores), {memory} MB a process, {marks} marks",
                      flush=True)  # fmt: skip


def _schools(millions: int) -> int:
    return millions * 1_000_000 // (_PUPILS * _ANSWERS)


def _rows(school: int) -> Iterator[tuple[str, Answer]]:
    rng = random.Random(school)
    shares = {skill: rng.uniform(0.3, 0.9) for skill in SKILLS}
    for pupil in range(_PUPILS):
        for row in practised(rng, shares, _ANSWERS, 200):
            yield f"k{pupil:03}", answer_of(row)


if __name__ == "__main__":
    if sys.argv[1:2] == ["write"]:
        number = int(sys.argv[3])
        write_rows(_rows(number), Path(sys.argv[2]), f"s{number:02}", "2027-spring", "all")
    else:
        main()
