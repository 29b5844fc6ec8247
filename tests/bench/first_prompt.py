"""From the command to the first question's prompt, beside an empty typer app that prints a line.

    python tests/bench/first_prompt.py                # 15 starts of each, alternately

Both run on a pseudo-terminal of 80 by 24 with compiled modules. The empty app has two commands and
prints one line through rich. Aim: the median of drill at most 1.3 times that of the empty app.
"""

from __future__ import annotations

import argparse
import os
import pty
import select
import signal
import statistics
import subprocess
import sys
import tempfile
import time
from datetime import UTC, datetime
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from drill.store import Store

AIM = 1.3
_LONGEST = 30.0  # seconds

_EMPTY = """
import typer
app = typer.Typer()
@app.command()
def one():
    from rich.console import Console
    Console().print("[bold]ready[/bold] > ")
@app.command()
def two():
    pass
app()
"""
DRILL = "from drill.cli import run; run()"


def until(command: list[str], wanted: bytes, environment: dict[str, str]) -> float:
    """Seconds from the start of a command until it has written `wanted` to its terminal."""
    pid, terminal = pty.fork()
    if pid == 0:
        os.execve(command[0], command, environment)
    begun, said = time.perf_counter(), b""
    try:
        while wanted not in said:
            left = begun + _LONGEST - time.perf_counter()
            if left <= 0 or not select.select([terminal], [], [], left)[0]:
                raise TimeoutError(f"{command[1:]} said only {said!r}")
            said += os.read(terminal, 65536)
        return time.perf_counter() - begun
    finally:
        os.kill(pid, signal.SIGKILL)
        os.waitpid(pid, 0)
        os.close(terminal)


def prepared(folder: Path) -> dict[str, str]:
    """An environment with compiled modules, a learner, a greeting that was read and an index."""
    environment = {**os.environ, "DRILL_HOME": str(folder), "COLUMNS": "80", "LINES": "24"}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)
    environment["PYTHONPYCACHEPREFIX"] = str(folder.with_name("compiled"))
    first = [sys.executable, "-c", DRILL, "sit", "--learner", "ada", "--seed", "1"]
    subprocess.run(first, input=b"stop\n", env=environment, check=True, capture_output=True)
    with Store.open(folder / "drill.db") as store:  # the course is asked once, before any question
        now = datetime.now(UTC)
        store.set_setting(store.learners()[0], "course", "combined higher", now)
    return environment


def main() -> None:
    """Two medians and their ratio; exit 1 when it is above the aim."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--times", type=int, default=15)
    times = parser.parse_args().times
    with tempfile.TemporaryDirectory() as name:
        environment = prepared(Path(name) / "home")
        empty_app = Path(name) / "empty.py"
        empty_app.write_text(_EMPTY, encoding="utf-8")
        ours = [sys.executable, "-c", DRILL, "sit", "--learner", "ada", "--seed", "1"]
        empty = [sys.executable, str(empty_app), "one"]
        taken: dict[str, list[float]] = {"empty": [], "drill": []}
        until(empty, b"ready", environment)
        until(ours, b"answer", environment)
        for _ in range(times):
            taken["empty"].append(until(empty, b"ready", environment))
            taken["drill"].append(until(ours, b"answer", environment))
    medians = {name: statistics.median(several) for name, several in taken.items()}
    for name, median in medians.items():
        spread = f"{1000 * min(taken[name]):.0f} to {1000 * max(taken[name]):.0f}"
        print(f"{name:6} {1000 * median:6.0f} ms   ({spread})")
    ratio = medians["drill"] / medians["empty"]
    print(f"ratio  {ratio:6.2f}      aim {AIM}")
    sys.exit(ratio > AIM)


if __name__ == "__main__":
    main()
