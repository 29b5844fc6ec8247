"""Twenty invented learners in real sittings for four weeks, and the report that a tutor reads.

    python tests/bench/tutor_trial.py FOLDER KEY.json --seed 20261
    python tests/bench/tutor_trial.py FOLDER KEY.json --seed 20261 --learners L03

Six have no weakness, ten have one, four have two (`tests/lab/typists.py`). Each sits most days, as
`drill sit` would have it, and types answers that are marked as anybody's. FOLDER gets the first
twenty lines of each one's `drill weak`, KEY.json what was planted: keep it elsewhere, so that the
reports can be read blind. `--check` reads every report again and says whether what was planted is
among its lines, which is no blind reading.
"""

from __future__ import annotations

import argparse
import json
import os
from collections.abc import Iterable
from datetime import datetime, timedelta
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory

from drill.bank import Bank, read_deck
from drill.model import Deck
from drill.places import bank_dir
from drill.sitting import CurrentQuestion, Goal, Sitting
from drill.store import Store
from tests.lab.typists import WEAKNESSES, Typist

START = datetime.fromisoformat("2027-01-11T17:00:00+00:00")
DAYS, MISSED, LINES = 28, 0.2, 20
DECK = """\
format = 1
id = "practicals"
title = "Measuring and making salts"
course = "combined higher"
minutes_a_day = 15
[[paper]]
id = "first"
exam = 2027-03-22
[[topic]]
practical = "safety"
[[topic]]
practical = "measure"
weight = 2
[[topic]]
practical = "salts"
"""


def planted(seed: int) -> dict[str, list[str]]:
    """{learner: weaknesses}, six with none, ten with one and four with two, in any order."""
    rng = Random(f"tutor trial {seed}")
    pairs = [sorted(rng.sample(WEAKNESSES, 2)) for _ in range(4)]
    every = [*([] for _ in range(6)), *([one] for one in WEAKNESSES * 2), *pairs]
    rng.shuffle(every)
    return {f"L{number:02}": list(some) for number, some in enumerate(every, 1)}


def four_weeks(home: Path, who: str, seed: int, weaknesses: Iterable[str]) -> datetime:
    """Sit four weeks; the evening after."""
    rng = Random(f"tutor trial {seed} {who}")
    typist = Typist(rng.getrandbits(32), frozenset(weaknesses), START)
    (home / "deck.toml").write_text(DECK, "utf-8")
    deck = read_deck(home / "deck.toml")
    assert isinstance(deck, Deck), deck
    bank = Bank.open(bank_dir())
    with Store.open(home / "drill.db") as store:
        learner = store.new_learner(who, START)
        store.set_setting(learner, "deck", str(home / "deck.toml"), START)
        for day in range(DAYS):
            if day and rng.random() < MISSED:
                continue
            now = START + timedelta(days=day)
            sitting = Sitting(store, bank, deck, learner, now, Goal(), rng.getrandbits(32))
            while (asked := sitting.next(now)) is not None:
                now = put(sitting, asked, typist, bank, now, rng)
            sitting.end(now)
    return START + timedelta(days=DAYS)


def put(
    sitting: Sitting, asked: CurrentQuestion, typist: Typist, bank: Bank, now: datetime, rng: Random
) -> datetime:
    """Answer a question, or read its worked answer; when that was done."""
    usual = bank.entry(asked.question.template).seconds / len(asked.question.parts)
    for part in () if asked.shown else asked.waiting():
        said = typist.answer(asked.question, part, usual, now, rng)
        now += timedelta(seconds=said.seconds)
        if said.text is None:
            sitting.pass_part(asked, part, said.seconds, now)
            continue
        mark = sitting.answer(asked, part, said.text, said.seconds, now, said.sure, again=True)
        if mark.self_marked:
            sitting.set_level(asked, part, rng.randint(0, mark.of), now)
        elif mark.unsure:
            sitting.decide(asked, part, dict.fromkeys(mark.unsure, False), now)
    sitting.finish(asked, now)
    return now + timedelta(seconds=20)


def report(home: Path, who: str, now: datetime) -> list[str]:
    """The first lines of `drill weak`."""
    from tests.common.desk import drill

    os.environ.update(DRILL_HOME=str(home), COLUMNS="80", NO_COLOR="1")
    told = drill("weak", who, "--at", now.isoformat(timespec="minutes"))
    assert told.exit_code == 0, told.output
    return [line.rstrip() for line in told.stdout.splitlines()[:LINES]]


def main() -> None:
    """Everybody, a file each."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("key", type=Path)
    parser.add_argument("--seed", type=int, default=20261)
    parser.add_argument("--learners", default="")
    parser.add_argument("--keep", type=Path, help="Keep each one's data folder in here.")
    given = parser.parse_args()
    key = planted(given.seed)
    given.key.write_text(json.dumps(key, indent=1), "utf-8")
    given.folder.mkdir(parents=True, exist_ok=True)
    wanted = given.learners.split(",") if given.learners else list(key)
    with TemporaryDirectory() as folder:
        for who in wanted:
            home = (given.keep or Path(folder)) / who
            home.mkdir(parents=True, exist_ok=True)
            now = START + timedelta(days=DAYS)
            if not (home / "drill.db").exists():
                now = four_weeks(home, who, given.seed, key[who])
            lines = report(home, who, now)
            (given.folder / f"{who}.txt").write_text("\n".join(lines) + "\n", "utf-8")


if __name__ == "__main__":
    main()
