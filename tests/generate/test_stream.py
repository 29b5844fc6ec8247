"""The draw stream: the same for ever, fair, and nobody else's."""

from __future__ import annotations

import random
from collections import Counter
from hashlib import sha256

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drill.generate import choose
from drill.generate.draws.stream import retried, shuffled


# the digests come from coreutils' sha256sum, the remainders from bc; no code of ours took part
@pytest.mark.parametrize(
    ("seed", "name", "n", "expected"),
    [(7, "mass", 10, 1), (0, "volume", 10, 9), (-3, "conc", 10, 8)],
)
def test_a_number_is_the_digest_modulo_n(seed, name, n, expected):
    assert choose(seed, name, n) == expected


def test_numbers_that_must_never_change():
    assert [choose(seed, "basin", 2201) for seed in range(5)] == [94, 1347, 122, 1943, 1199]
    assert "".join(shuffled(7, "steps", "ABCDEF")) == "EDBFCA"


@settings(max_examples=100, deadline=None)
@given(st.integers(), st.text(max_size=20), st.integers(1, 10**30))
def test_a_number_is_below_n_and_comes_again(seed, name, n):
    first = choose(seed, name, n)
    assert 0 <= first < n
    assert choose(seed, name, n) == first


def test_every_number_is_as_likely():
    counts = Counter(choose(seed, "die", 6) for seed in range(6000))
    # chi-squared with 5 degrees of freedom stays below 25.7 in all but 1 of 10,000 (from memory)
    assert sum((count - 1000) ** 2 / 1000 for count in counts.values()) < 25.7


def test_a_value_that_would_favour_small_numbers_is_thrown_away():
    """With n just over half of 2^256, one digest in two lies beyond the last multiple of n."""
    n = 2**255 + 1
    thrown = [seed for seed in range(40) if digest(f"{seed}/half/0") >= n]
    assert thrown
    for seed in thrown:
        kept = next(c for c in range(1, 99) if digest(f"{seed}/half/{c}") < n)
        assert choose(seed, "half", n) == digest(f"{seed}/half/{kept}")


def digest(text: str) -> int:
    return int.from_bytes(sha256(text.encode()).digest(), "big")


def test_pythons_own_random_has_no_say():
    random.seed(1)
    before = choose(3, "x", 10**9)
    random.seed(2)
    random.random()
    assert choose(3, "x", 10**9) == before


@settings(max_examples=50, deadline=None)
@given(st.integers(0, 10**6), st.lists(st.integers(), max_size=30))
def test_shuffling_keeps_every_item(seed, items):
    assert sorted(shuffled(seed, "s", items)) == sorted(items)


def test_every_order_of_three_comes_about():
    seen = Counter("".join(shuffled(seed, "s", "ABC")) for seed in range(1200))
    assert len(seen) == 6
    assert min(seen.values()) > 140


def test_the_first_try_is_the_plain_draw():
    assert retried("mass", 0) == "mass"
    assert len({retried("mass", tries) for tries in range(200)}) == 200
