"""The lexicon can be read: every set says what it is, every phrase is one."""

from __future__ import annotations

import tomllib

import pytest

from drill.marking.phrases import phrases
from drill.places import bank_dir

SETS = tomllib.loads((bank_dir() / "lexicon.toml").read_text("utf-8"))


def test_there_are_concepts_for_practical_science():
    assert len(SETS) >= 300


@pytest.mark.parametrize("name", sorted(SETS))
def test_every_set_has_words_and_says_what_they_mean(name):
    assert SETS[name]["doc"]
    assert SETS[name]["words"]
    for words in SETS[name]["words"]:
        for phrase in phrases(words):
            assert phrase, words
            assert all(piece.exact | piece.stems | piece.prefixes for piece in phrase), words


@pytest.mark.parametrize(
    "name", ["more", "less", "faster", "slower", "higher", "larger", "smaller"]
)
def test_directions_are_exact(name):
    single = [words for words in SETS[name]["words"] if " " not in words]
    assert single
    assert all(words.startswith("=") for words in single)
