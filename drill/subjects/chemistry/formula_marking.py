"""Marks chemical formulae, typed in any way; capitals, numbers and brackets matter."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from fractions import Fraction

from drill.model import Mark, Part
from drill.subjects.chemistry.capitals import recased
from drill.subjects.chemistry.keys import FormulaKey
from drill.subjects.chemistry.typed_formulae import Species, readings
from drill.typed.awarding import nothing, whole
from drill.typed.typed_text import flat


def mark_formula(part: Part, typed: str, earlier: Mapping[str, Fraction]) -> Mark:
    """Right when some reading of it is an accepted formula with its charge."""
    key = part.key
    assert isinstance(key, FormulaKey)
    text = bare(typed)
    wanted = [one for accepted in key.accept for one in readings(accepted)[:1]]
    said = readings(text)
    if any(one.same == right.same and one.count == 1 for one in said for right in wanted):
        return whole(part, True, f"Right: {key.accept[0]}.")
    says, slip = _wrong(text, said, wanted, key)
    if not said and slip is None:
        return nothing(part, says, readable=False)
    return whole(part, False, says, slip)


_NO_DOT = re.compile(r"(?<=[A-Za-z0-9)])\s+(\d*)H2O\s*$")  # "Na2SO4 10H2O": water of crystals


def bare(typed: str) -> str:
    """The formula alone: no lead-in, no full stop."""
    text = flat(typed).strip().rstrip(".!?")
    for lead in ("the formula is", "formula:", "formula =", "answer:", "it is", "="):
        if text.lower().startswith(lead):
            text = text[len(lead) :].strip()
    return _NO_DOT.sub(r".\1H2O", text)


def _wrong(
    text: str, said: tuple[Species, ...], wanted: list[Species], key: FormulaKey
) -> tuple[str, str | None]:
    """What is wrong with it, in words, and the name of the slip."""
    model = key.accept[0]
    meant = recased(text, key.accept)
    if meant is not None:
        return f"Capital letters matter: {meant}. {_case_reason(meant)}", "capitals"
    for slip, says, fits in _SLIPS:
        if any(fits(one, right) for one in said for right in wanted):
            return f"{says} {model}.", slip
    if "^" in text and readings(text.replace("^", "")):
        return f"Numbers of atoms are written low, not raised: {model}.", "raised"
    return (f"Not the formula: {model}." if said else "Not read as a formula: type it again."), None


def _elements(one: Species) -> set[str]:
    return set(one.atoms)


# the nearest first; each is tried on every reading before the next
_SLIPS: tuple[tuple[str, str, Callable[[Species, Species], bool]], ...] = (
    (
        "number-in-front",
        "The formula alone, without a number in front:",
        lambda one, right: one.same == right.same,
    ),
    (
        "grouping",
        "Right atoms, but groups are kept together:",
        lambda one, right: one.atoms == right.atoms and one.charge == right.charge,
    ),
    ("charge", "The charge is not right:", lambda one, right: one.atoms == right.atoms),
    (
        "numbers",
        "Right elements, numbers not:",
        lambda one, right: _elements(one) == _elements(right),
    ),
)


def _case_reason(meant: str) -> str:
    return "A symbol has one capital, then at most one small letter: Co is cobalt, CO is not."
