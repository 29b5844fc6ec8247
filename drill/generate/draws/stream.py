"""The stream every draw comes from, the same on every machine and in every later version.

A number is drawn by hashing "seed/name/counter" with SHA-256 and reading the digest as a whole
number of 256 bits. Values beyond the largest multiple of `n` would favour small results, so they
are thrown away and the counter goes up. Python's own `random` is not used: its methods may change
between versions, and a stored seed must always give the same question.
"""

from __future__ import annotations

from collections.abc import Sequence
from hashlib import sha256
from typing import TypeVar

T = TypeVar("T")

_ALL = 2**256


def choose(seed: int, name: str, n: int) -> int:
    """A whole number from 0 to n - 1, all equally likely; `n` is 1 or more.

    Args:
        seed: of the question.
        name: of the draw, so that adding a draw later does not change the others.
        n: how many results there are.
    """
    fair = _ALL - _ALL % n
    counter = 0
    while True:
        digest = sha256(f"{seed}/{name}/{counter}".encode()).digest()
        value = int.from_bytes(digest, "big")
        if value < fair:
            return value % n
        counter += 1


def shuffled(seed: int, name: str, items: Sequence[T]) -> tuple[T, ...]:
    """The items in random order, every order being equally likely."""
    out = list(items)
    for last in range(len(out) - 1, 0, -1):
        other = choose(seed, f"{name}/{last}", last + 1)
        out[last], out[other] = out[other], out[last]
    return tuple(out)


def retried(name: str, tries: int) -> str:
    """A draw's name in the stream on the given try; try 0 is the plain draw."""
    return name if tries == 0 else f"{name} again {tries}"
