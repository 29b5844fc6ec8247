"""Word equations: names on both sides of an arrow, in any order, with slips of spelling."""

from __future__ import annotations

import re

from drill.model import Mark, Part
from drill.subjects.chemistry.keys import EquationKey
from drill.subjects.chemistry.naming import NAMES
from drill.typed.awarding import nothing, whole
from drill.typed.names import misspells, plain_name

_ARROW = re.compile(r"-+>|=+>?|→|⟶|⇌|\bgives\b|\bmakes\b|\bproduces\b|\bgoes to\b", re.IGNORECASE)
_PLUS = re.compile(r"\+|&|\band\b|,", re.IGNORECASE)


def mark_word_equation(part: Part, key: EquationKey, typed: str) -> Mark:
    """Right when both sides name the same substances as an accepted equation."""
    said = _sides(typed)
    if said is None:
        return nothing(part, "Names, + between them, and an arrow -> are needed.", readable=False)
    for accepted in key.accept:
        wanted = _sides(accepted)
        if wanted is not None and all(map(_same_names, said, wanted)):
            return whole(part, True, f"Right: {key.accept[0]}.")
    return whole(part, False, f"Not the equation: {key.accept[0]}.")


def _sides(text: str) -> tuple[list[str], list[str]] | None:
    parts = _ARROW.split(text)
    if len(parts) != 2:
        return None
    left, right = ([plain_name(one, NAMES) for one in _PLUS.split(part)] for part in parts)
    return (left, right) if all(left) and all(right) else None


def _same_names(said: list[str], wanted: list[str]) -> bool:
    if len(said) != len(wanted):
        return False
    left = list(wanted)
    for one in said:
        meant = (
            one
            if one in left
            else next((name for name in left if misspells(one, name, NAMES)), None)
        )
        if meant is None:
            return False
        left.remove(meant)
    return True
