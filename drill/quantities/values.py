"""The values a question is worked with: exact numbers with units, text, truth, rows of facts."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from msgspec import Struct


class Unit(Struct, frozen=True):
    """A unit as a scale over the base units and their exponents.

    `dimension` holds the exponents of (m, kg, s, A, K, mol); `scale` is exact, in those base units
    (cm3: 1/1000000). Degrees Celsius have a different zero from kelvin, so only differences are
    converted. Percent and plain numbers have no dimension and scale 1.
    """

    symbol: str
    scale: Fraction
    dimension: tuple[int, ...]

    def __hash__(self) -> int:
        """Hash of the symbol alone, which identifies a unit: hashing a Fraction is slow."""
        return hash(self.symbol)


PLAIN = Unit("", Fraction(1), (0, 0, 0, 0, 0, 0))


class Quantity(Struct, frozen=True):
    """An exact value in `unit`.

    It is shown with `decimals` places, or else to `figures` significant figures, or else as needed.
    """

    value: Fraction
    unit: Unit = PLAIN
    decimals: int | None = None
    figures: int | None = None


class FactsRow(Struct, frozen=True):
    """One row of a facts table: its id and its cells, numbers with the unit of their column."""

    table: str
    id: str
    cells: Mapping[str, Quantity | str]
    line: int = 0


Value = Quantity | str | bool | FactsRow | tuple["Quantity", ...] | tuple[str, ...]


class Fault(Struct, frozen=True):
    """Why an expression could not be read or worked out; `column` counts from 1 in its text."""

    message: str
    column: int = 0
    hint: str = ""
