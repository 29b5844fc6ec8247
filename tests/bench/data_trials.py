"""Attacks on what people have stored: crafted imports, flipped bits, damaged stores, kills.

    python tests/bench/data_trials.py imports 200
    python tests/bench/data_trials.py flips 200, kills 100, stores, encodings, size 2000, ends

A third word is the seed, or the first of them.

Prints what went wrong, and how many trials there were. A trial of `kills` is a real sitting in a
terminal, killed while it is answered.
"""

from __future__ import annotations

import os
import sqlite3
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from random import Random

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from tests.common.attacks import (
    attack_by_flip,
    attack_by_store,
    damaged_stores,
    fresh,
    two_learners,
)
from tests.common.crafted import CLASSES, attack_by_import, bases, crafted, records_of
from tests.common.kills import ROOT, Trial

Wrong = Iterator[list[str]]


def imports(home: Path, number: int, seed: int) -> Wrong:
    """Each class of crafted files in turn, where its learner is known and where not."""
    both, alone = bases(home.parent)
    mine, others = records_of(both, "K7"), records_of(both, "Q9")
    for trial in range(seed, seed + number):
        name, chance = CLASSES[trial % len(CLASSES)], Random(trial)
        fresh(chance.choice((both, alone)), home)
        lines = crafted(name, mine, others, chance)
        yield [f"{name} {trial}: {line}" for line in attack_by_import(home, lines, "Q9")]


def flips(home: Path, number: int, seed: int) -> Wrong:
    base = home.with_name("base")
    two_learners(base)
    size, chance = (base / "drill.db").stat().st_size, Random(seed)
    for _ in range(number):
        fresh(base, home)
        yield attack_by_flip(home, chance.randrange(size), chance.randrange(8))


def stores(home: Path, number: int, seed: int) -> Wrong:
    base = home.with_name("base")
    two_learners(base)
    sound = (base / "drill.db").read_bytes()
    for what, put in damaged_stores(sound, Random(3))[seed : seed + number]:
        fresh(base, home)
        yield [f"{what}: {line}" for line in attack_by_store(home, put)]


COMMANDS = (
    "sit --learner K7 --at 2027-02-01T17:00", "plan", "plan --json", "weak", "weak --json",
    "appeals --json", "appeals accept", "regrade", "learner list", "deck list", "bank list",
    "bank skills", "ask salts", "data export", "data export --format csv", "data verify",
    "data imports", "data backup", "--help", "sit --help", "plan --minutes nan", "sit --at x",
)  # fmt: skip


def encodings(home: Path, number: int, seed: int) -> Wrong:
    two_learners(home)
    for encoding in ("utf-8", "cp1252", "ascii", "cp437"):
        for command in COMMANDS[seed : seed + number]:
            environment = {**os.environ, "PYTHONIOENCODING": encoding, "NO_COLOR": "1"}
            done = subprocess.run(
                [sys.executable, "-m", "drill", *command.split()],
                input=b"x\n\n12.5 g\nstop\n", capture_output=True, cwd=ROOT, env=environment,
            )  # fmt: skip
            faulty = done.returncode not in (0, 1, 2, 130) or b"Traceback" in done.stderr
            yield [f"{encoding}: {command}: {done.stderr!r:.300}"] if faulty else []


def kills(home: Path, number: int, seed: int) -> Wrong:
    trial = Trial(home, Random(seed))
    for _ in range(number):
        yield trial.sitting_killed()
    print(f"{len(trial.acknowledged)} answers acknowledged")


def size(home: Path, number: int, seed: int) -> Wrong:
    """Bytes an answer takes in a store grown by sittings, template texts apart, checkpointed."""
    from drill.store import Store
    from tests.common.attacks import START
    from tests.common.grown import grown
    from tests.store.making import in_haste

    home.mkdir(exist_ok=True)
    with in_haste(Store.open(home / "drill.db")) as store:
        answers = grown(store, "spring-practicals", number, START, Random(seed))
        store._db.rows("PRAGMA wal_checkpoint(TRUNCATE)")
    whole = (home / "drill.db").stat().st_size
    with closing(sqlite3.connect(home / "drill.db")) as db:
        pages = dict(db.execute("SELECT name, sum(pgsize) FROM dbstat GROUP BY name"))
        rows = {name: db.execute(f"SELECT count(*) FROM {name}").fetchone()[0]
                for name in ("sitting", "asking", "answer", "verdict", "appeal")}  # fmt: skip
    texts = sum(bytes for name, bytes in pages.items() if "template_version" in name)
    print(f"{rows}; the largest, in bytes an answer:")
    for name in sorted(pages, key=lambda name: -pages[name])[:12]:
        print(f"  {name} {pages[name] / answers:.0f}")
    print(f"{answers} answers: {(whole - texts) / answers:.0f} bytes each")
    yield [] if (whole - texts) / answers <= 600 else ["more than 600 bytes an answer"]


TRIALS = {"imports": imports, "flips": flips, "stores": stores, "encodings": encodings,
          "kills": kills, "size": size}  # fmt: skip


def main(name: str, number: int, seed: int) -> None:
    with tempfile.TemporaryDirectory() as folder:
        home = Path(folder) / "home"
        os.environ["DRILL_HOME"] = str(home)
        done = faults = 0
        for wrong in TRIALS[name](home, number, seed):
            done += 1
            faults += bool(wrong)
            for line in wrong:
                print(f"{name} {done}: {line}", flush=True)
    print(f"{name}: {done} trials, {faults} with something wrong")


if __name__ == "__main__":
    more = [int(word) for word in sys.argv[2:4]]
    main(sys.argv[1], *more, *(50, 0)[len(more) :])
