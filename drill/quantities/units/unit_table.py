"""Every unit this program knows: a closed table with exact factors and the spellings people use.

Factors are those of the SI Brochure (BIPM, 9th edition): prefixes, table 4 (derived units), table 8
(units used with the SI: minute, hour, day, litre, tonne, degree). The kilowatt-hour is 1000 W for
3600 s. A step of a degree Fahrenheit is 5/9 K (NIST SP 811, appendix B). Counting words (bubbles,
drops) and per cent have no dimension and factor 1.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

Dimension = tuple[int, int, int, int, int, int]  # exponents of m, kg, s, A, K, mol

NONE: Dimension = (0, 0, 0, 0, 0, 0)
_LENGTH: Dimension = (1, 0, 0, 0, 0, 0)
_VOLUME: Dimension = (3, 0, 0, 0, 0, 0)
_MASS: Dimension = (0, 1, 0, 0, 0, 0)
_TIME: Dimension = (0, 0, 1, 0, 0, 0)
_CURRENT: Dimension = (0, 0, 0, 1, 0, 0)
_TEMPERATURE: Dimension = (0, 0, 0, 0, 1, 0)
_AMOUNT: Dimension = (0, 0, 0, 0, 0, 1)
_FREQUENCY: Dimension = (0, 0, -1, 0, 0, 0)
_FORCE: Dimension = (1, 1, -2, 0, 0, 0)
_PRESSURE: Dimension = (-1, 1, -2, 0, 0, 0)
_ENERGY: Dimension = (2, 1, -2, 0, 0, 0)
_POWER: Dimension = (2, 1, -3, 0, 0, 0)
_CHARGE: Dimension = (0, 0, 1, 1, 0, 0)
_VOLTAGE: Dimension = (2, 1, -3, -1, 0, 0)
_RESISTANCE: Dimension = (2, 1, -3, -2, 0, 0)


class Atom(NamedTuple):
    """One unit that is not made of others: how it is shown, its size, how else it is spelled."""

    symbol: str
    scale: Fraction
    dimension: Dimension
    spellings: str = ""


def _part(of: int) -> Fraction:
    return Fraction(1, of)


_ONE = Fraction(1)

ATOMS: tuple[Atom, ...] = (
    Atom("km", Fraction(1000), _LENGTH, "kilometre kilometres kilometer kilometers"),
    Atom("m", _ONE, _LENGTH, "metre metres meter meters"),
    Atom("dm", _part(10), _LENGTH, "decimetre decimetres decimeter decimeters"),
    Atom("cm", _part(100), _LENGTH, "centimetre centimetres centimeter centimeters cms"),
    Atom("mm", _part(1000), _LENGTH, "millimetre millimetres millimeter millimeters mms"),
    Atom("µm", _part(10**6), _LENGTH, "um micrometre micrometres micrometer micrometers micron"),
    Atom("nm", _part(10**9), _LENGTH, "nanometre nanometres nanometer nanometers"),
    Atom("L", _part(10**3), _VOLUME, "l litre litres liter liters ltr"),
    Atom("cl", _part(10**5), _VOLUME, "cL centilitre centilitres centiliter centiliters"),
    Atom("ml", _part(10**6), _VOLUME, "mL mls mLs millilitre millilitres milliliter milliliters"),
    Atom("µl", _part(10**9), _VOLUME, "µL ul uL microlitre microlitres microliter microliters"),
    Atom("t", Fraction(1000), _MASS, "tonne tonnes"),
    Atom("kg", _ONE, _MASS, "kgs kilo kilos kilogram kilograms kilogramme kilogrammes"),
    Atom("g", _part(10**3), _MASS, "gm gms gram grams gramme grammes"),
    Atom("mg", _part(10**6), _MASS, "mgs milligram milligrams milligramme milligrammes"),
    Atom("µg", _part(10**9), _MASS, "ug microgram micrograms"),
    Atom("day", Fraction(86400), _TIME, "days"),
    Atom("h", Fraction(3600), _TIME, "hr hrs hour hours"),
    Atom("min", Fraction(60), _TIME, "mins minute minutes"),
    Atom("s", _ONE, _TIME, "sec secs second seconds"),
    Atom("ms", _part(1000), _TIME, "msec millisecond milliseconds"),
    Atom("A", _ONE, _CURRENT, "amp amps ampere amperes"),
    Atom("mA", _part(1000), _CURRENT, "milliamp milliamps milliampere milliamperes"),
    Atom("µA", _part(10**6), _CURRENT, "uA microamp microamps"),
    Atom("K", _ONE, _TEMPERATURE, "kelvin kelvins"),
    Atom("°C", _ONE, _TEMPERATURE, "C degC °celsius °centigrade celsius centigrade"),
    Atom("°F", Fraction(5, 9), _TEMPERATURE, "F degF °fahrenheit fahrenheit"),
    Atom("kmol", Fraction(1000), _AMOUNT, "kilomole kilomoles"),
    Atom("mol", _ONE, _AMOUNT, "mols mole moles"),
    Atom("mmol", _part(1000), _AMOUNT, "millimole millimoles"),
    Atom("MHz", Fraction(10**6), _FREQUENCY, "megahertz"),
    Atom("kHz", Fraction(1000), _FREQUENCY, "kilohertz"),
    Atom("Hz", _ONE, _FREQUENCY, "hertz"),
    Atom("kN", Fraction(1000), _FORCE, "kilonewton kilonewtons"),
    Atom("N", _ONE, _FORCE, "newton newtons"),
    Atom("mN", _part(1000), _FORCE, "millinewton millinewtons"),
    Atom("bar", Fraction(10**5), _PRESSURE, "bars"),
    Atom("MPa", Fraction(10**6), _PRESSURE, "megapascal megapascals"),
    Atom("kPa", Fraction(1000), _PRESSURE, "kilopascal kilopascals"),
    Atom("Pa", _ONE, _PRESSURE, "pascal pascals"),
    Atom("atm", Fraction(101325), _PRESSURE, "atmosphere atmospheres"),
    Atom("kWh", Fraction(3600000), _ENERGY, ""),
    Atom("MJ", Fraction(10**6), _ENERGY, "megajoule megajoules"),
    Atom("kJ", Fraction(1000), _ENERGY, "kilojoule kilojoules"),
    Atom("J", _ONE, _ENERGY, "joule joules"),
    Atom("mJ", _part(1000), _ENERGY, "millijoule millijoules"),
    Atom("MW", Fraction(10**6), _POWER, "megawatt megawatts"),
    Atom("kW", Fraction(1000), _POWER, "kilowatt kilowatts"),
    Atom("W", _ONE, _POWER, "watt watts"),
    Atom("mW", _part(1000), _POWER, "milliwatt milliwatts"),
    Atom("coulomb", _ONE, _CHARGE, "coulombs"),  # C stands for degrees Celsius here
    Atom("kV", Fraction(1000), _VOLTAGE, "kilovolt kilovolts"),
    Atom("V", _ONE, _VOLTAGE, "volt volts"),
    Atom("mV", _part(1000), _VOLTAGE, "millivolt millivolts"),
    Atom("MΩ", Fraction(10**6), _RESISTANCE, "megohm megohms"),
    Atom("kΩ", Fraction(1000), _RESISTANCE, "kilohm kilohms kohm kohms"),
    Atom("Ω", _ONE, _RESISTANCE, "ohm ohms"),
    Atom("%", _ONE, NONE, "percent percentage pc"),
    Atom("°", _ONE, NONE, "deg degree degrees"),
    Atom("au", _ONE, NONE, "arb"),
    Atom("bubbles", _ONE, NONE, "bubble"),
    Atom("drops", _ONE, NONE, "drop"),
    Atom("squares", _ONE, NONE, "square"),
)

# words that stand for a composed unit
ALIASES = {
    "cc": "cm3",
    "ccs": "cm3",
    "CC": "cm3",
    "M": "mol/dm3",
    "molar": "mol/dm3",
    "mM": "mmol/dm3",
}
