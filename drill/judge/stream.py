"""The stream of draws, implemented a second time from its description.

A number below n is the SHA-256 of "seed/name/counter", read as a whole number of 256 bits, modulo
n; the counter goes up while that number lies at or beyond the last whole multiple of n.
"""

from __future__ import annotations

from collections.abc import Sequence
from hashlib import sha256
from itertools import count
from typing import Any


def below(seed: int, name: str, n: int) -> int:
    """A whole number from 0 to n - 1."""
    last = (1 << 256) // n * n
    for turn in count():
        drawn = int(sha256(f"{seed}/{name}/{turn}".encode()).hexdigest(), 16)
        if drawn < last:
            return drawn % n
    raise AssertionError


def mixed(seed: int, name: str, items: Sequence[Any]) -> list[Any]:
    """The items shuffled: from the last position down, each is swapped with one at or before it."""
    left, out = list(items), []
    while len(left) > 1:
        place = below(seed, f"{name}/{len(left) - 1}", len(left))
        left[-1], left[place] = left[place], left[-1]
        out.append(left.pop())
    return [*left, *reversed(out)]
