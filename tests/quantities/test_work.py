"""Steps of working: each held to its unit, with words that tell how to put it right."""

from __future__ import annotations

from fractions import Fraction

import pytest

from drill.quantities import FactsRow, Fault, Quantity, Step, Value, run_steps, show, to_plain
from tests.quantities.helpers import q, read, unit

GIVENS: dict[str, Value] = {
    "conc": q("0.5 mol/dm3"),
    "volume": q("25 cm3"),
    "share": q("0.6601"),
    "route": FactsRow("salts", "CuO_H2SO4", {"M": q("249.7 g/mol"), "name": "copper(II) sulfate"}),
}


def step(name: str, text: str, unit: str = "", **how: int) -> Step:
    return Step(name, read(text), unit, **how)  # type: ignore[arg-type]


WORK = (
    step("theory", "conc * (volume in dm3) * route.M", "g"),
    step("crystals", "round(theory * share, 2)", "g"),
    step("percent", "100 * crystals / theory", "%", figures=3),
)


def ran(steps: tuple[Step, ...], fixed: dict[str, Value] | None = None) -> dict[str, Value]:
    found = run_steps(steps, GIVENS, fixed or {})
    assert isinstance(found, dict), found
    return found


def fault_of(*steps: Step) -> tuple[str, Fault]:
    found = run_steps(steps, GIVENS)
    assert isinstance(found, tuple)
    return found


def test_steps_are_worked_in_order_with_their_units() -> None:
    values = ran(WORK)
    assert values["theory"] == q("3.12125 g")
    assert values["crystals"] == Quantity(Fraction("2.06"), unit("g"), 2)
    assert [show(values[n]) for n in ("theory", "crystals", "percent")] == [  # type: ignore[arg-type]
        "3.12125 g",
        "2.06 g",
        "66.0 %",
    ]
    assert values["conc"] == GIVENS["conc"]


def test_decimals_are_for_showing_and_round_nothing() -> None:
    value = ran((step("n", "conc * (volume in dm3)", "mol", decimals=2),))["n"]
    assert value == Quantity(Fraction("0.0125"), unit("mol"), 2)


def test_a_fixed_value_stands_instead_and_is_used_further_on() -> None:
    values = ran(WORK, {"crystals": q("3.12125 g")})
    assert values["percent"] == Quantity(Fraction(100), unit("%"), figures=3)
    assert ran(WORK, {"crystals": q("0.00312125 kg")})["percent"] == values["percent"]


def test_a_composed_unit_that_is_the_same_takes_the_claimed_name() -> None:
    assert ran((step("q", "(4 in J/(g °C)) * (2 in g) * (3 in °C)", "J"),))["q"] == q("24 J")


def test_a_step_without_a_unit_keeps_what_comes_out() -> None:
    assert ran((step("m", "conc * route.M"),))["m"] == q("124.85 g/dm3")


@pytest.mark.parametrize(
    ("text", "claimed", "message", "hint"),
    [
        (
            "conc * volume",
            "mol",
            "x comes out in mol cm3/dm3, and its unit is mol: each is 1000 times smaller",
            "Write (volume in dm3).",
        ),
        (
            "conc * volume",
            "g",
            "x comes out in mol cm3/dm3, and its unit is g",
            "Check the working: conc * volume",
        ),
        (
            "volume / (1 in dm3)",
            "",
            "x comes out in cm3/dm3, and its unit is a plain number: each is 1000 times smaller",
            "Write (volume in dm3).",
        ),
        (
            "(1 in g) + (2 in g)",
            "kg",
            "x comes out in g, and its unit is kg: each is 1000 times smaller",
            "Write ((1 in g) + (2 in g)) in kg.",
        ),
        (
            "route.name",
            "g",
            "only a number has a unit, and this is the text 'copper(II) sulfate'",
            "",
        ),
        ("1 + 1", "grms", "'grms' is not a unit we know", "Did you mean 'grams'?"),
        ("vol * 2", "cm3", "no value is called 'vol'", "Did you mean 'volume'?"),
    ],
)
def test_a_step_that_is_not_what_it_claims_is_a_fault(
    text: str, claimed: str, message: str, hint: str
) -> None:
    name, fault = fault_of(step("x", text, claimed))
    assert name == "x"
    assert (fault.message, fault.hint) == (message, hint)


def test_lists_are_held_to_the_unit_item_by_item() -> None:
    values = ran((step("all", "[volume, 2 * volume]", "cm3", decimals=1),))
    assert [show(item) for item in values["all"]] == ["25.0 cm3", "50.0 cm3"]  # type: ignore[union-attr, arg-type]
    assert fault_of(step("all", "[volume]", "dm3"))[1].message.startswith("all comes out in cm3")


def test_plain_values_are_the_numbers_alone() -> None:
    assert to_plain(q("25.5 cm3")) == q("25.5")
    assert to_plain((q("1 g"), q("2 g"))) == (q("1"), q("2"))
    assert to_plain(("x", "y")) == ("x", "y")
    assert to_plain("yes") == "yes"
    row = to_plain(GIVENS["route"])
    assert isinstance(row, FactsRow)
    assert row.cells == {"M": q("249.7"), "name": "copper(II) sulfate"}


@pytest.mark.parametrize(
    ("text", "unit", "hint"),
    [
        ("(1.98 in g) / 18", "mol", "Write (18 in g/mol) for a mass per amount."),
        ("(0.11 in mol) * 249.7", "g", "Write (249.7 in g/mol) for a mass per amount."),
        ("(1.98 in g) / 18", "cm3", "Check the working: (1.98 in g) / 18"),
    ],
)
def test_a_bare_formula_mass_is_told_its_unit(text: str, unit: str, hint: str) -> None:
    assert fault_of(step("moles", text, unit))[1].hint == hint
