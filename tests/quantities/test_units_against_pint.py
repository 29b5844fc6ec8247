"""Our factors against an independent table: the unit definitions of the library pint.

pint is needed by this test only. Temperatures are compared as differences (delta_degC).
"""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from drill.quantities.units.unit_table import ATOMS, Atom
from tests.quantities.helpers import unit

pint = pytest.importorskip("pint")

# our symbol -> pint's, where they differ; None for what only we count
THEIRS = {
    "µm": "micrometer",
    "µl": "microliter",
    "µg": "microgram",
    "µA": "microampere",
    "ml": "milliliter",
    "cl": "centiliter",
    "t": "metric_ton",
    "h": "hour",
    "min": "minute",
    "°C": "delta_degree_Celsius",
    "°F": "delta_degree_Fahrenheit",
    "MΩ": "megaohm",
    "kΩ": "kiloohm",
    "Ω": "ohm",
    "kWh": "kilowatt_hour",
    "%": None,
    "°": None,
    "au": None,
    "bubbles": None,
    "drops": None,
    "squares": None,
}
BASE = ("[length]", "[mass]", "[time]", "[current]", "[temperature]", "[substance]")
COMPOSED = {
    "mol/dm3": "mole / decimeter ** 3",
    "g/cm3": "gram / centimeter ** 3",
    "g/dm3": "gram / decimeter ** 3",
    "J/(kg °C)": "joule / kilogram / delta_degree_Celsius",
    "kJ/mol": "kilojoule / mole",
    "m/s2": "meter / second ** 2",
    "N/kg": "newton / kilogram",
    "cm3/min": "centimeter ** 3 / minute",
    "mol/(dm3 s)": "mole / decimeter ** 3 / second",
    "Ω m": "ohm * meter",
}


@pytest.fixture(scope="module")
def registry() -> Any:
    return pint.UnitRegistry(non_int_type=Fraction, cache_folder=None)


def agree(registry: Any, symbol: str, name: str) -> None:
    theirs = registry.Quantity(Fraction(1), name).to_base_units()
    ours = unit(symbol)
    assert dict(theirs.dimensionality) == {
        base: power for base, power in zip(BASE, ours.dimension, strict=True) if power
    }
    # pint's base unit of mass is the gram by name, but "mks" is its default system: kilogram
    assert Fraction(theirs.magnitude) == ours.scale, symbol


@pytest.mark.parametrize("atom", [a for a in ATOMS if THEIRS.get(a.symbol, "") is not None])
def test_every_unit_both_know_has_the_same_size(registry: Any, atom: Atom) -> None:
    agree(registry, atom.symbol, THEIRS.get(atom.symbol) or atom.symbol)


@pytest.mark.parametrize("symbol", COMPOSED)
def test_composed_units_have_the_same_size(registry: Any, symbol: str) -> None:
    agree(registry, symbol, COMPOSED[symbol])


def test_only_counted_things_and_per_cent_are_left_out() -> None:
    left_out = [atom for atom in ATOMS if THEIRS.get(atom.symbol, "") is None]
    assert all(not any(atom.dimension) and atom.scale == 1 for atom in left_out)
