"""Files, prompts and options fuzzed by hypothesis: no traceback, none over two seconds or 300 MB.

    python tests/bench/fuzz.py --tries 200 --seed 1 [--only decks,prompts] [--keep FOLDER]

Each try spoils a sound file (`tests/common/spoiling.py`), or types hostile lines, and runs the
commands that read them in a process of its own, in a data folder with two learners. Seconds are of
the processor, those of a try's slowest command; memory is the most that its process held, the
program and the bank included. `--keep` keeps the folder of each fault.
"""

from __future__ import annotations

import argparse
import os
import resource
import shutil
import signal
import sys
import tempfile
import time
import traceback
from collections.abc import Callable
from pathlib import Path
from typing import Any, NamedTuple

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from hypothesis import HealthCheck, Phase, given, seed, settings

from tests.bench.fuzz_folder import sound_folder
from tests.bench.fuzz_targets import TARGETS, Target
from tests.common.attacks import fresh
from tests.common.ends import End, ends
from tests.common.odd_values import wrong

MEGABYTES, HANG = 300, 30


class Try(NamedTuple):
    """What became of one try; `said` is "" when nothing was wrong."""

    said: str
    seconds: float
    megabytes: float


def once(target: Target, base: Path, folder: Path, made: Any) -> Try:
    """One try in a process of its own."""
    fresh(base, folder)
    told = folder.with_name("told")
    told.write_text("no word from the process")
    child = os.fork()
    if child == 0:
        os._exit(_in_child(target, folder, made, told))
    signal.signal(signal.SIGALRM, lambda *_: os.kill(child, signal.SIGKILL))
    signal.alarm(HANG * 4)
    _, status, used = os.wait4(child, 0)
    signal.alarm(0)
    said, _, slowest = told.read_text("utf-8").rpartition("\n")
    if status:
        said = f"ended with status {status}: {told.read_text('utf-8')[-300:]}"
    seconds = float(slowest) if not status else HANG
    megabytes = used.ru_maxrss / 1024
    if not said and seconds > target.seconds:
        said = f"{seconds:.1f} s"
    if not said and megabytes > MEGABYTES:
        said = f"{megabytes:.0f} MB"
    return Try(said, seconds, megabytes)


def _in_child(target: Target, folder: Path, made: Any, told: Path) -> int:
    """Writes what was wrong and the slowest command's seconds; never raises."""
    os.environ["DRILL_HOME"] = str(folder / "home")
    os.chdir(folder)
    resource.setrlimit(resource.RLIMIT_CPU, (HANG, HANG))
    slowest, said = 0.0, ""
    try:
        for command in target.commands(folder, made):
            began = time.process_time()
            end = ends(*command.words, typed=command.typed)
            slowest = max(slowest, time.process_time() - began)
            said = said or _told(command.words, end)
    except BaseException:
        said = traceback.format_exc()[-1500:]
    told.write_text(f"{said}\n{slowest}", encoding="utf-8", errors="backslashreplace")
    return 0


def _told(words: tuple[str, ...], end: End) -> str:
    fault = wrong(end)
    log = Path(os.environ["DRILL_HOME"]) / "fault.log"
    details = log.read_text("utf-8", "replace")[-1500:] if fault and log.exists() else ""
    return f"{' '.join(words)[:120]!r}: {fault}\n{details}" if fault else ""


def fuzz(target: Target, base: Path, tries: int, number: int, keep: Path | None) -> int:
    """One line of figures and the distinct faults; how many tries went wrong."""
    done: list[Try] = []
    faults: dict[str, str] = {}

    @seed(number)
    @settings(max_examples=tries, deadline=None, database=None, phases=[Phase.generate],
              suppress_health_check=list(HealthCheck))  # fmt: skip
    @given(target.made)
    def run(made: Any) -> None:
        one = once(target, base, base.with_name("try"), made)
        done.append(one)
        key = one.said.strip().rpartition("\n")[2][-100:]
        if one.said and key not in faults:
            faults[key] = one.said
            if keep:
                shutil.copytree(base.with_name("try"), keep / f"{target.name}-{number}-{len(done)}")
                (keep / f"{target.name}-{number}-{len(done)}.txt").write_text(repr(made)[:100_000])

    began = time.monotonic()
    run()
    bad = sum(bool(one.said) for one in done)
    print(
        f"{target.name:12} {len(done):6} tries, {bad} wrong, slowest"
        f" {max(one.seconds for one in done):.2f} s, at most"
        f" {max(one.megabytes for one in done):.0f} MB, in {time.monotonic() - began:.0f} s",
        flush=True,
    )
    for said in list(faults.values())[:8]:
        print("    " + said.strip().replace("\n", "\n    "), flush=True)
    return bad


def main() -> int:
    """Fuzz every target, or those named; 1 when anything went wrong."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--tries", type=int, default=200)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--only", default="", help=", ".join(TARGETS))
    parser.add_argument("--keep", type=Path)
    chosen = parser.parse_args()
    names = chosen.only.split(",") if chosen.only else list(TARGETS)
    with tempfile.TemporaryDirectory() as scratch:
        base = Path(scratch) / "base"
        sound_folder(base)
        made: Callable[[str], int] = lambda name: fuzz(  # noqa: E731
            TARGETS[name], base, chosen.tries, chosen.seed, chosen.keep
        )
        return min(1, sum(map(made, names)))


if __name__ == "__main__":
    sys.exit(main())
