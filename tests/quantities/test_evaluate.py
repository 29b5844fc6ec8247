"""Working out: units carried, bare numbers in comparisons, every refusal in words."""

from __future__ import annotations

import time
from fractions import Fraction

import pytest

from drill.quantities import FactsRow, Fault, Quantity, evaluate
from tests.quantities.helpers import fault, q, read, shown, unit, work

ROUTE = FactsRow(
    "salts",
    "CuO_H2SO4",
    {"acid": "sulfuric acid", "fizzes": "no", "M_crystals": q("249.7 g/mol"), "ratio": q("1")},
)


@pytest.mark.parametrize(
    ("text", "result"),
    [
        ("volume", "25 cm3"),
        ("volume in dm3", "0.025 dm3"),
        ("conc * (volume in dm3)", "0.0125 mol"),
        ("conc * (volume in dm3) * route.M_crystals", "3.12125 g"),
        ("(conc * (volume in dm3) in mol) in mmol", "12.5 mmol"),
        ("3 * volume", "75 cm3"),
        ("volume / 2", "12.5 cm3"),
        ("volume + (0.001 in dm3) * 5", "cannot add cm3 and dm3: one of them must be converted"),
        ("volume / volume", "1"),
        ("volume / (volume in dm3)", "1000 cm3/dm3"),
        ("100 - percent", "34 %"),
        ("percent / 100 * mass", "4.092 g"),
        ("mass ^ 2", "38.44 g2"),
        ("sqrt(mass ^ 2)", "6.2 g"),
        ("mass ^ -1 * mass", "1"),
        ("4.2 in J/(g °C)", "4.2 J/(g °C)"),
        ("(4.2 in J/(g °C)) * mass * (t2 - t1) in J", "130.2 J"),
        ("-mass in kg", "-0.0062 kg"),
        ('if(route.fizzes == "yes", 1, 2)', "2"),
        ("if(mass > 5, mass, 1 / 0)", "6.2 g"),
        ("titres.2 - titres.1", "0.1 cm3"),
        ("[mass, mass] in mg", "(6200 mg, 6200 mg)"),
    ],
)
def test_it_comes_to(text: str, result: str) -> None:
    found = work(text, **VALUES)
    if isinstance(found, tuple):
        assert result == "(" + ", ".join(shown("x", x=item) for item in found) + ")"
    else:
        assert shown(text, **VALUES) == result


VALUES = {
    "volume": q("25 cm3"),
    "conc": q("0.5 mol/dm3"),
    "mass": q("6.2 g"),
    "percent": q("66 %"),
    "t1": q("21.5 °C"),
    "t2": q("26.5 °C"),
    "route": ROUTE,
    "titres": (q("24.95 cm3"), q("25.05 cm3")),
    "sure": True,
}


@pytest.mark.parametrize(
    ("text", "truth"),
    [
        ("35 < percent < 85", True),
        ("mass < 5", False),
        ("0 < mass", True),
        ("volume < (1 in dm3)", True),
        ("volume == (0.025 in dm3)", True),
        ("mass != 6.2", False),
        ('route.acid == "sulfuric acid"', True),
        ('route.acid != "nitric acid" and not route.fizzes == "yes"', True),
        ('route.acid in ["nitric acid", "sulfuric acid"]', True),
        ("mass in [1, 6.2]", True),
        ("mass in [1, 2]", False),
        ("mass > 5 or 1 / 0 > 1", True),
        ("mass < 5 and 1 / 0 > 1", False),
        ("sure == (mass > 5)", True),
        ("max(mass, 10) == 10", True),
        ("count(titres) == 2 and range(titres) <= 0.1", True),
        ("-6 < t1 - t2 < 0", True),
    ],
)
def test_it_is_true_or_false(text: str, truth: bool) -> None:
    assert work(text, **VALUES) is truth


@pytest.mark.parametrize(
    ("text", "message", "column", "hint"),
    [
        ("mas + 1", "no value is called 'mas'", 1, "Did you mean 'mass'?"),
        ("route.asid", "the table 'salts' has no column 'asid'", 1, "Did you mean 'acid'?"),
        ("titres.3", "'titres' is a list of 2, it has no '3'", 1, ""),
        ("titres.first", "'titres' is a list of 2, it has no 'first'", 1, ""),
        ("mass.x", "'mass' is no row of a table, it has no 'x'", 1, ""),
        ("mass + volume", "cannot add g and cm3: they measure other things", 6, ""),
        (
            "mass - (1 in kg)",
            "cannot subtract g and kg: one of them must be converted",
            6,
            "Write (1 in kg in g).",
        ),
        ("mass + 1", "cannot add g and a plain number: they measure other things", 6, ""),
        ("mass in cm3", "g cannot be turned into cm3: they measure other things", 6, ""),
        (
            "percent in g",
            "% cannot be turned into g: they measure other things",
            9,
            "Multiply by (1 in g) to give a bare number a unit.",
        ),
        ("mass < volume", "cannot compare g with cm3", 6, ""),
        ("1 / (mass - mass)", "cannot divide by zero", 3, ""),
        ("2 ^ mass", "an exponent is a plain number, not one in g", 3, ""),
        (
            "2 ^ 65",
            "an exponent is a whole number from -64 to 64, or 1/2",
            3,
            "Use sqrt for a square root.",
        ),
        ("mass ^ 0.5", "g has no square root among units", 6, ""),
        ("sqrt(-1)", "a negative number has no square root", 1, "The form is sqrt(x)."),
        (
            "log10(conc)",
            "log10 wants a plain number, not one in mol/dm3",
            1,
            "Divide by the unit first: log10(x / (1 in mol/dm3)).",
        ),
        (
            "mass and sure",
            "something true or false is wanted here, not a number in g",
            1,
            "Write a comparison.",
        ),
        ("-route.acid", "a number is wanted here, not the text 'sulfuric acid'", 2, ""),
        ("route.acid < 3", "only numbers are below or above, not the text 'sulfuric acid'", 12, ""),
        ("route.acid == 3", "cannot compare the text 'sulfuric acid' with a plain number", 12, ""),
        ("route == route", "cannot compare a row of salts with a row of salts", 7, ""),
        ("mean(mass)", "a list is wanted here, not a number in g", 1, "Write [a, b, c]."),
        ('[mass, "x"]', "a list holds numbers only, or text only", 1, ""),
        (
            "round(mass, 0.5)",
            "round wants a whole number from 0 to 20 behind the comma",
            1,
            "The form is round(x, places).",
        ),
        ("route.acid in g", "only a number has a unit, not the text 'sulfuric acid'", 12, ""),
        ("t1 in K", "°C is not turned into K: their zeros differ", 4, "Keep to one of them."),
    ],
)
def test_it_is_refused_in_words(text: str, message: str, column: int, hint: str) -> None:
    assert fault(text, **VALUES) == Fault(message, column, hint)


def test_a_dotted_name_may_stand_in_the_values_as_it_is() -> None:
    assert evaluate(read("route.M_crystals"), {"route.M_crystals": q("3")}) == q("3")


def test_sums_keep_the_places_both_sides_have() -> None:
    a, b = Quantity(Fraction("1.5"), unit("g"), 2), Quantity(Fraction("2"), unit("g"), 1)
    assert shown("a + b", a=a, b=b) == "3.50 g"
    assert shown("a + b", a=a, b=q("2 g")) == "3.5 g"


def test_a_bare_number_is_one_that_is_written_out() -> None:
    assert work("mass < limit", mass="6.2 g", limit="7") == Fault(
        "cannot compare g with a plain number",
        6,
        "Multiply by (1 in g) to give a bare number a unit.",
    )
    assert work("mass < 2 * 3.5", mass="6.2 g") is True


@pytest.mark.parametrize(
    "text",
    [
        "9^64^2",
        "(9^64)^64",
        "9" * 60 + "^64",
        "*".join(["(9^64)"] * 40),
        "1 / 3^64 + 1 / 7^64 + " + " + ".join(f"1 / {n}^64" for n in range(11, 41, 2)),
        "log10(1e64^64)",
        "mass^64*mass^64",
    ],
)
def test_what_grows_too_large_is_a_fault_at_once(text: str) -> None:
    begun = time.process_time()
    assert isinstance(work(text, mass="6.2 g"), Fault | Quantity)
    assert time.process_time() - begun < 0.5


def test_the_bounds_of_values_and_units_are_named() -> None:
    digits = Fault("an exact value has at most 2000 digits", 7, "Use round or sig.")
    assert fault("(9^64)^64") == digits
    assert fault("1 / (9^64)^64").message == digits.message
    assert fault("*".join(["(9^64)"] * 40)).message == digits.message
    assert (
        fault("mass^64 * mass^64", mass="2 g").message == "the unit has grown beyond the power 99"
    )
