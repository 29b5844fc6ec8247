"""Formulae of authors: atoms counted, faults in words; what pupils type, in all its readings."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drill.quantities import Fault
from drill.subjects.chemistry.elements import SYMBOLS
from drill.subjects.chemistry.formulae import Formula, molar_mass, parse_formula
from drill.subjects.chemistry.typed_formulae import readings
from tests.quantities.helpers import bounded


def atoms(text: str) -> dict[str, int]:
    found = parse_formula(text)
    assert isinstance(found, Formula), found
    return dict(found.atoms)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("CuSO4.5H2O", {"Cu": 1, "S": 1, "O": 9, "H": 10}),
        ("CuSO4·5H2O", {"Cu": 1, "S": 1, "O": 9, "H": 10}),
        ("CuSO₄·5H₂O", {"Cu": 1, "S": 1, "O": 9, "H": 10}),
        ("Cu2(OH)2CO3", {"Cu": 2, "O": 5, "H": 2, "C": 1}),
        ("(NH4)2SO4", {"N": 2, "H": 8, "S": 1, "O": 4}),
        ("[Cu(H2O)6]Cl2", {"Cu": 1, "H": 12, "O": 6, "Cl": 2}),
        ("Co", {"Co": 1}),
        ("CO", {"C": 1, "O": 1}),
        ("CH3COOH", {"C": 2, "H": 4, "O": 2}),
        ("Na2CO3.10H2O", {"Na": 2, "C": 1, "O": 13, "H": 20}),
        ("KAl(SO4)2.12H2O", {"K": 1, "Al": 1, "S": 2, "O": 20, "H": 24}),
    ],
)
def test_atoms_are_counted(text: str, expected: dict[str, int]) -> None:
    assert atoms(text) == expected


@pytest.mark.parametrize(
    ("text", "message", "column", "hint"),
    [
        ("", "there is no formula", 1, ""),
        ("nacl", "'n' is not the symbol of an element", 1, "Symbols begin with a capital."),
        ("CuXO4", "'X' is not the symbol of an element", 3, ""),
        ("Cu(OH", "a ) is missing", 6, ""),
        ("Cu(OH))", "')' has no place in a formula", 7, ""),
        ("Cu()2", "a symbol of an element is missing", 4, ""),
        ("CuSO4.", "a symbol of an element is missing", 7, ""),
        ("2NaCl", "'2' has no place in a formula", 1, ""),
        ("H0", "'0' is no number of atoms", 2, ""),
        ("H99999", "'99999' is no number of atoms", 2, ""),
        ("Na+", "'+' has no place in a formula", 3, ""),
        ("((((((((H))))))))", "brackets go at most 6 deep", 8, ""),
        ("C" * 101, "a formula has at most 100 characters; this has 101", 1, ""),
    ],
)
def test_what_is_no_formula_is_told(text: str, message: str, column: int, hint: str) -> None:
    assert parse_formula(text) == Fault(message, column, hint)


def test_a_molar_mass_is_the_sum_of_the_masses_given() -> None:
    masses = {"Cu": Fraction("63.5"), "S": Fraction(32), "O": Fraction(16), "H": Fraction(1)}
    formula = parse_formula("CuSO4.5H2O")
    assert isinstance(formula, Formula)
    assert molar_mass(formula, masses) == Fraction("249.5")
    assert molar_mass(formula, {"Cu": Fraction(1), "O": Fraction(1)}) == Fault(
        "no mass is given for H, S in CuSO4.5H2O"
    )


SYMBOL_COUNTS = st.lists(
    st.tuples(st.sampled_from(sorted(SYMBOLS)), st.integers(1, 99)), min_size=1, max_size=6
)


@bounded
@given(SYMBOL_COUNTS, st.integers(2, 9), st.integers(1, 12))
def test_brackets_and_dots_multiply(pairs: list[tuple[str, int]], times: int, water: int) -> None:
    inner = "".join(f"{symbol}{count if count > 1 else ''}" for symbol, count in pairs)
    expected: dict[str, int] = {}
    for symbol, count in [*((s, n * times) for s, n in pairs), ("H", 2 * water), ("O", water)]:
        expected[symbol] = expected.get(symbol, 0) + count
    assert atoms(f"({inner}){times}.{water if water > 1 else ''}H2O") == expected


# ------------------------------------------------------------------ as typed


@pytest.mark.parametrize(
    ("text", "shape"),
    [
        ("Cu[SO4]", "CuSO4"), ("(NaCl)", "NaCl"), ("[NH4]2SO4", "(NH4)2SO4"), ("H2O1", "H2O"),
        ("CuSO4·5(H2O)", "CuSO4.5H2O"), ("((NH4)2)SO4", "(NH4)2SO4"),
        ("K3[Fe(CN)6]", "K3Fe(CN)6"), ("[Cu(H2O)6]2SO4", "(Cu(H2O)6)2SO4"),
        ("Al2(SO4)3", "Al2(SO4)3"), ("CH3COOH", "CH3COOH"), ("C10H21", "C10H21"),
        ("CaSO4.1H2O", "CaSO4.H2O"),
    ],
)  # fmt: skip
def test_one_shape_for_every_way_of_grouping(text: str, shape: str) -> None:
    assert readings(text)[0].shape == shape


def meant(text: str) -> list[tuple[str, int, str, str]]:
    """(formula, charge, state, number before it) of every reading."""
    return [(s.written, s.charge, s.state, str(s.count)) for s in readings(text)]


@pytest.mark.parametrize(
    ("text", "formula", "charge"),
    [
        *(
            (t, "Cu", 2)
            for t in ("Cu^2+", "Cu²⁺", "Cu^{2+}", "Cu^(2+)", "Cu(2+)", "Cu++", "Cu+2", "Cu 2+")
        ),
        *(
            (t, "SO4", -2)
            for t in ("SO4^2-", "SO₄²⁻", "SO4 2-", "SO₄2-", "SO_4^{2-}", "SO4^−2", "SO4--", "SO₄₂₋")
        ),
        *((t, "Na", 1) for t in ("Na+", "Na⁺", "Na^+", "Na^1+", "Na＋")),
        *((t, "e", -1) for t in ("e-", "e⁻", "e^-", "e−", "e–", "e")),
        *((t, "CuSO4.5H2O", 0) for t in ("CuSO4.5H2O", "CuSO4·5H2O", "CuSO4 . 5H2O", "CuSO₄•5H₂O")),
        ("[Cu(H2O)6]^2+", "[Cu(H2O)6]", 2),
        ("NH₄⁺", "NH4", 1),
        ("Al^3+", "Al", 3),
        ("Na Cl", "NaCl", 0),
        ("H_2O", "H2O", 0),
        ("OH-", "OH", -1),
    ],
)
def test_it_can_only_mean(text: str, formula: str, charge: int) -> None:
    assert meant(text) == [(formula, charge, "", "1")]


@pytest.mark.parametrize(
    ("text", "both"),
    [
        ("Cu2+", [("Cu", 2), ("Cu2", 1)]),
        ("SO42-", [("SO4", -2), ("SO42", -1)]),
        ("NH4+", [("NH", 4), ("NH4", 1)]),
        ("O2-", [("O", -2), ("O2", -1)]),
        ("[Cu(H2O)6]2+", [("[Cu(H2O)6]", 2), ("[Cu(H2O)6]2", 1)]),
    ],
)
def test_both_readings_are_kept(text: str, both: list[tuple[str, int]]) -> None:
    assert [(written, charge) for written, charge, _, _ in meant(text)] == both


@pytest.mark.parametrize(
    ("text", "state", "count"),
    [
        ("2HCl(aq)", "aq", "2"),
        ("2 HCl (AQ)", "aq", "2"),
        ("1/2 HCl(g)", "g", "1/2"),
        ("½HCl(l)", "l", "1/2"),
        ("0.5HCl", "", "1/2"),
        ("HCl₍ₐq₎", "aq", "1"),
    ],
)
def test_states_and_numbers_are_read(text: str, state: str, count: str) -> None:
    assert meant(text) == [("HCl", 0, state, count)]


def test_a_capital_s_in_brackets_may_be_sulfur() -> None:
    assert meant("Ag2(S)") == [("Ag2", 0, "s", "1"), ("Ag2(S)", 0, "", "1")]


_NO_FORMULA = "co2 nacl MG CO² CO^2 e+ 2 0H2O 1/0H2 + ^2+ ( Na+Cl"


@pytest.mark.parametrize(
    "text",
    [*_NO_FORMULA.split(), "", "Na^2", "Na^2+2", "H" * 101, "water", "9999H2O", "92/\n8410"],
)
def test_it_is_no_formula(text: str) -> None:
    assert readings(text) == ()


@bounded
@given(st.one_of(st.text(max_size=40), st.text("CuSO4H2(+-^)[]. ₂²⁺⁻e_{}aqsl/", max_size=25)))
def test_no_text_makes_it_raise(text: str) -> None:
    assert isinstance(parse_formula(text), Formula | Fault)
    for species in readings(text):
        assert abs(species.charge) <= 9
        assert species.count > 0
        assert species.written == "e" or atoms(species.written) == dict(species.atoms)


def test_the_key_is_the_same_for_the_same_atoms_and_charge() -> None:
    one, other = readings("OH-")[0], readings("HO^-")[0]
    assert one.key == other.key
    assert one.written != other.written
    assert readings("Cu^2+")[0].key != readings("Cu^+")[0].key
