"""Logs of varied practice by simulated learners: weeks, missed days, many habits, a final exam."""

from __future__ import annotations

import random
from dataclasses import dataclass
from datetime import UTC, datetime

from simulate import DAY, FAMILIES, Learner

START = datetime(2026, 9, 7, 17, 0, tzinfo=UTC).timestamp()
HABITS = ("mixed", "in turn", "one skill a day", "last days", "weakest first", "repeat at once")
Row = tuple[str, str, datetime, float | None, float]


@dataclass
class Life:
    """One learner's log; `exam` rows come last: (skill, fresh template, when, score, floor)."""

    learner: Learner
    practice: list[Row]
    exam: list[Row]
    truth: dict[str, float]


def lives(per_family: int, seed: int) -> list[Life]:
    """`per_family` learners of each family, each with habits and a calendar of their own."""
    return [live(family, f"{seed} {number}") for family in FAMILIES for number in range(per_family)]


def live(family: str, seed: str) -> Life:
    """One learner from the first lesson to the exam."""
    rng = random.Random(f"life {family} {seed}")
    learner = Learner(family, hash_of(seed))
    templates = {
        f"s{number}": [f"s{number}/{place}" for place in range(rng.randint(1, 4))]
        for number in range(rng.randint(8, 40))
    }
    floors = {name: rng.choice((0.0, 0.0, 0.25)) for names in templates.values() for name in names}
    days = rng.randint(8, 110)
    taught = {skill: rng.choice((0, 0, rng.randint(0, days * 2 // 3))) for skill in templates}
    habit, missed, a_day = rng.choice(HABITS), rng.uniform(0.0, 0.5), rng.randint(3, 16)
    shows = rng.choice((0.0, 0.3))
    practice: list[Row] = []
    for day in range(days):
        at = START + day * DAY + rng.uniform(0.0, 3 * 3600.0)
        for skill in templates:
            if taught[skill] == day:
                learner.teach(skill, at - 8 * 3600.0)
        known = [skill for skill in templates if taught[skill] <= day]
        if not known or rng.random() < missed or (habit == "last days" and day < days * 0.7):
            continue
        for turn in range(a_day * (3 if habit == "last days" else 1)):
            skill = pick(habit, known, day, turn, len(practice), learner, at, rng)
            name = rng.choice(templates[skill])
            if rng.random() < shows and not any(row[0] == skill for row in practice):
                learner.see(skill, name, at)
                practice.append((skill, name, moment(at), None, 0.0))
                at += rng.uniform(20.0, 90.0)
            score = learner.answer(skill, name, at, rng.randint(1, 4), floors[name])
            practice.append((skill, name, moment(at), score, floors[name]))
            at += rng.uniform(15.0, 150.0)
    at = START + days * DAY
    truth = {skill: learner.chance(skill, None, at) for skill in templates}
    exam = [
        (skill, f"{skill}/exam", moment(at), exam_score(truth[skill], rng), 0.0)
        for skill in templates
    ]
    return Life(learner, practice, exam, truth)


def pick(
    habit: str,
    known: list[str],
    day: int,
    turn: int,
    count: int,
    learner: Learner,
    at: float,
    rng: random.Random,
) -> str:
    """The skill this habit takes next."""
    if habit == "in turn":
        return known[count % len(known)]
    if habit == "one skill a day":
        return known[day % len(known)]
    if habit == "repeat at once":
        return known[(count // 3) % len(known)]
    if habit == "weakest first":
        some = rng.sample(known, min(4, len(known)))
        return min(some, key=lambda skill: learner.chance(skill, None, at))
    return rng.choice(known)


def exam_score(p: float, rng: random.Random) -> float:
    """A fresh template's score out of three; templates differ a little in difficulty."""
    return sum(rng.random() < p for _ in range(3)) / 3


def moment(at: float) -> datetime:
    return datetime.fromtimestamp(at, UTC)


def hash_of(text: str) -> int:
    return random.Random(text).getrandbits(32)
