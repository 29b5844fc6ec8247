"""Word order told from word pairs counted in a little prose, and from those of the bank."""

from __future__ import annotations

import random

import pytest

from drill.checking.fitting import solved, word_pairs
from drill.frozen import replace
from drill.marking import mark
from drill.marking.written.leaning import leans
from drill.marking.written.sentences import words_of
from drill.marking.written.word_order import order_of
from drill.model import Leaning, Learned, WordPairs
from tests.marking.making import point, written
from tests.marking.test_bank_answers import written_part

BANK = written_part("salts/why-excess").key.learned

PLAIN = (
    "so that all of the acid reacts and none is left",
    "the water is lost when it is heated, so the mass goes down",
    "put the beaker on a tripod and warm it with a small flame",
    "the reaction is faster because the particles have more energy and collide more often",
)


def order(text: str) -> float:
    found = order_of(words_of(text), BANK.pairs)
    assert found is not None
    return found


@pytest.mark.parametrize("text", PLAIN)
def test_english_stands_above_chance_and_its_reverse_does_not(text):
    assert order(text) > 0.9
    assert order(" ".join(reversed(text.replace(",", "").split()))) < 0.6


def test_most_shuffled_sentences_stand_below():
    chance = random.Random(3)
    texts = [text.replace(",", "").split() for text in PLAIN for _ in range(25)]
    scores = [order(" ".join(chance.sample(words, len(words)))) for words in texts]
    assert sum(score < 0.6 for score in scores) > 0.6 * len(scores)


def test_few_words_and_no_pairs_tell_nothing():
    assert order_of(words_of("acid reacts fully"), BANK.pairs) is None
    assert order_of(words_of(PLAIN[0]), None) is None


def test_the_mean_and_spread_are_those_of_all_orders():
    """With pairs that all weigh alike no order is better than another."""
    flat = WordPairs("x", {"<": 1, ">": 1, "a": 1, "b": 1}, {})
    assert order_of(words_of("a b a b a b"), flat) == pytest.approx(0.0, abs=1e-6)


@pytest.mark.parametrize(("samples", "unsure"), [(40, ("acid",)), (0, ())])
def test_words_in_no_order_earn_nothing_where_the_scheme_is_proven(samples, unsure):
    part = written(point("acid", ["acid"]))
    part = replace(part, key=replace(part.key, learned=Learned(BANK.pairs, samples)))
    got = mark(part, "of the so used acid that all up are")
    if samples:
        assert (got.marks, got.unsure) == (0, unsure)
    assert mark(part, "all of the acid is used up then").marks == 1


def test_counted_pairs_know_starts_ends_and_endings():
    found = word_pairs(["The acid is hot. The acid is cold."] * 4)
    assert found["words"]["acid"] == 8
    assert found["pairs"]["< the"] == 8
    assert found["pairs"]["is ~"] == 8


def test_linear_equations_are_solved():
    assert solved([[2.0, 1.0], [1.0, 3.0]], [5.0, 10.0]) == pytest.approx([1.0, 3.0])


def test_a_leaning_adds_what_each_stem_teaches():
    leaning = Leaning(0.5, {"acid": 0.3, "acid react": 0.2})
    assert leans(words_of("acid reacted"), leaning) == pytest.approx(0.5 + 0.5 / 3**0.5)
    assert leans(words_of("nothing here"), leaning) == 0.5
