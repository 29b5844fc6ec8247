"""The shipped bank is broad: enough questions a skill, no two alike, not copper every time."""

from __future__ import annotations

import re
import tomllib
from collections import Counter
from itertools import combinations
from pathlib import Path
from typing import Any

from drill.generate import generate
from drill.model import Question, Template
from tests.common.shipped import shipped_bank

LIKEST = 0.6  # two templates may share so much of their wording; our own number, no source
FEWEST_A_SKILL = 3
MOST_OF_COPPER = 12  # templates of making salts that show copper in over half their seeds
SEEDS = range(30)

BANK = shipped_bank()
ENTRIES = [entry for entry in BANK.entries() if not entry.retired]


def words(read: dict[str, Any]) -> list[str]:
    """What a student reads of a template, in words; all that is drawn is one and the same word."""
    parts = read["part"]
    texts = [read.get("stem", ""), *(part["ask"] for part in parts)]
    texts += [option["text"] for part in parts for option in part.get("option", ())]
    texts += [step for part in parts for step in part.get("steps", ())]
    masked = re.sub(r"\{[^}]*\}", " drawn ", " . ".join(texts))
    return re.findall(r"[a-z0-9.]+", masked.lower())


def triples(path: str) -> frozenset[tuple[str, ...]]:
    """Every three words that stand together in a template."""
    found = words(tomllib.loads(Path(path).read_text(encoding="utf-8")))
    return frozenset(zip(found, found[1:], found[2:], strict=False))


def likeness(one: frozenset[Any], other: frozenset[Any]) -> float:
    """Shared over all: 0 for nothing in common, 1 for the same words."""
    return len(one & other) / max(1, len(one | other))


def copper_share(id_: str) -> float:
    """The share of a template's seeds that show copper to a student."""
    template = BANK.template(id_)
    assert isinstance(template, Template)
    made = [generate(template, seed) for seed in SEEDS]
    shown = [_shown(one) for one in made if isinstance(one, Question)]
    return sum("copper" in text or "Cu" in text for text in shown) / max(1, len(shown))


def _shown(question: Question) -> str:
    return " ".join([question.text, *(part.ask for part in question.parts)])


def test_likeness_sees_the_same_and_the_different() -> None:
    one = frozenset(zip("abcd", "bcde", "cdef", strict=True))
    assert likeness(one, one) == 1
    assert likeness(one, frozenset()) == 0


def test_no_two_templates_are_alike() -> None:
    shelf = {entry.id: triples(entry.path) for entry in ENTRIES}
    alike = [
        f"{one} and {other}: {likeness(shelf[one], shelf[other]):.2f}"
        for one, other in combinations(shelf, 2)
        if likeness(shelf[one], shelf[other]) > LIKEST
    ]
    assert alike == []


def test_every_skill_has_three_templates() -> None:
    counts = Counter(skill for entry in ENTRIES for skill in set(entry.part_skills))
    few = {skill: counts[skill] for skill in BANK.skills() if counts[skill] < FEWEST_A_SKILL}
    assert few == {}


def test_copper_is_not_in_every_question_of_making_salts() -> None:
    salts = [entry.id for entry in ENTRIES if entry.practical == "salts"]
    mostly = [id_ for id_ in salts if copper_share(id_) > 0.5]
    assert len(mostly) <= MOST_OF_COPPER, mostly
