"""The nearest known word to one that is not known, for the end of a message."""

from __future__ import annotations

from collections.abc import Iterable


def nearest(word: str, known: Iterable[str]) -> str:
    """ "Did you mean 'mass'?", or "" when nothing is near."""
    from difflib import get_close_matches  # only ever needed for a message

    candidates = sorted(set(known))[:2000]
    found = get_close_matches(word[:80], candidates, n=1, cutoff=0.6)
    return f"Did you mean {found[0]!r}?" if found else ""
