"""The sample answers of the bank, and others kept here, get the marks they deserve.

Written by hand against the schemes, in the manner of 14 to 16 year olds; the marker is right in
nearly all of them because it was made with them, so this guards against change and proves no more.
"""

from __future__ import annotations

import json
import random
import re
import shutil
from collections.abc import Mapping
from functools import cache
from pathlib import Path

import pytest

from drill.bank import Bank
from drill.generate import generate
from drill.marking import mark
from drill.model import Mark, Part, Question, Template
from drill.places import bank_dir
from tests.common.shipped import shipped_bank

SAMPLES = sorted(bank_dir().glob("*/*.answers.jsonl"))
MORE = Path(__file__).with_name("more_answers.jsonl")


@cache
def bank() -> Bank:
    return shipped_bank()


def question(name: str, of: Bank, seed: int = 0) -> Question:
    template = of.template(name)
    assert isinstance(template, Template), template
    made = generate(template, seed)
    assert isinstance(made, Question), made
    return made


@cache
def written_part(name: str, seed: int = 0) -> Part:
    return next(part for part in question(name, bank(), seed).parts if part.kind == "written")


@cache
def verdict(name: str, seed: int, text: str) -> Mark:
    return mark(written_part(name, seed), text)


def verdict_of(name: str, row: Mapping[str, object]) -> Mark:
    """The mark of a sample, on the seed it answers: a part's points may differ between seeds."""
    seed = row.get("seed", 0)
    assert isinstance(seed, int)
    return verdict(name, seed, str(row["answer"]))


def rows(path: Path) -> list[dict[str, object]]:
    return [json.loads(line) for line in path.read_text("utf-8").splitlines()]


def name_of(path: Path) -> str:
    return f"{path.parent.name}/{path.name.removesuffix('.answers.jsonl')}"


def written_samples() -> list[Path]:
    return [path for path in SAMPLES if any("points" in row for row in rows(path))]


def agreement(pairs: list[tuple[dict[str, int], dict[str, int]]]) -> float:
    same = [by_hand[name] == ours[name] for by_hand, ours in pairs for name in by_hand]
    return sum(same) / len(same)


def marked(
    name: str, answers: list[dict[str, object]]
) -> list[tuple[dict[str, int], dict[str, int]]]:
    return [
        (
            row["points"],
            {one.id: one.marks for one in verdict_of(name, row).points},
        )
        for row in answers
        if "points" in row
    ]


@pytest.mark.parametrize("path", written_samples(), ids=name_of)
def test_sample_answers_get_their_marks(path):
    assert agreement(marked(name_of(path), rows(path))) >= 0.98


def test_answers_kept_beside_the_bank_get_their_marks():
    by_question: dict[str, list[dict[str, object]]] = {}
    for row in rows(MORE):
        by_question.setdefault(str(row["question"]), []).append(row)
    pairs = [pair for name, answers in by_question.items() for pair in marked(name, answers)]
    assert len(pairs) > 300
    assert agreement(pairs) >= 0.98


def test_the_model_answer_earns_every_mark():
    for path in written_samples():
        part = written_part(name_of(path))
        assert mark(part, part.model_answer).marks == part.marks, path


def test_no_verdict_comes_from_a_stored_answer(tmp_path):
    """The marks are the same when the files of sample answers are not there at all."""
    copy = tmp_path / "bank"
    others = shutil.ignore_patterns("*.answers.jsonl", *shipped_bank().practicals())
    shutil.copytree(bank_dir(), copy, ignore=others)
    some = written_samples()[::3]
    for path in some:
        at = copy / path.parent.name
        at.mkdir(exist_ok=True)
        shutil.copy(bank_dir() / f"{name_of(path)}.toml", at)
    without = Bank.open(copy)

    @cache
    def bare(name: str, seed: int) -> Part:
        return next(part for part in question(name, without, seed).parts if part.kind == "written")

    for path in some:
        name = name_of(path)
        for row in rows(path)[::2]:
            typed, seed = str(row["answer"]), int(str(row.get("seed", 0)))
            assert mark(bare(name, seed), typed) == verdict(name, seed, typed)


def spoilt(text: str, chance: random.Random) -> str:
    """A tenth of the words of four letters or more with one letter lost, doubled or swapped."""

    def slip(match: re.Match[str]) -> str:
        word, at = match[0], chance.randrange(1, len(match[0]))
        if chance.random() >= 0.1:
            return word
        ways = (word[:at] + word[at + 1 :], word[:at] + word[at - 1 :])
        return chance.choice((*ways, word[: at - 1] + word[at] + word[at - 1] + word[at + 1 :]))

    return re.sub(r"[A-Za-z]{4,}", slip, text)


def test_slips_of_the_finger_cost_little():
    """A tenth of the longer words misspelt loses at most 2 points of agreement in 100."""
    for seed in (4, 5):
        chance = random.Random(seed)
        clean, pairs = [], []
        for path in written_samples():
            some = rows(path)[seed % 3 :: 3]
            answers = [{**row, "answer": spoilt(str(row["answer"]), chance)} for row in some]
            clean += marked(name_of(path), some)
            pairs += marked(name_of(path), answers)
        assert agreement(pairs) >= agreement(clean) - 0.02


def test_half_of_each_set_was_written_without_seeing_the_patterns():
    for path in written_samples():
        blind = [bool(row.get("blind")) for row in rows(path)]
        assert len(blind) >= 35, path
        assert sum(blind) >= 0.45 * len(blind), path
