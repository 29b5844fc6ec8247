"""The shipped bank and demo decks read without a problem."""

from __future__ import annotations

from pathlib import Path

import pytest

from drill.bank import Bank, read_deck
from drill.model import Deck
from drill.places import demo_decks_dir
from tests.common.shipped import shipped_bank

DECKS = sorted(demo_decks_dir().glob("*.toml"))


@pytest.fixture(scope="module")
def shipped() -> Bank:
    return shipped_bank()


def test_the_shipped_bank_has_no_problem(shipped: Bank) -> None:
    assert [str(problem) for problem in shipped.problems()] == []
    assert shipped.entries()


def test_every_shipped_skill_is_practised_by_a_question(shipped: Bank) -> None:
    practised = {skill for entry in shipped.entries() for skill in entry.part_skills}
    assert set(shipped.skills()) - practised == set()


def test_every_practical_has_a_question(shipped: Bank) -> None:
    assert set(shipped.practicals()) == {entry.practical for entry in shipped.entries()}


@pytest.mark.parametrize("path", DECKS, ids=lambda path: path.stem)
def test_a_demo_deck_fits_the_shipped_bank(path: Path, shipped: Bank) -> None:
    deck = read_deck(path, shipped)
    assert isinstance(deck, Deck), [str(problem) for problem in deck]
