"""Every file in bank_files: the good ones load, each bad one gives just the words beside it."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from drill.bank import Bank, read_deck, read_facts, read_template
from drill.bank.reference.reference_files import (
    read_lexicon,
    read_practicals,
    read_skills,
    read_slips,
)
from drill.errors import Problem
from drill.model import Deck, Template

from .conftest import FILES, listed

GOOD = FILES / "good" / "bank"
BAD = FILES / "bad"
SHELVES = {
    "skills": read_skills,
    "practicals": read_practicals,
    "lexicon": read_lexicon,
    "slips": read_slips,
}


def files(folder: Path, pattern: str) -> list[Path]:
    found = sorted(folder.glob(pattern))
    assert found, f"nothing in {folder}"
    return found


def expected(path: Path) -> str:
    return path.with_suffix(".expected").read_text(encoding="utf-8")


@pytest.mark.parametrize("path", files(GOOD, "*/*.toml"), ids=lambda path: path.stem)
def test_a_good_question_loads(path: Path) -> None:
    template = read_template(path, GOOD)
    assert isinstance(template, Template), template
    assert template.id == f"{path.parent.name}/{path.stem}"


@pytest.mark.parametrize("path", files(FILES / "good" / "decks", "*.toml"), ids=lambda p: p.stem)
def test_a_good_deck_loads(path: Path) -> None:
    assert isinstance(read_deck(path, Bank.open(GOOD)), Deck)


def test_the_good_bank_has_no_problem() -> None:
    assert Bank.open(GOOD).problems() == ()


@pytest.mark.parametrize("path", files(BAD / "questions", "*.toml"), ids=lambda path: path.stem)
def test_a_bad_question_says_what_is_wrong(path: Path, bank: Path) -> None:
    there = Path(shutil.copy(path, bank / "salts" / path.name))
    problems = read_template(there, bank)
    assert isinstance(problems, tuple), "it loads"
    assert listed(problems, bank) == expected(path)


@pytest.mark.parametrize("path", files(BAD / "decks", "*.toml"), ids=lambda path: path.stem)
def test_a_bad_deck_says_what_is_wrong(path: Path) -> None:
    problems = read_deck(path, Bank.open(GOOD))
    assert isinstance(problems, tuple), "it loads"
    assert listed(problems, path.parent) == expected(path)


@pytest.mark.parametrize("path", files(BAD / "facts", "*.csv"), ids=lambda path: path.stem)
def test_a_bad_table_says_what_is_wrong(path: Path) -> None:
    problems = [one for one in read_facts(path) if isinstance(one, Problem)]
    assert listed(problems, path.parent) == expected(path)


@pytest.mark.parametrize("path", files(BAD / "shelves", "*.toml"), ids=lambda path: path.stem)
def test_a_bad_shelf_says_what_is_wrong(path: Path) -> None:
    _, problems = SHELVES[path.stem](path)
    assert listed(problems, path.parent) == expected(path)


def test_every_problem_of_a_question_has_a_line(bank: Path) -> None:
    for path in files(BAD / "questions", "*.toml"):
        problems = read_template(Path(shutil.copy(path, bank / "salts")), bank)
        assert isinstance(problems, tuple)
        rows = path.read_bytes().splitlines()
        assert all(1 <= problem.line <= len(rows) for problem in problems), path
