"""What a start costs a learner with many answers, beside one with few.

    python tests/bench/start.py                       # 100, 10,000 and 100,000 answers
    python tests/bench/start.py 1000 1000000          # some ten minutes

A database is made for each in a folder of its own; the answers lie on the templates of the first
demonstration deck, a few minutes apart. Timed: planner and memory from the store, the first
question chosen, the seeds already used of its template, opening a sitting, one memory update, and
the next question of an open sitting: chosen, its numbers drawn, on the disk. Medians of 5.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import datetime, timedelta
from pathlib import Path

from drill.app.context import deck_of, open_bank
from drill.bank import Bank
from drill.generate.draws.stream import choose
from drill.model import Deck
from drill.sitting import Goal, Sitting, history, learners_planner
from drill.store import Learner, Store
from drill.store.marks import mark_columns
from drill.store.sittings import word
from drill.store.values import new_id, stamp
from tests.store.making import mark

NOW = datetime.fromisoformat("2027-03-01T17:00:00+00:00")
TIMES = 5


def filled(folder: Path, bank: Bank, answers: int) -> tuple[Store, Learner]:
    """A store where one learner has answered so many questions, the last one yesterday."""
    store = Store.open(folder / "drill.sqlite")
    db, who = store._db, store.new_learner("K7", NOW)
    entries = bank.entries()[:200]
    for entry in entries:
        template = bank.template(entry.id)
        assert not isinstance(template, tuple)
        store.keep_template(template.version, entry.id, template.text, [], {})
    keys = dict(db.rows('SELECT "template", "key" FROM "template_version"'))
    sitting = store.start_sitting(who, "first-steps", NOW, {})
    store.end_sitting(sitting, NOW, "done")
    learner, place = db.key("learner", who.id), db.key("sitting", sitting)
    right, wrong = mark_columns(mark(1)), mark_columns(mark(0))
    skills = {entry.id: word(db, entry.skills[0]) for entry in entries}
    marker = word(db, "1")
    with db.transaction():
        for number in range(answers):
            at = NOW - timedelta(days=1, seconds=180 * (answers - number) * min(1.0, 2e5 / answers))
            entry = entries[choose(5, f"entry {number}", len(entries))]
            asking = db.insert(
                "asking",
                id=new_id(),
                sitting=place,
                learner=learner,
                template_version=keys[entry.id],
                seed=number,
                skill=skills[entry.id],
                shown=0,
                **stamp(at),
            )
            answer = db.insert(
                "answer",
                id=new_id(),
                asking=asking,
                part="a",
                text="66.0",
                kind="answer",
                sure=None,
                ms=60000,
                **stamp(at),
            )
            columns = right if choose(5, f"mark {number}", 3) else wrong
            db.insert(
                "verdict",
                id=new_id(),
                answer=answer,
                judge="engine",
                marker=marker,
                **columns,
                **stamp(at),
            )
    return store, who


def median(what: Callable[[], object]) -> float:
    """Seconds, in the middle of `TIMES` runs."""
    taken = []
    for _ in range(TIMES):
        begun = time.perf_counter()
        what()
        taken.append(time.perf_counter() - begun)
    return sorted(taken)[TIMES // 2]


def measure(bank: Bank, deck: Deck, answers: int) -> tuple[float, ...]:
    """Seconds: rebuild, planner, choice, used seeds, opening a sitting, update, next question."""
    with tempfile.TemporaryDirectory() as name:
        store, who = filled(Path(name), bank, answers)
        with store:
            begun = time.perf_counter()
            memory = history.remembered(store, who)
            rebuilt = time.perf_counter() - begun
            history.keep(store, who, memory, store.seen())
            planner = learners_planner(store, bank, deck, who, NOW)
            choice = planner.choose(NOW)
            assert choice is not None
            sitting = Sitting(store, bank, deck, who, NOW, Goal(50, None))
            sitting.next(NOW)
            return (
                rebuilt,
                median(lambda: learners_planner(store, bank, deck, who, NOW)),
                median(lambda: learners_planner(store, bank, deck, who, NOW).choose(NOW)),
                median(lambda: store.used_seeds(who, choice.template)),
                median(lambda: Sitting(store, bank, deck, who, NOW, Goal(1, None))),
                median(lambda: memory.observe(choice.skill, choice.template, NOW, 1.0)),
                median(lambda: sitting.next(NOW)),
            )


def main() -> None:
    """A line for each number of answers, and the last over the first."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("answers", type=int, nargs="*", default=[100, 10_000, 100_000])
    with tempfile.TemporaryDirectory() as name:
        with Store.open(Path(name) / "drill.sqlite") as store:
            deck = deck_of(store, store.new_learner("K7", NOW), "first-steps")
        bank = open_bank(deck)
        names = ("rebuild", "planner", "+ choose", "seeds", "sitting", "update", "next")
        print(f"{'answers':>8}" + "".join(f"{name:>11}" for name in names) + "   ms")
        rows = []
        for answers in parser.parse_args().answers:
            rows.append(measure(bank, deck, answers))
            print(f"{answers:8}" + "".join(f"{1000 * taken:11.2f}" for taken in rows[-1]))
            sys.stdout.flush()
    print(
        f"{'ratio':>8}" + "".join(f"{b / a:11.2f}" for a, b in zip(rows[0], rows[-1], strict=True))
    )


if __name__ == "__main__":
    main()
