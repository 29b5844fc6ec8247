"""Pretend classes at real questions, with one gap planted: does the first screen name it?

    python -m tests.lab.classes [SEED]  ten classes; for each the planted skill and what is named

A pupil has a share of marks for every skill. Answers are those of real questions, marked by the
real marker: a right answer is the model answer; a wrong one takes a wrong route that the part
knows, most often the same one, or is something else. The gap is one skill that the whole class
holds badly; on the others pupils are as good as they are, and each has gaps of their own.
"""

from __future__ import annotations

import json
import random
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta, timezone
from pathlib import Path
from tempfile import TemporaryDirectory

from drill.app.classes.class_collect import collect
from drill.app.classes.class_report import ClassReport, class_report
from drill.app.classes.class_room import class_named
from drill.app.weakness.part_answers import mistake_of
from drill.bank import Bank
from drill.exchange.hand_in import HandedIn, HandIn, Item, packed
from drill.generate import generate
from drill.marking import mark
from drill.model import ChoiceKey, NumberKey, Part, Question
from drill.places import bank_dir

NOW = datetime(2027, 3, 1, 17, tzinfo=timezone.utc)  # noqa: UP017
TOPICS = ("salts", "measure", "safety")
_WEAK, _SAME_ROUTE = 0.3, 0.75


@dataclass(frozen=True)
class Asked:
    """A part that may be asked: its template's id and the part's place."""

    template: str
    version: str
    question: Question
    part: Part
    skill: str


def shelf(bank: Bank, seeds: int = 3) -> dict[str, list[Asked]]:
    """{skill: parts to ask} of single-part questions with a number or a choice."""
    found: dict[str, list[Asked]] = {}
    for entry in bank.entries():
        if entry.practical not in TOPICS or not set(entry.kinds) <= {"number", "choice"}:
            continue
        template = bank.template(entry.id)
        assert not isinstance(template, tuple)
        for seed in range(seeds):
            question = generate(template, seed)
            if isinstance(question, Question):
                part = question.parts[0]
                one = Asked(entry.id, template.version, question, part, entry.skills[0])
                found.setdefault(one.skill, []).append(one)
    return {skill: several for skill, several in found.items() if len(several) >= seeds}


def answer(rng: random.Random, asked: Asked, share: float, route: int) -> str:
    """What a pupil types."""
    key = asked.part.key
    right = rng.random() < share
    if isinstance(key, ChoiceKey):
        good = [one.letter for one in key.options if one.right]
        bad = [one for one in key.options if not one.right]
        if right or not bad:
            return ",".join(good)
        same = rng.random() < _SAME_ROUTE
        return sorted(bad, key=lambda one: one.text)[route % len(bad) if same else -1].letter
    if right:
        return asked.part.model_answer
    assert isinstance(key, NumberKey)
    if key.slips and rng.random() < _SAME_ROUTE:
        return str(float(key.slips[route % len(key.slips)].value))
    return str(rng.randrange(900, 9000))


def pupil(
    rng: random.Random, code: str, parts: dict[str, list[Asked]], shares: dict[str, float],
    answers: int, route: int,
) -> HandIn:  # fmt: skip
    """A pupil's file: questions of all skills, as the plan would put them, over three weeks."""
    rows = list(_rows(rng, parts, shares, answers, route))
    made = round(NOW.timestamp() * 1000)
    return HandIn(rng.randbytes(16).hex(), code, "lab", 12, made, tuple(rows))


def _rows(
    rng: random.Random, parts: dict[str, list[Asked]], shares: dict[str, float], answers: int,
    route: int,
) -> Iterator[HandedIn]:  # fmt: skip
    skills = sorted(parts)
    for number in range(answers):
        asked = rng.choice(parts[rng.choice(skills)])
        typed = answer(rng, asked, shares[asked.skill], route)
        got = mark(asked.part, typed)
        when = NOW - timedelta(days=21 * (1 - number / answers), hours=rng.random())
        at = round(when.timestamp() * 1000)
        points = json.dumps([[point.id, point.marks, point.of] for point in got.points])
        kind = asked.part.kind
        yield HandedIn(
            at.to_bytes(6, "big") + rng.randbytes(10),
            Item(asked.template, asked.version, asked.part.id, asked.skill, kind),
            number, asked.question.seed, at, 0, rng.randrange(10_000, 90_000), "answer", typed,
            got.marks, got.of, points, "", mistake_of(got, asked.part, kind), "", "engine",
            None, False,
        )  # fmt: skip


def planted(
    bank: Bank, seed: int, pupils: int = 28, answers: int = 60, weak: float | None = _WEAK
) -> tuple[str, ClassReport]:
    """The planted skill, and the report on a class with that gap; `weak` None plants none."""
    rng = random.Random(seed)
    parts = shelf(bank)
    gap = rng.choice(sorted(parts))
    files = []
    for number in range(pupils):
        able = min(0.95, max(0.5, rng.gauss(0.78, 0.1)))
        shares = {skill: min(0.98, max(0.2, rng.gauss(able, 0.12))) for skill in parts}
        if weak is not None:
            shares[gap] = min(0.6, max(0.05, rng.gauss(weak, 0.1)))
        files.append(pupil(rng, f"k{number:02}", parts, shares, answers, seed))
    with TemporaryDirectory() as folder:
        for one in files:
            (Path(folder) / f"{one.code}.handin").write_bytes(packed(one))
        collect(Path(folder), f"lab {seed}", "")
        room = class_named(f"lab {seed}")
        return gap, class_report(room.title, room.pupils(), {}, bank.skills(), NOW.date())


def main() -> None:
    """A line a class, from the seed that is given on."""
    first = int(sys.argv[1]) if len(sys.argv) > 1 else 0
    bank = Bank.open(bank_dir())
    named = 0
    for seed in range(first, first + 10):
        gap, report = planted(bank, seed)
        again = [one.skill for one in report.again]
        named += again[:1] == [gap]
        place = again.index(gap) + 1 if gap in again else "not named"
        sys.stdout.write(f"{gap}: {place} of {len(again)} ({', '.join(again)})\n")
    sys.stdout.write(f"named first in {named} of 10 classes\n")


if __name__ == "__main__":
    main()
