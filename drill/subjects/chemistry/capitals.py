"""Formulae typed without capital letters: recognised if only one formula can be meant."""

from __future__ import annotations

from drill.typed.typed_text import flat


def recased(text: str, known: tuple[str, ...]) -> str | None:
    """The known formula this is but for its capitals ("nacl"), when only one can be meant."""
    bare = "".join(flat(text).split())
    found = {formula for formula in known if formula.lower() == bare.lower() and formula != bare}
    return found.pop() if len(found) == 1 else None
