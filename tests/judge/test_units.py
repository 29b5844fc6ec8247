"""The judge's units against the library pint, and against every spelling the program reads.

pint is needed by these tests only. Temperatures are compared as differences (delta_degC).
"""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from drill.judge.amounts import Amount, turned
from drill.judge.cannot import Cannot
from drill.judge.units import means, symbols, times, unit_of
from drill.quantities import unit_of as engine_unit
from drill.quantities.units.unit_reading import spellings

pint = pytest.importorskip("pint")

THEIRS = {
    "µm": "micrometer", "µl": "microliter", "µg": "microgram", "µA": "microampere",
    "ml": "milliliter", "cl": "centiliter", "t": "metric_ton", "h": "hour", "min": "minute",
    "°C": "delta_degree_Celsius", "MΩ": "megaohm", "kΩ": "kiloohm", "Ω": "ohm",
    "kWh": "kilowatt_hour", "mΩ": "milliohm", "°F": "delta_degree_Fahrenheit",
}  # fmt: skip
COUNTED = ("%", "°", "au", "bubbles", "drops", "squares")
BASE = {"m": "meter", "kg": "kilogram", "s": "second", "A": "ampere", "K": "kelvin",
        "mol": "mole"}  # fmt: skip
COMPOSED = {
    "mol/dm3": "mole / decimeter ** 3",
    "mol dm-3": "mole / decimeter ** 3",
    "moldm-3": "mole / decimeter ** 3",
    "J/(kg °C)": "joule / kilogram / delta_degree_Celsius",
    "J/kg °C": "joule / kilogram / delta_degree_Celsius",
    "J kg-1 °C-1": "joule / kilogram / delta_degree_Celsius",
    "m/s^2": "meter / second ** 2",
    "ms-1": "meter / second",
    "cm3 per minute": "centimeter ** 3 / minute",
    "cubic centimetres": "centimeter ** 3",
    "grams per mole": "gram / mole",
    "kilowatt-hours": "kilowatt_hour",
    "Ω m": "ohm * meter",
    "1/s": "1 / second",
    "M": "mole / decimeter ** 3",
    "cc": "centimeter ** 3",
}


@pytest.fixture(scope="module")
def registry() -> Any:
    return pint.UnitRegistry(non_int_type=Fraction, cache_folder=None)


def agree(text: str, theirs: str, registry: Any) -> None:
    unit = unit_of(text)
    mine = registry.Quantity(unit.scale, "")
    for name, power in unit.base:
        mine = mine * registry.Quantity(Fraction(1), BASE[name]) ** power
    other = registry.Quantity(Fraction(1), theirs)
    assert mine.dimensionality == other.dimensionality, text
    assert Fraction(other.to(mine.units).magnitude) == unit.scale, text


@pytest.mark.parametrize("symbol", [one for one in symbols() if one not in COUNTED])
def test_every_unit_is_as_large_as_published(symbol, registry):
    agree(symbol, THEIRS.get(symbol, symbol), registry)


@pytest.mark.parametrize("text", COMPOSED)
def test_composed_units(text, registry):
    agree(text, COMPOSED[text], registry)


@pytest.mark.parametrize("symbol", COUNTED)
def test_counted_things_are_plain_numbers_with_a_name(symbol):
    assert unit_of(symbol).plain
    assert unit_of(symbol).symbol == symbol


def test_every_spelling_the_program_reads_is_read():
    wrong = [text for text in spellings() if not means(text, unit_of(engine_unit(text).symbol))]
    assert wrong == []


@pytest.mark.parametrize("text", ["CM3", "KG", "Mol/dm3", "degrees Celsius", "per cent", "M3"])
def test_slips_of_case_are_read_as_the_program_reads_them(text):
    assert unit_of(text).symbol == engine_unit(text).symbol


@pytest.mark.parametrize("text", ["furlong", "g/", "3 g", "1", "x/y", "g^^2"])
def test_what_is_no_unit_is_refused(text):
    with pytest.raises(Cannot):
        unit_of(text)


def test_products_cancel_and_are_spelled_one_way():
    assert times(unit_of("cm3"), unit_of("mol/dm3")).scale == Fraction(1, 1000)
    assert times(unit_of("J/(g °C)"), unit_of("g")).symbol == "J/°C"
    assert times(unit_of("g"), unit_of("g"), -1).symbol == ""
    assert times(unit_of("g"), unit_of("%")).symbol == "g"
    assert means("dm-3 mol", unit_of("mol/dm3"))
    assert not means("mol/cm3", unit_of("mol/dm3"))
    assert not means("", unit_of("%"))


@pytest.mark.parametrize("pair", ["°C K", "K °C", "°F °C"])
def test_scales_of_temperature_are_not_turned_into_each_other(pair):
    one, other = map(unit_of, pair.split())
    assert not means(pair.split()[1], one)
    with pytest.raises(Cannot):
        turned(Amount(Fraction(1), one), other)
    assert turned(Amount(Fraction(1), unit_of("J/°F")), unit_of("J/K")).number == Fraction(9, 5)
