"""Pretend classes: what pupils handed in, made by a seed."""

from __future__ import annotations

import json
import random
from collections.abc import Mapping, Sequence
from datetime import UTC, datetime, timedelta

from drill.exchange.hand_in import HandedIn, HandIn, Item

NOW = datetime(2027, 3, 1, 17, tzinfo=UTC)
SKILLS = ("calc.percentage-yield", "safety.hazard", "technique.filtering", "apparatus.names")


def item(skill: str, number: int = 0, template: str = "salts/q") -> Item:
    """A part of a question that examines a skill."""
    return Item(f"{template}{number}", "0" * 32, "a", skill, "number")


def row(
    rng: random.Random, about: Item, when: datetime, marks: int, of: int = 2, asked: int = 0,
    mistake: str = "", appeal: str | None = None, text: str = "", faulty: bool = False,
) -> HandedIn:  # fmt: skip
    """An answer at a moment."""
    at = round(when.timestamp() * 1000)
    points = json.dumps([["value", marks, of]], separators=(",", ":"))
    return HandedIn(
        at.to_bytes(6, "big") + rng.randbytes(10), about, asked, rng.randrange(10**6), at, 0,
        rng.randrange(5_000, 90_000), "answer", text or f"{rng.uniform(1, 90):.2f} g", marks, of,
        points, "", mistake, "", "engine", appeal, faulty,
    )  # fmt: skip


def pupil(code: str, rows: Sequence[HandedIn], learner: str = "", made: datetime = NOW) -> HandIn:
    """A pupil's file; whoever has the same code is the same person unless `learner` differs."""
    id_ = learner or random.Random(code).randbytes(16).hex()
    return HandIn(id_, code, "ours", 12, round(made.timestamp() * 1000), tuple(rows))


def practised(
    rng: random.Random,
    shares: Mapping[str, float],
    answers: int,
    days: int = 20,
    routes: float = 0.7,
) -> list[HandedIn]:
    """Answers over some days; a skill's share of marks, and how often a miss takes its route."""
    found = []
    skills = sorted(shares)
    for number in range(answers):
        skill = skills[number % len(skills)]
        marks = sum(rng.random() < shares[skill] for _ in range(2))
        mistake = f"route of {skill}" if marks < 2 and rng.random() < routes else ""
        when = NOW - timedelta(days=days * (1 - number / answers), hours=rng.random() * 3)
        found.append(row(rng, item(skill, rng.randrange(3)), when, marks, 2, number, mistake))
    return found


def class_of(
    number: int, seed: int, weak: str, answers: int = 40, share: float = 0.3
) -> list[HandIn]:
    """A class in which one skill is weak."""
    rng = random.Random(seed)
    files = []
    for one in range(number):
        shares = {skill: min(0.98, rng.gauss(0.85, 0.06)) for skill in SKILLS}
        shares[weak] = max(0.02, rng.gauss(share, 0.08))
        files.append(pupil(f"k{one:02}", practised(rng, shares, answers)))
    return files
