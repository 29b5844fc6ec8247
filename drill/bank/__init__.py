"""The bank: an author's text becomes a `Template` or a `Deck`, or problems with file and line.

What only authors and teachers need (starters, upgrading, the docs) is imported when it is called.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path

from drill.bank.entry import Entry
from drill.bank.index import Bank
from drill.bank.passed import read_passed, write_passed
from drill.bank.reading.deck_reader import (
    courses_of_topic,
    deck_notes,
    deck_source,
    read_deck,
    topic_has,
)
from drill.bank.reading.part_readers import marks_of
from drill.bank.reading.template_reader import read_template
from drill.bank.reference.facts import read_facts
from drill.bank.reference.learned import FITTED
from drill.bank.samples import ENOUGH_ANSWERS, answers_path
from drill.bank.version import ENGINE, is_version, kept_rows, version_of

__all__ = [
    "ENGINE",
    "ENOUGH_ANSWERS",
    "FITTED",
    "Bank",
    "Entry",
    "answers_path",
    "courses_of_topic",
    "deck_notes",
    "deck_source",
    "is_version",
    "kept_rows",
    "marks_of",
    "new_deck",
    "new_template",
    "read_deck",
    "read_facts",
    "read_passed",
    "read_template",
    "schema_as_markdown",
    "topic_has",
    "upgrade",
    "version_of",
    "write_passed",
]


def new_template(kind: str) -> str:
    """A starter for a question of that kind, with comments; it passes as it stands.

    Raises:
        DrillError: there is no such kind of part.
    """
    from drill.bank.authoring import new_files as new

    return new.new_template(kind)


def new_deck(
    title: str,
    id: str,
    courses: Sequence[str],
    minutes: int,
    papers: Sequence[str] = (),
    topics: Iterable[tuple[str, str, int]] = (),
    bench: Mapping[str, str] | None = None,
) -> str:
    """A new topic deck as TOML, with comments that explain its keys.

    Args:
        papers: the date of each paper, as 2027-05-18.
        topics: (practical, day it was taught or "", number of its paper from 1).
        bench: values of [bench] by key.
    """
    from drill.bank.authoring.new_decks import deck_text

    return deck_text(title, id, courses, minutes, papers, topics, bench or {})


def schema_as_markdown() -> str:
    """Every key an author may write, as tables for the docs."""
    from drill.bank.schema import schema_docs

    return schema_docs.schema_as_markdown()


def upgrade(path: Path) -> list[str]:
    """Update a file in place to the current format, keeping comments; returns what was changed.

    Raises:
        DrillError: it is not TOML, or of a newer format.
    """
    from drill.bank.authoring import upgrading

    return upgrading.upgrade(path)
