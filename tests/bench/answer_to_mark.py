"""From Enter after an answer to its mark on the screen, on a pseudo-terminal: median and p99.

    python tests/bench/answer_to_mark.py              # 40 sittings of five questions

An answer is stored, marked, its mark stored, and only then shown. It is typed once the program is
at rest, as by one who reads the question: the marker is loaded meanwhile. Beside the clock the
processor time of the program, which other work on the machine changes less. Aim: 70 ms.
"""

from __future__ import annotations

import argparse
import os
import pty
import re
import select
import signal
import statistics
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from tests.bench.first_prompt import DRILL, prepared

AIM = 70.0  # ms
_LONGEST = 30.0  # seconds
_READING, _QUIET = 0.2, 2  # seconds
_TYPED = (
    "12.5 cm3", "hydrochloric acid", "B",
    "the excess solid is filtered off, as it is not used up",
    "0.25", "heat the solution until crystals form and leave it to cool", "1.2, 1.3", "NaCl",
)  # fmt: skip
_PROMPT = re.compile(rb" > (?![^\n]* > )")
_MARK = re.compile(rb"(Right|Part right|Not right|Not sure yet): ")
_MARK_OR_PROMPT = re.compile(_MARK.pattern + b"|" + _PROMPT.pattern)


class Taken(NamedTuple):
    """How long one mark took: by the clock and on the processor, in ms; whether it came first."""

    clock: float
    processor: float
    first: bool


class Window:
    """A sitting in a terminal of its own."""

    def __init__(self, environment: dict[str, str], seed: int) -> None:
        command = [
            sys.executable,
            "-c",
            DRILL,
            "sit",
            "--learner",
            "ada",
            "--questions",
            "99",
            "--seed",
            str(seed),
        ]
        self._rest = b""
        self.pid, self._end = pty.fork()
        if self.pid == 0:
            os.execve(command[0], command, environment)

    def until(self, wanted: re.Pattern[bytes]) -> bytes:
        """What came until a text that was wanted; what came last when the program has ended."""
        end = time.monotonic() + _LONGEST
        while not (found := wanted.search(self._rest)):
            if not select.select([self._end], [], [], end - time.monotonic())[0]:
                raise TimeoutError(f"only {self._rest!r} came")
            try:
                self._rest += os.read(self._end, 65536)
            except OSError:
                return b""
        came, self._rest = self._rest[: found.end()], self._rest[found.end() :]
        return came

    def type(self, line: str) -> None:
        os.write(self._end, f"{line}\r".encode())

    def processor(self) -> float:
        """Milliseconds of a core that the program has had (Linux)."""
        return int(Path(f"/proc/{self.pid}/schedstat").read_text().split()[0]) / 1e6

    def rest(self) -> None:
        """Wait until all of the program sleeps, at two looks in a row."""
        quiet = 0
        while quiet < _QUIET:
            time.sleep(_READING)
            states = [
                (task / "stat").read_text().rsplit(")", 1)[1].split()[0]
                for task in Path(f"/proc/{self.pid}/task").iterdir()
            ]
            quiet = quiet + 1 if states == ["S"] else 0

    def close(self) -> None:
        os.kill(self.pid, signal.SIGKILL)
        os.waitpid(self.pid, 0)
        os.close(self._end)


def sitting(environment: dict[str, str], seed: int, questions: int) -> Iterator[Taken]:
    """The marks of one sitting, answered with whatever comes next in the list."""
    window, done, turn = Window(environment, seed), 0, seed
    said = window.until(_PROMPT)
    while said and done < questions:
        asked = said.rsplit(b"\n", 1)[-1]
        if b"Enter" in asked:
            window.type("")
            said = window.until(_PROMPT)
            continue
        if b"empty line" in asked:
            window.type("this is the first line")
        window.rest()
        began, had = time.perf_counter(), window.processor()
        window.type("" if b"empty line" in asked else _TYPED[turn % len(_TYPED)])
        turn += 1
        came = window.until(_MARK_OR_PROMPT)
        if _MARK.search(came):
            yield Taken(1e3 * (time.perf_counter() - began), window.processor() - had, not done)
            done += 1
            came = window.until(_PROMPT)
        said = came
    window.close()


def told(name: str, values: list[float]) -> str:
    """Median, p99 and the longest."""
    ordered = sorted(values)
    p99 = ordered[min(len(ordered) - 1, round(0.99 * len(ordered)))]
    middle = statistics.median(ordered)
    return (
        f"{name:28} {len(values):4}  median {middle:5.0f}  p99 {p99:5.0f}  most {ordered[-1]:5.0f}"
    )


def main() -> None:
    """First answers, later ones, all; exit 1 when the median of all is above the aim."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--sittings", type=int, default=40)
    parser.add_argument("--questions", type=int, default=5)
    wanted = parser.parse_args()
    with tempfile.TemporaryDirectory() as name:
        environment = prepared(Path(name) / "home")
        marks = [
            mark
            for seed in range(wanted.sittings)
            for mark in sitting(environment, seed, wanted.questions)
        ]
    for which, some in (
        ("first of a sitting", [mark for mark in marks if mark.first]),
        ("later", [mark for mark in marks if not mark.first]),
        ("all", marks),
    ):
        print(told(f"{which}, clock ms", [mark.clock for mark in some]))
        print(told(f"{which}, processor ms", [mark.processor for mark in some]))
    sys.exit(statistics.median(mark.clock for mark in marks) > AIM)


if __name__ == "__main__":
    main()
