"""The demo decks can be read, name only what the bank has, and give each student enough to do."""

from __future__ import annotations

import re
from fnmatch import fnmatch
from pathlib import Path

import pytest

from drill.bank import Bank, Entry, read_deck
from drill.model import Deck
from drill.places import demo_decks_dir
from tests.common.shipped import shipped_bank

DECKS = sorted(demo_decks_dir().glob("*.toml"))
ENOUGH = 20  # questions: two weeks of short sittings without the same one twice in three days
NOT_ON_SCREEN = re.compile(r"\b(deck|card|due|review|new|level)s?\b", re.IGNORECASE)


@pytest.fixture(scope="module")
def bank() -> Bank:
    return shipped_bank()


def deck_of(path: Path) -> Deck:
    deck = read_deck(path)
    assert isinstance(deck, Deck), [str(problem) for problem in deck]
    return deck


def asked(deck: Deck, bank: Bank) -> set[str]:
    """Ids of the questions that some topic asks a student of this course."""
    return {
        entry.id
        for topic in deck.topics
        for entry in bank.entries()
        if deck.course in entry.course
        and belongs(entry, topic.practical, topic.skills)
        and not any(fnmatch(entry.id, pattern) for pattern in topic.without)
    }


def belongs(entry: Entry, practical: str, skills: tuple[str, ...]) -> bool:
    named = entry.practical == practical
    return named or any(fnmatch(entry.skills[0], pattern) for pattern in skills)


def test_there_is_one_for_the_first_start_a_class_and_a_tutor() -> None:
    assert {path.stem for path in DECKS} == {"first-steps", "spring-practicals", "catch-up"}


@pytest.mark.parametrize("path", DECKS, ids=lambda path: path.stem)
def test_a_demo_deck_is_read_without_problems(path: Path) -> None:
    assert deck_of(path).id == path.stem


@pytest.mark.parametrize("path", DECKS, ids=lambda path: path.stem)
def test_its_title_is_fit_for_a_students_screen(path: Path) -> None:
    title = deck_of(path).title
    assert len(title) <= 60
    assert not NOT_ON_SCREEN.search(title)


@pytest.mark.parametrize("path", DECKS, ids=lambda path: path.stem)
def test_it_names_practicals_and_skills_that_exist(path: Path, bank: Bank) -> None:
    for topic in deck_of(path).topics:
        assert not topic.practical or topic.practical in bank.practicals()
        for pattern in topic.skills:
            assert any(fnmatch(skill, pattern) for skill in bank.skills()), pattern


@pytest.mark.parametrize("path", DECKS, ids=lambda path: path.stem)
def test_every_pattern_left_out_leaves_something_out(path: Path, bank: Bank) -> None:
    ids = [entry.id for entry in bank.entries()]
    for topic in deck_of(path).topics:
        for pattern in topic.without:
            assert any(fnmatch(id_, pattern) for id_ in ids), pattern


@pytest.mark.parametrize("path", DECKS, ids=lambda path: path.stem)
def test_its_course_has_enough_questions(path: Path, bank: Bank) -> None:
    assert len(asked(deck_of(path), bank)) >= ENOUGH


def test_the_first_start_needs_no_exam_date() -> None:
    assert deck_of(demo_decks_dir() / "first-steps.toml").papers == ()


def test_the_courses_differ() -> None:
    courses = {deck_of(path).course for path in DECKS}
    assert courses == {"separate higher", "combined foundation", "combined higher"}


def test_the_class_has_two_papers_and_teaches_the_second_stage_later() -> None:
    deck = deck_of(demo_decks_dir() / "spring-practicals.toml")
    first, second = deck.papers
    assert first.exam < second.exam
    taught = {
        paper: [t.taught for t in deck.topics if t.paper == paper] for paper in ("first", "second")
    }
    assert max(taught["first"]) < min(taught["second"])
