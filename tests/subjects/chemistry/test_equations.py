"""Equations as typed: sides, species, all readings, and what does not balance."""

from __future__ import annotations

import time
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drill.subjects.chemistry.sides import Side, TypedEquation, equations, is_balanced, totals
from tests.quantities.helpers import bounded


def off(equation: TypedEquation) -> dict[str, tuple[Fraction, Fraction]]:
    """What does not balance: symbol of an element or "charge" -> its totals (left, right)."""
    left, right = totals(equation.left), totals(equation.right)
    pairs = {name: (left.get(name, 0), right.get(name, 0)) for name in {*left, *right}}
    return {
        name: (Fraction(one), Fraction(two)) for name, (one, two) in pairs.items() if one != two
    }


def best(text: str) -> TypedEquation:
    """The reading that is nearest to balance."""
    return min(equations(text), key=lambda equation: len(off(equation)))


def written(side: Side) -> list[str]:
    return [f"{s.count}{s.written}{s.charge or ''}{s.state and f'({s.state})'}" for s in side]


def sides(text: str) -> tuple[list[str], list[str]]:
    return written(best(text).left), written(best(text).right)


@pytest.mark.parametrize(
    "arrow", ["->", " --> ", "→", " = ", "⇌", " <-> ", "⟶", " => ", " <=> ", "—>", " goes to "]
)
def test_arrows_of_every_kind(arrow: str) -> None:
    assert sides(f"MgO + 2HCl{arrow}MgCl2 + H2O") == (["1MgO", "2HCl"], ["1MgCl2", "1H2O"])


@pytest.mark.parametrize(
    ("text", "left", "right"),
    [
        ("Mg+2HCl->MgCl2+H2", ["1Mg", "2HCl"], ["1MgCl2", "1H2"]),
        ("Cu2+ + Zn -> Cu + Zn2+", ["1Cu2", "1Zn"], ["1Cu", "1Zn2"]),
        ("Cu2++2e-→Cu", ["1Cu2", "2e-1"], ["1Cu"]),
        ("2Cl--> Cl2 + 2e-", ["2Cl-1"], ["1Cl2", "2e-1"]),
        ("2Cl- -> Cl2 + 2e-", ["2Cl-1"], ["1Cl2", "2e-1"]),
        ("Ag+(aq)+Cl-(aq)->AgCl(s)", ["1Ag1(aq)", "1Cl-1(aq)"], ["1AgCl(s)"]),
        ("Na+ +Cl- = NaCl", ["1Na1", "1Cl-1"], ["1NaCl"]),
        ("H+ + OH- -> H2O", ["1H1", "1OH-1"], ["1H2O"]),
        ("HCl+ NaOH -> NaCl +H2O", ["1HCl", "1NaOH"], ["1NaCl", "1H2O"]),
        ("Fe3+ + 3OH- -> Fe(OH)3", ["1Fe3", "3OH-1"], ["1Fe(OH)3"]),
        ("Ba^2+ + SO4^2- -> BaSO4", ["1Ba2", "1SO4-2"], ["1BaSO4"]),
        ("Ba²⁺ + SO₄²⁻ → BaSO₄", ["1Ba2", "1SO4-2"], ["1BaSO4"]),
        ("H2 + 1/2 O2 -> H2O", ["1H2", "1/2O2"], ["1H2O"]),
        ("Zn + 2H+ (aq) -> Zn2+ (aq) + H2 (g)", ["1Zn", "2H1(aq)"], ["1Zn2(aq)", "1H2(g)"]),
    ],
)
def test_a_balanced_equation_is_read_and_balances(
    text: str, left: list[str], right: list[str]
) -> None:
    assert sides(text) == (left, right)
    assert is_balanced(best(text))


@pytest.mark.parametrize(
    ("text", "apart"),
    [
        ("MgO + HCl -> MgCl2 + H2O", {"Cl": ("1", "2"), "H": ("1", "2")}),
        ("H2 + O2 -> H2O", {"O": ("2", "1")}),
        ("Cu^2+ + e- -> Cu", {"charge": ("1", "0")}),
        ("Mg -> Zn", {"Mg": ("1", "0"), "Zn": ("0", "1")}),
        ("Ag+ + Cu -> Ag + Cu^2+", {"charge": ("1", "2")}),
    ],
)
def test_what_is_off_has_other_totals(text: str, apart: dict[str, tuple[str, str]]) -> None:
    found = {name: (str(a), str(b)) for name, (a, b) in off(best(text)).items()}
    assert found == apart
    assert not is_balanced(best(text))


def test_all_readings_are_kept() -> None:
    found = equations("Cu2+ + Zn -> Cu + Zn2+")
    assert [len(off(one)) for one in found].count(0) == 1
    assert len(found) > 1


@pytest.mark.parametrize(
    "text", ["", "Mg + O2", "Mg ->", "Mg -> MgO -> Mg", "Mg + -> MgO", "Mg + magic -> MgO"]
)
def test_what_is_no_equation_has_no_reading(text: str) -> None:
    assert equations(text) == []


def test_capitals_of_the_key_are_put_right_and_told() -> None:
    assert equations("mg + O2 -> MgO") == []
    assert ("mg", "Mg") in equations("mg + O2 -> MgO", known=("Mg",))[0].recased


@pytest.mark.parametrize(
    "text",
    [
        "+" * 290 + "->",
        "H+" * 120 + "->H",
        "H2+" * 24 + "H->H2",
        "(" * 200 + "->H",
        "-" * 299 + ">",
    ],
)
def test_hostile_text_is_done_with_at_once(text: str) -> None:
    begun = time.process_time()
    equations(text)
    assert time.process_time() - begun < 0.5


@bounded
@given(st.one_of(st.text(max_size=40), st.text("CuO2H+-> =()aqse^4", max_size=40)))
def test_no_text_makes_it_raise(text: str) -> None:
    assert all(one.left and one.right for one in equations(text))
