"""Attacks on what people have stored: crafted imports, flipped bits, damaged stores, kills.

    python tests/bench/data_trials.py imports 200
    python tests/bench/data_trials.py flips 200, kills 100, stores, encodings 99, size 2000
    python tests/bench/data_trials.py papers 100, killed 200, options 9999

A third word is the seed, or the first of them.

Prints what went wrong, and how many trials there were. A trial of `kills` is a real sitting in a
terminal, killed while it is answered, one of `papers` a paper against the clock; `killed` are
commands that write.
"""

from __future__ import annotations

import os
import sqlite3
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
from tests.common.crafted import CLASSES, crafted
from tests.common.ends import ends
from tests.common.import_attacks import attack_by_import, bases, records_of
from tests.common.killed_commands import KINDS, CommandTrial
from tests.common.kills import Trial
from tests.common.odd_values import NEEDED, commands, lines, prompts, wrong

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


MORE = (
    "plan --json", "weak --json", "weak --csv", "appeals --json", "data export --format csv",
    "deck list --json", "bank list --json", "data verify --json", "--help", "sit --help",
    "plan --minutes nan", "sit --at x", "sit --plain --learner Q9", "learner list --json",
)  # fmt: skip


def encodings(home: Path, number: int, seed: int) -> Wrong:
    """Every command there is, by itself and with more options, in four encodings."""
    base = home.with_name("base")
    two_learners(base)
    every = [f"{name} {NEEDED.get(name, '')}" for name, _ in commands()] + list(MORE)
    for encoding in ("utf-8", "cp1252", "ascii", "cp437"):
        fresh(base, home)
        os.chdir(home)
        for command in every[seed : seed + number]:
            end = ends(*command.split(), typed=["x", "", "12.5 g", "stop"], encoding=encoding)
            said = wrong(end)
            yield [f"{encoding}: {command}: {said}"] if said else []


def kills(home: Path, number: int, seed: int) -> Wrong:
    trial = Trial(home, Random(seed))
    for _ in range(number):
        yield trial.sitting_killed()
    print(f"{len(trial.acknowledged)} answers acknowledged")


def papers(home: Path, number: int, seed: int) -> Wrong:
    """Papers against the clock, killed while they are answered and gone on with."""
    trial = Trial(home, Random(seed), "--paper", "40")
    for _ in range(number):
        yield trial.sitting_killed()
    print(f"{len(trial.acknowledged)} answers acknowledged")


def killed(home: Path, number: int, seed: int) -> Wrong:
    """Gathering a class, entering marks from paper, making a paper, a handout: each in turn."""
    trials = [CommandTrial(home / name, kind, Random(seed)) for name, kind in KINDS.items()]
    for at in range(number):
        trial = trials[at % len(trials)]
        yield [f"{trial.kind.command[1]}: {line}" for line in trial.killed()]


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


def options(home: Path, number: int, seed: int) -> Wrong:
    """Odd values at every option of every command, and at the prompts of a sitting."""
    base = home.with_name("base")
    two_learners(base)
    fresh(base, home)
    os.chdir(home)  # what a command writes without being told where
    tried = [line for name, command in commands() for line in lines(name, command)]
    for line in tried[seed : seed + number]:
        said = wrong(ends(*line, typed=["stop"]))
        yield [f"{' '.join(line)[:90]!r}: {said}"] if said else []
    for name in ("sit", "appeals", "plan"):
        fresh(base, home)
        os.chdir(home)
        for text, said in prompts(name):
            yield [f"{name} with {text!r} typed: {said}"] if said else []


TRIALS = {"imports": imports, "flips": flips, "stores": stores, "encodings": encodings,
          "kills": kills, "papers": papers, "killed": killed, "size": size,
          "options": options}  # fmt: skip


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
