"""Chemical equations: species, balance and states judged apart."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from drill.marking.verdict import whole
from drill.model import EquationKey, Mark, Part


def mark_equation(part: Part, typed: str, earlier: Mapping[str, Fraction]) -> Mark:
    """Right when it is an accepted equation, spaces apart."""
    key = part.key
    assert isinstance(key, EquationKey)
    said = "".join(typed.split())
    right = any(said == "".join(accepted.split()) for accepted in key.accept)
    return whole(part, right, f"{'Right' if right else 'Not the equation'}: {key.accept[0]}.")
