"""Equations as typed: sides, species, all readings, and what does not balance."""

from __future__ import annotations

import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drill.quantities import Fault
from drill.subjects.chemistry.equations import Equation, read_equation, unbalanced
from tests.quantities.helpers import bounded


def best(text: str) -> Equation:
    """The reading that is nearest to balance."""
    found = read_equation(text)
    assert isinstance(found, tuple), found
    return found[0]


def sides(text: str) -> tuple[list[str], list[str]]:
    left, right = (
        [f"{s.count}{s.written}{s.charge or ''}{s.state and f'({s.state})'}" for s in side]
        for side in (best(text).left, best(text).right)
    )
    return left, right


@pytest.mark.parametrize(
    "arrow", ["->", " --> ", "→", " = ", "⇌", " <-> ", "⟶", " => ", " <=> ", "—>"]
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
    assert unbalanced(best(text)) == {}


@pytest.mark.parametrize(
    ("text", "off"),
    [
        ("MgO + HCl -> MgCl2 + H2O", {"Cl": ("1", "2"), "H": ("1", "2")}),
        ("H2 + O2 -> H2O", {"O": ("2", "1")}),
        ("Cu^2+ + e- -> Cu", {"charge": ("1", "0")}),
        ("Mg -> Zn", {"Mg": ("1", "0"), "Zn": ("0", "1")}),
        ("Ag+ + Cu -> Ag + Cu^2+", {"charge": ("1", "2")}),
    ],
)
def test_what_is_off_is_named_with_both_totals(text: str, off: dict[str, tuple[str, str]]) -> None:
    found = {name: (str(a), str(b)) for name, (a, b) in unbalanced(best(text)).items()}
    assert found == off


def test_all_readings_are_kept_the_balanced_one_first() -> None:
    found = read_equation("Cu2+ + Zn -> Cu + Zn2+")
    assert isinstance(found, tuple)
    assert len(found) == 4
    assert [len(unbalanced(equation)) for equation in found] == [0, 2, 2, 2]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "there is no arrow in this equation"),
        ("Mg + O2", "there is no arrow in this equation"),
        ("Mg ->", "an equation has just one arrow with something on each side of it"),
        ("Mg -> MgO -> Mg", "an equation has just one arrow with something on each side of it"),
        ("mg + O2 -> MgO", "'mg' is not read as a formula"),
        ("Mg + -> MgO", "a formula is missing beside a +"),
        ("Mg + magic -> MgO", "'magic' is not read as a formula"),
        ("H2" * 200 + "->", "an equation has at most 300 characters; this has 402"),
        ("Cu2+ + " * 20 + "Zn -> Cu", "this can be read in too many ways"),
    ],
)
def test_what_cannot_be_read_is_told(text: str, message: str) -> None:
    found = read_equation(text)
    assert isinstance(found, Fault)
    assert found.message == message


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
def test_hostile_text_is_refused_at_once(text: str) -> None:
    begun = time.process_time()
    assert isinstance(read_equation(text), Fault)
    assert time.process_time() - begun < 0.5


@bounded
@given(st.one_of(st.text(max_size=40), st.text("CuO2H+-> =()aqse^4", max_size=40)))
def test_no_text_makes_it_raise(text: str) -> None:
    found = read_equation(text)
    if isinstance(found, tuple):
        assert found
        assert all(equation.left and equation.right for equation in found)
