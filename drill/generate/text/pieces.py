"""Pieces of a formula's text, and how tightly each holds together."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from drill.generate.text.amounts import amount_text, number_text, with_unit
from drill.generate.text.articles import listed
from drill.quantities import Quantity, Value

SUM, PRODUCT, SIGNED, WHOLE = 1, 2, 3, 4  # how tightly, loosest first
_RAISED = str.maketrans("0123456789-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁻")


@dataclass(frozen=True)
class FormulaPiece:
    """Text and how tightly it holds together."""

    text: str
    tight: int = WHOLE

    def inside(self, least: int) -> str:
        """The text, in brackets unless it holds together as tightly as asked."""
        return self.text if self.tight >= least else f"({self.text})"


def signed(text: str) -> FormulaPiece:
    """A single amount; one with a minus sign takes brackets behind an operator."""
    return FormulaPiece(text, SIGNED if text.startswith("−") else WHOLE)


def power(base: FormulaPiece, exponent: FormulaPiece) -> FormulaPiece:
    """12², (2.0 cm)³, 2⁻¹."""
    whole = exponent.text.replace("−", "-")
    bare = " " not in base.text and base.tight == WHOLE
    text = base.text if bare else f"({base.text})"
    if whole.lstrip("-").isdigit():
        return FormulaPiece(text + whole.translate(_RAISED))
    return FormulaPiece(f"{text}^{exponent.inside(WHOLE)}")


def value_text(value: Value) -> str:
    """A value in a worked answer: an amount, several of one unit, or words."""
    if isinstance(value, Quantity):
        return amount_text(value)
    if isinstance(value, tuple):
        quantities = [one for one in value if isinstance(one, Quantity)]
        words = [one for one in value if isinstance(one, str)]
        numbers = [number_text(one) for one in quantities]
        return with_unit(listed(numbers or words), unit_text(quantities))
    return str(value)


def added(quantities: Sequence[Quantity]) -> str:
    """Numbers with a + between them, negative ones in brackets: 23.90 + 24.10 + (−1)."""
    first, *others = [signed(number_text(one)) for one in quantities]
    return " + ".join([first.text, *(other.inside(WHOLE) for other in others)])


def unit_text(quantities: Sequence[Quantity]) -> str:
    """The unit of a list: that of its first."""
    return quantities[0].unit.symbol if quantities else ""
