"""Units are read as people spell them, and mean exactly one thing."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drill.quantities import PLAIN, Fault, Quantity, Unit, convert, pretty, same_dimension, unit_of
from drill.quantities.units.conversion import product, root
from drill.quantities.units.unit_reading import spellings
from drill.quantities.units.unit_table import ALIASES, ATOMS
from tests.quantities.helpers import bounded, q, unit

SAME = {
    "cm3": ["cm^3", "cm³", "cm**3", "CM3", "cc", "cubic centimetres", "centimetres cubed", "㎤"],
    "ml": ["mL", "mls", "millilitre", "Millilitres"],
    "dm3": ["dm^3", "dm³", "cubic decimetre", "DM3"],
    "L": ["l", "litre", "Litres"],
    "mol/dm3": ["mol dm-3", "mol dm^-3", "mol dm⁻³", "mol·dm⁻³", "moldm-3", "M", "mol per dm3"],
    "g/dm3": ["g dm-3", "g per dm3", "grams per cubic decimetre", "g dm −3"],
    "g/cm3": ["g cm-3", "g per cm3", "g cm^-3", "gcm-3", "G/CM3"],
    "kg/m3": ["kg m-3", "KG/M3", "kgm^-3"],
    "°C": ["C", "c", "ºC", "℃", "° C", "deg C", "degC", "degrees C", "degrees Celsius", "°c"],
    "m/s": ["m s-1", "ms-1", "ms^-1", "ms⁻¹", "metres per second"],
    "m/s2": ["m s-2", "ms-2", "m/s/s", "m/s^2", "metres per second squared"],
    "J/(kg °C)": ["J/kg °C", "J/kg°C", "J/kg/C", "J kg-1 °C-1", "Jkg-1°C-1", "J/(kg C)"],
    "1/s": ["s-1", "/s", "per second", "s⁻¹", "1 / s"],
    "cm3/s": ["cm3 s-1", "cm3 per second", "cm³/s"],
    "%": ["percent", "per cent", "Per cent"],
    "Ω": ["ohm", "Ohms", "\u2126"],
    "µm": ["um", "μm", "micrometres"],
    "A": ["amp", "Amps", "amperes"],
    "N m": ["Nm", "newton metres"],
    "kW h": ["kilowatt-hour", "kW h", "kilowatt hours"],
    "min": ["mins", "minutes", "MIN"],
    "h": ["hr", "hours"],
    "au": ["arbitrary units", "a.u.", "a.u"],
    "g": ["G", "gram", "grams", "g."],
    "mmol/dm3": ["mM"],
    "cm/s": ["cms-1", "cm s-1"],
}


@pytest.mark.parametrize(("symbol", "spelled"), [(s, t) for s, all_ in SAME.items() for t in all_])
def test_a_spelling_is_the_unit_itself(symbol: str, spelled: str) -> None:
    assert unit_of(spelled) == unit(symbol)
    assert unit(spelled).symbol == symbol


def test_nothing_is_a_plain_number() -> None:
    assert unit_of("") == unit_of("  ") == PLAIN


@pytest.mark.parametrize("text", ["ML", "MA", "S", "H", "k", "Mm", "MG", "cM", "MOHM"])
def test_a_case_that_means_another_quantity_is_refused(text: str) -> None:
    assert unit_of(text) is None


_NO_UNITS = "xyz 1 . g/ / *g g* (g g) () m^99 m^0 m^1.5 per 1/1/s cubic m^ cc2 $ ' m/()"


@pytest.mark.parametrize(
    "text",
    [*_NO_UNITS.split(), "cm 3", "mol dm--3", "g\x00", "g" * 61, "kg of water", "g ÷"],
)
def test_what_is_no_unit_is_none(text: str) -> None:
    assert unit_of(text) is None


@bounded
@given(st.text(max_size=70))
def test_no_text_makes_it_raise(text: str) -> None:
    found = unit_of(text)
    assert found is None or unit_of(found.symbol) == found


@bounded
@given(st.text("cmdsgkJK/()^-3 °%123*.per", max_size=20))
def test_nothing_that_looks_like_a_unit_makes_it_raise(text: str) -> None:
    found = unit_of(text)
    assert found is None or unit_of(found.symbol) == found


def test_every_spelling_of_the_table_is_read_as_its_own_unit() -> None:
    for atom in ATOMS:
        for word in (atom.symbol, *atom.spellings.split()):
            assert unit(word) == Unit(atom.symbol, atom.scale, atom.dimension), word
    assert all(unit_of(word) is not None for word in spellings())
    assert all(unit(word) == unit(meaning) for word, meaning in ALIASES.items())


def test_no_two_units_share_a_spelling() -> None:
    words = [word for atom in ATOMS for word in (atom.symbol, *atom.spellings.split())]
    assert len(words) == len(set(words))


def test_the_factors_are_exact() -> None:
    assert convert(q("25 cm3"), unit("dm3")) == q("0.025 dm3")
    assert convert(q("1 g/cm3"), unit("kg/m3")) == q("1000 kg/m3")
    assert convert(q("90 min"), unit("h")) == q("1.5 h")
    assert convert(q("1 ml"), unit("cm3")) == q("1 cm3")
    assert convert(q("1 kWh"), unit("J")) == q("3600000 J")


def test_a_conversion_keeps_how_it_is_shown_only_when_the_number_stays() -> None:
    assert convert(Quantity(Fraction(25), unit("ml"), 1), unit("cm3")) == Quantity(
        Fraction(25), unit("cm3"), 1
    )
    assert convert(Quantity(Fraction(25), unit("cm3"), 1), unit("dm3")) == q("0.025 dm3")


def test_other_things_are_not_converted() -> None:
    found = convert(q("3 g"), unit("cm3"))
    assert found == Fault("g cannot be turned into cm3: they measure other things")


def test_celsius_and_kelvin_are_not_mixed_up() -> None:
    assert isinstance(convert(q("25 °C"), unit("K")), Fault)
    assert isinstance(convert(q("298 K"), unit("°C")), Fault)
    assert convert(q("4.2 J/(g K)"), unit("J/(g °C)")) == q("4.2 J/(g °C)")


def test_a_symbol_has_raised_digits_where_they_can_be_shown() -> None:
    assert [pretty(s) for s in ("cm3", "mol/dm3", "m/s2", "J/(kg °C)")] == [
        "cm³",
        "mol/dm³",
        "m/s²",
        "J/(kg °C)",
    ]


# ------------------------------------------------------------------ algebra

UNITS = st.sampled_from([unit(a.symbol) for a in ATOMS] + [unit(text) for text in SAME] + [PLAIN])
CHECKED = st.tuples(UNITS, UNITS, UNITS)


def times(a: Unit, b: Unit, power: int = 1) -> Unit:
    found = product(a, b, power)
    assert isinstance(found, Unit), found
    return found


def size(a: Unit) -> tuple[Fraction, tuple[int, ...]]:
    return a.scale, a.dimension


@bounded
@given(CHECKED)
def test_products_are_commutative_and_associative_in_size(units: tuple[Unit, Unit, Unit]) -> None:
    a, b, c = units
    assert size(times(a, b)) == size(times(b, a))
    assert size(times(times(a, b), c)) == size(times(a, times(b, c)))


@bounded
@given(UNITS, UNITS)
def test_dividing_undoes_multiplying(a: Unit, b: Unit) -> None:
    assert size(times(times(a, b), b, -1)) == size(a)
    assert times(a, a, -1) == PLAIN


@bounded
@given(UNITS, UNITS)
def test_a_product_has_the_scales_and_dimensions_of_both(a: Unit, b: Unit) -> None:
    both = times(a, b)
    assert both.scale == a.scale * b.scale
    assert both.dimension == tuple(x + y for x, y in zip(a.dimension, b.dimension, strict=True))


@bounded
@given(UNITS, UNITS)
def test_a_composed_symbol_reads_back_as_the_same_unit(a: Unit, b: Unit) -> None:
    for both in (times(a, b), times(a, b, -1), times(a, b, -2)):
        assert unit_of(both.symbol) == both


@bounded
@given(UNITS)
def test_a_root_undoes_a_square(a: Unit) -> None:
    assert size(root(times(a, a))) == size(a)  # type: ignore[arg-type]


def test_a_cubic_unit_has_no_root() -> None:
    assert root(unit("cm3")) == Fault("cm3 has no square root among units")


@bounded
@given(UNITS, UNITS, st.fractions(max_denominator=1000))
def test_there_and_back_is_the_same_quantity(a: Unit, b: Unit, value: Fraction) -> None:
    there = convert(Quantity(value, a), b)
    if isinstance(there, Fault):
        assert not same_dimension(a, b) or "°C" in (a.symbol, b.symbol)
    else:
        assert convert(there, a) == Quantity(value, a)
