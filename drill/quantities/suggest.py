"""The nearest known word to one that is not known, for the end of a message."""

from __future__ import annotations

from collections.abc import Iterable

from drill.plaintext import nearest as nearest_word


def nearest(word: str, known: Iterable[str]) -> str:
    """ "Did you mean 'mass'?", or "" when nothing is near."""
    near = nearest_word(word, known)
    return f"Did you mean {near!r}?" if near else ""
