"""Pupils who type: a simulated head decides what is known, and typing makes a text of it.

What is known comes out as the model answer, in other words or another form, or with a mistake of
typing; what is not known as a known wrong route, a guess, a pass, or nothing. A pupil never sees a
mark before it is given, and learns from the share of marks earned.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping
from datetime import datetime
from functools import cache
from random import Random
from typing import NamedTuple

from drill.model import NumberKey, OrderKey, Part
from drill.places import bank_dir
from tests.lab.learner import Simulated
from tests.lab.typists import right, wrong

TYPO, REPHRASED, PASSED = 0.05, 0.6, 0.2
"""How often a word is mistyped, an answer is put otherwise, and what is not known is passed."""
_WORD = re.compile(r"[A-Za-z]{5,}")


class Typed(NamedTuple):
    """What is typed (None: a pass), the seconds it took, and how sure it was said to be."""

    text: str | None
    seconds: float
    sure: str


class Pupil:
    """One pupil: a learner of a family of the lab, and a way of typing, both by the seed."""

    def __init__(self, family: str, seed: int) -> None:
        self.family, self.seed = family, seed
        self.head = Simulated(family, seed)
        self._rng = Random(f"typing {family} {seed}")

    def taught(self, skill: str, when: datetime) -> None:
        self.head.expose(skill, f"{skill}/lesson", when)

    def answer(self, template: str, part: Part, usual: float, now: datetime) -> Typed:
        """What is typed for a part at `now`; `usual` seconds are what it takes a middling pupil."""
        rng, head = self._rng, self.head
        share = head.share(
            part.skill, head.state(part.skill), now.timestamp(), head._tries.get(template, 0)
        )
        took = usual * head.pace * rng.uniform(0.6, 1.4)
        if rng.random() < share:
            return Typed(known(template, part, rng), took, rng.choice(("certain", "fairly", "")))
        if rng.random() < PASSED:
            return Typed(None, took, "")
        return Typed(mistyped(wrong(part, rng), rng), took, rng.choice(("fairly", "guess", "")))

    def learns(self, template: str, shares: Mapping[str, float], when: datetime) -> None:
        """What a question leaves: {skill: share of its marks}."""
        head = self.head
        head._tries[template] = head._tries.get(template, 0) + 1
        for skill, share in shares.items():
            head._become(skill, head.process.branches(head.state(skill), when.timestamp(), share))

    def shown(self, template: str, skills: Iterable[str], when: datetime) -> None:
        for skill in skills:
            self.head.expose(skill, template, when)


def known(template: str, part: Part, rng: Random) -> str:
    """The right answer as somebody types it: as it stands, otherwise put, or mistyped."""
    text = right(part)
    if rng.random() < REPHRASED:
        text = _otherwise(template, part, text, rng)
    return mistyped(text, rng)


def _otherwise(template: str, part: Part, text: str, rng: Random) -> str:
    if isinstance(part.key, NumberKey):
        return _as_number(text, rng)
    if isinstance(part.key, OrderKey):
        return rng.choice((", ", " ", "-")).join(text)
    if part.kind == "written":
        return rng.choice(samples().get((template, part.id), (text,)))
    return rng.choice((text.lower(), f" {text} ", f"{text}.", f"the {text}"))


def _as_number(text: str, rng: Random) -> str:
    """The same number with other signs around it; the unit near, far or left out."""
    number, _, unit = text.partition(" ")
    return rng.choice(
        (
            f"{number}{unit}",
            number,
            f"= {text}",
            f"it is {text}",
            f"{text}.",
            text.replace("x", "*"),
        )
    )


def mistyped(text: str, rng: Random) -> str:
    """One word with letters swapped, doubled or left out, now and then."""
    words = list(_WORD.finditer(text))
    if not words or rng.random() >= TYPO:
        return text
    found = rng.choice(words)
    at = found.start() + rng.randrange(1, len(found.group()) - 1)
    spoilt = rng.choice((text[at + 1] + text[at], text[at] * 2 + text[at + 1], text[at + 1]))
    return text[:at] + spoilt + text[at + 2 :]


@cache
def samples() -> dict[tuple[str, str], tuple[str, ...]]:
    """{(template, part): sample answers that earn every point and go with any numbers}."""
    found: dict[tuple[str, str], tuple[str, ...]] = {}
    for path in sorted(bank_dir().glob("*/*.answers.jsonl")):
        template = f"{path.parent.name}/{path.name.removesuffix('.answers.jsonl')}"
        for line in path.read_text("utf-8").splitlines():
            row = json.loads(line) if line else {}
            if "seed" not in row and row.get("points") and all(row["points"].values()):
                place = template, row["part"]
                found[place] = (*found.get(place, ()), row["answer"])
    return found
