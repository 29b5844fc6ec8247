"""What is done to a store and its files on purpose: crafted imports, flipped bits, damaged stores.

Each attack gives back what went wrong, a line each; the tests run a few, the benches hundreds.
"""

from __future__ import annotations

import os
import shutil
import sqlite3
from collections.abc import Callable
from contextlib import closing
from datetime import datetime, timedelta
from pathlib import Path
from random import Random
from typing import Any

from drill.app.context import deck_of, open_bank
from drill.bank import Bank
from drill.places import bank_dir
from drill.sitting import Goal, Sitting
from drill.store import Learner, Store
from drill.store.tables import OWNED, TABLES
from tests.common.ends import ends
from tests.store.making import in_haste

START = datetime.fromisoformat("2027-01-12T17:00:00+00:00")
AT = "2027-02-01T17:00"
DECK = """
format = 1
title = "Five skills"
course = "separate higher"
minutes_a_day = 10

[[topic]]
skills = ["calc.percentage-yield", "calc.mass-by-difference", "salts.excess", "salts.crystallise",
          "apparatus.identify"]
"""
"""Few skills, so that a plan of it is quick."""


def practised(store: Store, code: str, questions: int, start: datetime = START) -> Learner:
    """A learner who answered some questions of a small deck, in a sitting that is still open."""
    who = store.new_learner(code, start)
    deck = deck_of(store, who, small_deck(store.path.parent))
    sitting = Sitting(store, open_bank(deck), deck, who, start, Goal(questions, None))
    now = start
    while (asked := sitting.next(now, extra=True)) is not None:
        for number, part in enumerate(() if asked.shown else asked.waiting()):
            now += timedelta(seconds=40)
            text = part.model_answer if number % 2 == 0 else "12.5 g"
            mark = sitting.answer(asked, part, text, 30.0, now)
            if not mark.readable:
                sitting.answer(asked, part, text, 30.0, now, again=True)
            elif mark.marks == 0:
                sitting.appeal(asked, part, "why not", now)
        sitting.finish(asked, now)
    store.set_setting(who, "minutes", "20", now)
    store.set_setting(who, "deck", deck.id, now)
    return who


def small_deck(home: Path) -> str:
    """The small deck among the decks of a data folder; returns its file."""
    file = home / "decks" / "five-skills.toml"
    file.parent.mkdir(exist_ok=True)
    file.write_text(DECK)
    return str(file)


def two_learners(home: Path, questions: int = 4) -> tuple[str, str]:
    """A data folder with K7 and Q9, both practised, and an index of the bank; returns their codes.

    It is the one DRILL_HOME names, or is copied there afterwards (see `fresh`).
    """
    home.mkdir(exist_ok=True)
    Bank.open(bank_dir(), cache=home / "bank-index.json")
    with Store.open(home / "drill.db") as store:
        in_haste(store)
        practised(store, "K7", questions)
        practised(store, "Q9", questions, START + timedelta(hours=1))
        store._db.rows("PRAGMA wal_checkpoint(TRUNCATE)")
    return "K7", "Q9"


def rows_of(home: Path, code: str) -> dict[str, list[tuple[Any, ...]]]:
    """Every row of a learner, but for the cached memory."""
    with closing(sqlite3.connect(home / "drill.db")) as db:
        learner = db.execute('SELECT "learner" FROM "learner_name" WHERE "code" = ?', [code])
        (key,) = learner.fetchone()
        return {
            table: db.execute(f'SELECT * FROM "{table}" WHERE {which}', [key]).fetchall()
            for table, which in OWNED.items()
            if table != "memory_state"
        }


ANOTHER, _TYPED = "first-steps", ("12.5 g", "", "stop")


def everyday(code: str) -> list[str]:
    """What goes wrong when somebody sits down, plans and looks at weak skills.

    Where their own settings name a deck that is not here they are told so, and name another.
    """
    wrong = []
    for arguments, deck, typed in (
        (("sit", "--learner", code, "--at", AT, "--questions", "2"), (ANOTHER,), _TYPED),
        (("plan", "--learner", code, "--at", AT), (ANOTHER,), ()),
        (("weak", code, "--at", AT), ("--deck", ANOTHER), ()),
    ):
        end = ends(*arguments, typed=typed)
        if "no topic deck" in end.err and "Name another" in end.err:
            end = ends(*arguments, *deck, typed=typed)
        if end.code not in (0, 130):
            wrong.append(f"{arguments}: exit {end.code}: {end.err.strip()[:300]}")
    return wrong


# ---------------------------------------------------------------- flipped bits


def attack_by_flip(home: Path, place: int, bit: int) -> list[str]:
    """What a flipped bit does: a traceback, a change nobody notices, damage exported as whole."""
    path = home / "drill.db"
    sound, lines = _content(path), set(_exported(home)[1])
    raw = bytearray(path.read_bytes())
    raw[place] ^= 1 << bit
    path.write_bytes(bytes(raw))
    changed = _content(path) != sound
    wrong = []
    verified = ends("data", "verify")
    if not verified.is_clean:
        wrong.append(f"verify: {verified.code} {verified.err[:300]}")
    if changed and verified.code == 0:
        wrong.append("a change that verify does not see")
    for arguments in (
        ("plan",),
        ("weak",),
        ("appeals", "--json"),
        ("data", "export", "--format", "csv"),
    ):
        end = ends(*arguments)
        if not end.is_clean or "fault of ours" in end.err:
            wrong.append(f"{arguments}: {end.code} {end.err[:300]}")
    code, told = _exported(home)
    if code not in (0, 1):
        wrong.append(f"export: {code}")
    if code == 0 or told:
        wrong += [f"exported as whole: {line[:200]}" for line in told if line not in lines][:1]
    return wrong


def _exported(home: Path) -> tuple[int, list[str]]:
    end = ends("data", "export", "--learner", "K7")
    return end.code, end.out.splitlines()


def _content(path: Path) -> list[Any]:
    try:
        with closing(sqlite3.connect(path)) as db:
            db.text_factory = bytes
            return [db.execute(f'SELECT * FROM "{table}"').fetchall() for table in TABLES]
    except sqlite3.Error as error:
        return [type(error).__name__]


# ---------------------------------------------------------------- damaged and foreign stores


def damaged_stores(sound: bytes, chance: Random) -> list[tuple[str, Callable[[Path], object]]]:
    """(what it is, how it is put in place) of stores that are none, or not whole."""

    def written(content: bytes) -> Callable[[Path], object]:
        return lambda path: path.write_bytes(content)

    def newer(path: Path) -> None:
        path.write_bytes(sound)
        with closing(sqlite3.connect(path)) as db:
            db.execute("PRAGMA user_version = 99")

    def foreign(path: Path) -> None:
        with closing(sqlite3.connect(path)) as db:
            db.execute("CREATE TABLE photo (name TEXT)")

    def without_a_table(table: str) -> Callable[[Path], object]:
        def made(path: Path) -> None:
            path.write_bytes(sound)
            with closing(sqlite3.connect(path)) as db:
                db.execute(f'DROP TABLE "{table}"')

        return made

    stores: list[tuple[str, Callable[[Path], object]]] = [
        (f"cut to {size} bytes", written(sound[:size]))
        for size in (0, 1, 15, 16, 99, 100, 511, 512, 4095, 4096, 8192, 20_000, len(sound) - 4096)
    ]
    stores += [
        ("a letter", written(b"Dear reader, " * 500)),
        ("zeros", written(bytes(len(sound)))),
        ("a folder", lambda path: path.mkdir()),
        ("a link to nothing", lambda path: path.symlink_to(path.with_name("nothing") / "there")),
        ("a link to itself", lambda path: path.symlink_to(path)),
        ("of a newer version", newer),
        ("somebody else's", foreign),
        ("with a log of noise", lambda path: (path.write_bytes(sound), path.with_name(
            "drill.db-wal").write_bytes(chance.randbytes(50_000)))),
    ]  # fmt: skip
    stores += [
        (f"without {table}", without_a_table(table))
        for table in ("learner", "learner_name", "setting", "asking", "answer", "verdict", "word")
    ]
    while len(stores) < 50:
        spot, long = chance.randrange(100, len(sound) - 600), chance.choice((16, 512))
        noise = sound[:spot] + chance.randbytes(long) + sound[spot + long :]
        stores.append((f"noise at {spot}", written(noise)))
    return stores


def attack_by_store(home: Path, put: Callable[[Path], object]) -> list[str]:
    """What every command makes of a damaged or foreign store."""
    path = home / "drill.db"
    for old in home.glob("drill.db*"):
        old.unlink()
    put(path)
    wrong = []
    for arguments, typed in (
        (("data", "verify"), ()), (("sit", "--learner", "K7"), ("stop",)), (("plan",), ()),
        (("weak",), ()), (("data", "export"), ()), (("data", "imports"), ()),
        (("learner", "list"), ()), (("appeals", "--json"), ()), (("data", "backup"), ()),
        (("data", "erase", "Q9", "--yes"), ()), (("learner", "rename", "K7", "K8"), ()),
    ):  # fmt: skip
        end = ends(*arguments, typed=typed)
        if not end.is_clean or len(end.lines) > 200 or len(end.err.splitlines()) > 20:
            wrong.append(f"{arguments}: {end.code} {end.err.strip()[:300]}")
    return wrong


def fresh(source: Path, home: Path) -> None:
    """A data folder as it was, put in place anew."""
    shutil.rmtree(home, ignore_errors=True)
    shutil.copytree(source, home)
    os.chmod(home, 0o700)
