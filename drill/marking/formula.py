"""Chemical formulae: any way of typing them, judged atom by atom."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from drill.marking.verdict import nothing, whole
from drill.model import FormulaKey, Mark, Part
from drill.quantities import Fault, parse_formula


def mark_formula(part: Part, typed: str, earlier: Mapping[str, Fraction]) -> Mark:
    """Right when it holds the same atoms as an accepted formula."""
    key = part.key
    assert isinstance(key, FormulaKey)
    said = parse_formula(typed.strip().rstrip("."))
    if isinstance(said, Fault):
        return nothing(part, f"Not read as a formula: {said.message}", readable=False)
    for accepted in key.accept:
        wanted = parse_formula(accepted)
        if not isinstance(wanted, Fault) and dict(wanted.atoms) == dict(said.atoms):
            return whole(part, True, f"Right: {accepted}.")
    return whole(part, False, f"Not the formula: {key.accept[0]}.")
