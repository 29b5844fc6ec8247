"""How much of what the bank's right sample answers earn is still earned after they were spoilt.

    python tests/bench/survival.py [--show ATTACK]

A point counts where a person gave it and the marker gives it. "sure" leaves out those the marker is
not sure of after the attack. Words are shuffled and reversed without their stops and commas, once
with them too. `--show` prints what survives.
"""

from __future__ import annotations

import argparse
import json
import random
import re
import sys
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import NamedTuple

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from drill.bank import Bank
from drill.generate import generate
from drill.marking import mark
from drill.model import Mark, Part, Question, Template
from drill.places import bank_dir

Attack = Callable[[str, random.Random], str]

DENIALS = (
    "it is impossible that", "it is not true that", "i dont think", "i don't think that",
    "nobody thinks that", "it is a myth that", "i doubt that", "it is wrong to say that",
    "it is a lie that", "i disagree that", "it is false that", "it is unlikely that",
)  # fmt: skip
TAILS = (
    ", which is not true", ". This is wrong.", ". That is false.", " but that is not true",
    ", which is a lie", " and this is not right",
)  # fmt: skip
DOUBLE = (
    "it is not wrong that", "there is no doubt that", "nobody denies that",
    "it is not impossible that", "i dont doubt that",
)  # fmt: skip


def _words(answer: str) -> list[str]:
    return re.findall(r"[\w'%/.]*[\w%]", answer)


def shuffled(answer: str, chance: random.Random) -> str:
    words = _words(answer)
    return " ".join(chance.sample(words, len(words)))


def shuffled_with_stops(answer: str, chance: random.Random) -> str:
    words = answer.split()
    return " ".join(chance.sample(words, len(words)))


def reversed_(answer: str, _: random.Random) -> str:
    return " ".join(reversed(_words(answer)))


def swapped(answer: str, _: random.Random) -> str:
    """Every two neighbours change places."""
    words = _words(answer)
    pairs = [words[index : index + 2][::-1] for index in range(0, len(words), 2)]
    return " ".join(word for pair in pairs for word in pair)


def before(opening: str) -> Attack:
    return lambda answer, _: f"{opening} {answer}"


def behind(tail: str) -> Attack:
    return lambda answer, _: answer.rstrip(" .!") + tail


ATTACKS: Mapping[str, Mapping[str, Attack]] = {
    "shuffled": {"shuffled": shuffled},
    "shuffled with stops": {"shuffled with stops": shuffled_with_stops},
    "reversed": {"reversed": reversed_},
    "neighbours swapped": {"neighbours swapped": swapped},
    "denied": {opening: before(opening) for opening in DENIALS},
    "tails": {tail: behind(tail) for tail in TAILS},
    "denied twice": {opening: before(opening) for opening in DOUBLE},
}


class Right(NamedTuple):
    """A sample answer with the points it deserves and earns."""

    question: str
    part: Part
    answer: str
    earned: tuple[str, ...]


def right_samples() -> Iterator[Right]:
    """All written samples of the bank that earn something they deserve."""
    bank = Bank.open(bank_dir())
    for path in sorted(bank_dir().glob("*/*.answers.jsonl")):
        name = f"{path.parent.name}/{path.name.removesuffix('.answers.jsonl')}"
        template = bank.template(name)
        assert isinstance(template, Template), template
        for line in path.read_text("utf-8").splitlines():
            row = json.loads(line)
            question = generate(template, row.get("seed", 0))
            assert isinstance(question, Question), question
            part = next(one for one in question.parts if one.id == row["part"])
            if part.kind == "written" and row.get("points"):
                got = earned(mark(part, row["answer"]))
                points = tuple(one for one, given in row["points"].items() if given and one in got)
                if points:
                    yield Right(name, part, row["answer"], points)


def earned(verdict: Mark) -> dict[str, bool]:
    """The points earned, each with whether it is sure."""
    return {one.id: not one.unsure for one in verdict.points if one.marks}


def survives(samples: list[Right], attack: Attack, show: bool) -> tuple[int, int, int]:
    """Points earned before, after, and after for sure."""
    chance = random.Random(14)
    before_, after, sure = 0, 0, 0
    for one in samples:
        spoilt = attack(one.answer, chance)
        got = earned(mark(one.part, spoilt))
        kept = [id_ for id_ in one.earned if id_ in got]
        before_, after = before_ + len(one.earned), after + len(kept)
        sure += sum(got[id_] for id_ in kept)
        if show and kept:
            doubt = [f"{id_}{'' if got[id_] else '?'}" for id_ in kept]
            print(f"   {one.question} {' '.join(doubt)}: {spoilt}")
    return before_, after, sure


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--show", default="")
    chosen = parser.parse_args()
    samples = list(right_samples())
    doubted = sum(bool(mark(one.part, one.answer).unsure) for one in samples)
    print(f"{len(samples)} right answers, {doubted} of them with a point that is not sure")
    print(f"{'':28} earned   sure")
    for name, ways in ATTACKS.items():
        figures = [survives(samples, way, name == chosen.show) for way in ways.values()]
        if len(ways) > 1:
            for way, (was, after, sure) in zip(ways, figures, strict=True):
                print(f"  {way:26} {after / was:6.3f} {sure / was:6.3f}")
        was, after, sure = (sum(column) for column in zip(*figures, strict=True))
        print(f"{name:28} {after / was:6.3f} {sure / was:6.3f}")


if __name__ == "__main__":
    main()
