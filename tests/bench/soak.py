"""Thousands of pupil-days in real sittings: bounds, ranges, the store, memory, bytes an answer.

    python -m tests.bench.soak rows.jsonl --stores 28               # resumes where it stopped
    python -m tests.bench.soak rows.jsonl --first-store 14 --stores 14
    python -m tests.bench.soak rows.jsonl --report

A store is shared by eight pupils (`tests/lab/pupils.py`) who sit most evenings for four weeks, with
one of three decks. Each sitting goes through `Sitting` as `drill sit` does, hints, passes, fixes,
appeals and unreadable answers included. Every mark is held against its part. When a sitting begins
with 40 answers or more, then 80, 160 and 240, the ranges shown are compared with the truth: every
skill of the deck put in two questions never asked, each part answered as the pupil would knowing it
and not knowing it, marked, and weighed by the chance that it is known. Afterwards `verify` reads
the store, and memory is built again from what is stored. The disk is not waited for.
"""

from __future__ import annotations

import argparse
import json
import resource
import time
from collections.abc import Iterator
from datetime import datetime, timedelta
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory
from typing import Any

from drill.bank import Bank, read_deck
from drill.generate import generate
from drill.marking import mark
from drill.model import Deck, Mark, Part, Question, Template
from drill.places import bank_dir
from drill.planning.figures import Share
from drill.sitting import CurrentQuestion, Goal, Sitting
from drill.store import Learner, Store
from tests.bench.soak_figures import ANSWERS, MOMENTS, Row, report
from tests.lab import LEARNERS
from tests.lab.pupils import PASSED, Pupil, known
from tests.lab.typists import wrong
from tests.store.making import in_haste

START = datetime.fromisoformat("2027-01-11T17:00:00+00:00")
PUPILS, DAYS, MISSED = 8, 28, 0.2
_HEAD = """\
format = 1
id = "{0}"
title = "{0}"
course = "{1}"
minutes_a_day = {2}
[[paper]]
id = "first"
exam = 2027-02-09
"""
DECKS = {
    "making": ("combined higher", 15, ("safety", "measure", "salts")),
    "titration": ("separate higher", 15, ("measure", "titration", "salts")),
    "water": ("combined foundation", 12, ("safety", "rates", "water")),
}
EXAM = datetime.fromisoformat("2027-02-09T09:00:00+00:00")


class Soak:
    """Eight pupils and their store."""

    def __init__(self, folder: Path, bank: Bank, number: int) -> None:
        self.bank, self.number = bank, number
        self.rng = Random(f"soak {number}")
        self.store = in_haste(Store.open(folder / "drill.db"))
        self.wrong: list[str] = []
        self.answers, self.bytes, self.slowest = 0, 0, 0.0
        self.folder = folder

    def run(self) -> Iterator[Row]:
        """A row a pupil, then one for the store."""
        for place in range(PUPILS):
            yield from self._pupil(place)
        self.wrong += self.store.verify()
        yield {
            "store": self.number, "answers": self.answers, "bytes": self.bytes,
            "wrong": self.wrong, "slowest": self.slowest, "kilobytes": resident(),
        }  # fmt: skip
        self.store.close()

    def _pupil(self, place: int) -> Iterator[Row]:
        number = self.number * PUPILS + place
        families = tuple(LEARNERS)
        pupil = Pupil(families[number % len(families)], 50_000 + number)
        deck = self._deck(tuple(DECKS)[number // len(families) % len(DECKS)])
        who = self.store.new_learner(f"P{place}", START)
        made, begun, days = _Term(self, pupil, deck, who), time.process_time(), 0
        for day in range(DAYS):
            if not day or self.rng.random() >= MISSED:
                made.sit(START + timedelta(days=day))
                days += 1
        made.truth("exam", EXAM)
        self.wrong += rebuilt(self.store, who, self.bank, deck)
        yield {
            "pupil": number, "store": self.number, "family": pupil.family, "deck": deck.id,
            "days": days, "answers": made.answers, "told": made.told, "true": made.true,
            "seconds": round(time.process_time() - begun, 1), "kilobytes": resident(),
        }  # fmt: skip

    def _deck(self, name: str) -> Deck:
        course, minutes, practicals = DECKS[name]
        text = _HEAD.format(name, course, minutes)
        text += "".join(f'[[topic]]\npractical = "{one}"\n' for one in practicals)
        (self.folder / f"{name}.toml").write_text(text, "utf-8")
        deck = read_deck(self.folder / f"{name}.toml")
        assert isinstance(deck, Deck), deck
        return deck

    def counted(self) -> None:
        """One answer more; after so many, the bytes of the store without texts of questions."""
        self.answers += 1
        if self.answers == ANSWERS:
            self.bytes = stored_bytes(self.store, self.folder) // ANSWERS


class _Term:
    """Four weeks of one pupil."""

    def __init__(self, soak: Soak, pupil: Pupil, deck: Deck, who: Learner) -> None:
        self.soak, self.pupil, self.deck, self.who = soak, pupil, deck, who
        self.store, self.bank, self.rng = soak.store, soak.bank, soak.rng
        self.answers = 0
        self.told: dict[str, Any] = {}
        self.true: dict[str, float] = {}
        self._skills: dict[str, Any] = {}

    def sit(self, now: datetime) -> None:
        sitting = Sitting(
            self.store, self.bank, self.deck, self.who, now, Goal(), self.rng.getrandbits(32)
        )
        self._begin(sitting, now)
        while (asked := self._timed(sitting, now)) is not None:
            now = self._put(sitting, asked, now) + timedelta(seconds=15)
        sitting.end(now)

    def _timed(self, sitting: Sitting, now: datetime) -> CurrentQuestion | None:
        begun = time.thread_time()
        asked = sitting.next(now)
        self.soak.slowest = max(self.soak.slowest, time.thread_time() - begun)
        return asked

    def _begin(self, sitting: Sitting, now: datetime) -> None:
        """Lessons before the first evening; at some moments, what is shown and what is true."""
        if not self._skills:
            self._skills = dict(sitting.planner.skills)
            for skill in self._skills:
                self.pupil.taught(skill, now - timedelta(days=self.rng.uniform(1, 42)))
        due = [one for one in MOMENTS if one <= self.answers and str(one) not in self.told]
        if due:
            found = sitting.figures(now)
            assert found.held is not None, f"nothing is shown after {self.answers} answers"
            for one in due:
                self.told[str(one)] = [_range(found.held), _range(found.on_the_day)]
            self.truth(*map(str, due), now)

    def truth(self, *moments: Any) -> None:
        """What the pupil would earn now in questions never asked."""
        *names, now = moments
        got = of = 0.0
        for skill, plan in self._skills.items():
            share = self._skill(skill, plan.templates, now)
            if share is not None:
                got, of = got + plan.marks * share, of + plan.marks
        self.true |= dict.fromkeys(names, round(got / of, 4))

    def _skill(self, skill: str, templates: Any, now: datetime) -> float | None:
        head, rng = self.pupil.head, Random(f"exam {self.pupil.seed} {skill}")
        chance = head.chance(skill, now)
        got = of = 0.0
        for name in rng.sample(sorted(templates), min(2, len(templates))):
            asked = self._question(name, rng.randrange(10**6, 10**7))
            for part in asked.parts:
                if part.skill == skill and part.kind != "levels":
                    knowing = mark(part, known(name, part, rng)).marks
                    other = mark(part, wrong(part, rng)).marks
                    other *= 1.0 - PASSED
                    got += chance * knowing + (1.0 - chance) * other
                    of += part.marks
        return got / of if of else None

    def _question(self, name: str, seed: int) -> Question:
        template = self.bank.template(name)
        assert isinstance(template, Template), template
        asked = generate(template, seed)
        assert isinstance(asked, Question), asked
        return asked

    # ---------------------------------------------------------------- one question

    def _put(self, sitting: Sitting, asked: CurrentQuestion, now: datetime) -> datetime:
        question, skills = asked.question, {part.skill for part in asked.question.parts}
        usual = self.bank.entry(question.template).seconds / len(question.parts)
        for part in () if asked.shown else asked.waiting():
            now = self._part(sitting, asked, part, usual, now)
        sitting.finish(asked, now)
        if asked.shown:
            self.pupil.shown(question.template, skills, now)
            return now + timedelta(seconds=usual)
        self.pupil.learns(question.template, self._shares(asked), now)
        return now

    def _shares(self, asked: CurrentQuestion) -> dict[str, float]:
        """{skill: share of its marks} of a question just answered."""
        got: dict[str, list[int]] = {}
        for part in asked.question.parts:
            told = asked.marks.get(part.id)
            if told is not None:
                both = got.setdefault(part.skill, [0, 0])
                both[0] += told.marks
                both[1] += told.of
        return {skill: marks / of for skill, (marks, of) in got.items() if of}

    def _part(
        self, sitting: Sitting, asked: CurrentQuestion, part: Part, usual: float, now: datetime
    ) -> datetime:
        typed = self.pupil.answer(asked.question.template, part, usual, now)
        now += timedelta(seconds=typed.seconds)
        if self.rng.random() < 0.05:
            sitting.hint(asked, part, now)
        if typed.text is None:
            self._held(part, sitting.pass_part(asked, part, typed.seconds, now))
            return now
        told = sitting.answer(asked, part, typed.text, typed.seconds, now, typed.sure)
        self._held(part, told)
        if not told.readable:
            text = part.model_answer if self.rng.random() < 0.5 else typed.text
            told = sitting.answer(asked, part, text, 5.0, now, typed.sure, again=True)
            self._held(part, told)
        self._afterwards(sitting, asked, part, told, now)
        return now

    def _afterwards(
        self, sitting: Sitting, asked: CurrentQuestion, part: Part, told: Mark, now: datetime
    ) -> None:
        """What a learner may do once the mark is there."""
        if told.self_marked:
            sitting.set_level(asked, part, self.rng.randint(0, told.of), now)
        elif told.unsure:
            sitting.decide(asked, part, dict.fromkeys(told.unsure, self.rng.random() < 0.5), now)
        elif told.marks < told.of and self.rng.random() < 0.04:
            sitting.appeal(asked, part, "I think that it is right", now)
        elif self.rng.random() < 0.02:
            sitting.fix(asked, part, part.model_answer, now)

    def _held(self, part: Part, told: Mark) -> None:
        """Whether a mark is one that the part can earn."""
        self.answers += 1
        self.soak.counted()
        points = sum(point.marks for point in told.points)
        sound = 0 <= told.marks <= told.of == part.marks and all(
            0 <= point.marks <= point.of for point in told.points
        )
        if not sound or points < told.marks:
            self.soak.wrong.append(f"{part.id} {part.ask[:40]!r}: {told}")


def _range(share: Share | None) -> list[float] | None:
    return None if share is None else [round(one, 4) for one in vars(share).values()]


def rebuilt(store: Store, who: Learner, bank: Bank, deck: Deck) -> list[str]:
    """What is wrong with the memory kept, beside that built again from the answers."""
    from drill.planning import lessons
    from drill.sitting import history
    from drill.sitting.skill_plans import skill_plans

    assert START.tzinfo is not None
    taught = lessons(skill_plans(deck, bank.entries(), START.tzinfo))
    kept = history.remembered(store, who, taught).to_state()
    same = kept == history.rebuilt(store, who, taught).to_state()
    return [] if same else [f"{who.code}: memory kept is not the memory built again"]


def stored_bytes(store: Store, folder: Path) -> int:
    """Bytes of a store after a checkpoint, without the texts of questions."""
    import sqlite3
    from contextlib import closing

    store._db.rows("PRAGMA wal_checkpoint(TRUNCATE)")
    with closing(sqlite3.connect(folder / "drill.db")) as db:
        texts = db.execute(
            "SELECT sum(pgsize) FROM dbstat WHERE name LIKE '%template_version%'"
        ).fetchone()[0]
    return (folder / "drill.db").stat().st_size - int(texts)


def resident() -> int:
    """Kilobytes that the process has in memory now (Linux), or had at most."""
    try:
        pages = int(Path("/proc/self/statm").read_text().split()[1])
    except OSError:
        return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return pages * resource.getpagesize() // 1024


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("file", type=Path)
    parser.add_argument("--first-store", type=int, default=0)
    parser.add_argument("--stores", type=int, default=28)
    parser.add_argument("--report", action="store_true")
    given = parser.parse_args()
    rows = [json.loads(line) for line in given.file.open()] if given.file.exists() else []
    done = {row["store"] for row in rows if "pupil" not in row}
    rows = [row for row in rows if row["store"] in done]  # of a store broken off, nothing
    bank = Bank.open(bank_dir())
    for number in range(given.first_store, given.first_store + given.stores):
        if given.report or number in done:
            continue
        with TemporaryDirectory() as folder:
            made = list(Soak(Path(folder), bank, number).run())
        rows += made
        with given.file.open("a", encoding="utf-8") as file:
            file.writelines(json.dumps(row) + "\n" for row in made)
    raise SystemExit(0 if report(rows) else 1)


if __name__ == "__main__":
    main()
