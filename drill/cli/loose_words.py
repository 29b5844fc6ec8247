"""Loose words where letters are waited for: asked about once, before they are marked."""

from __future__ import annotations

MEANT = "? Enter: yes; or type the letter you mean > "
"""Stands behind the letters that the words seem to mean."""


def meant(typed: str, letters: str, reply: str) -> str | None:
    """The answer after asking: what was typed, or the reply in its place; None for no.

    `letters`: what the words were taken for.
    """
    folded = reply.casefold()
    if folded in ("no", "n", "nope"):
        return None
    return typed if folded in ("", "yes", "y", letters.casefold()) else reply
