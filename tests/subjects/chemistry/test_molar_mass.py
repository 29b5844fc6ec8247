"""The function M("…"): what it comes to, how it is written out, what it says when it cannot."""

from __future__ import annotations

from fractions import Fraction

import pytest

from drill.generate.text.rendering import Writer
from drill.quantities import Expression, FactsRow, Fault, Quantity, Value, evaluate, parse, text_of
from drill.quantities.expressions.nodes import Call, TextNode
from drill.subjects import subject

MASSES = FactsRow(
    "masses",
    "M",
    {
        symbol: Quantity(Fraction(mass), decimals=1 if "." in mass else 0)
        for symbol, mass in {"Cu": "63.5", "S": "32", "O": "16", "H": "1"}.items()
    },
)
VALUES = {"M": MASSES, "mass": Quantity(Fraction("6.2"))}


def read(text: str) -> Expression:
    found = parse(text, subject("chemistry").functions)
    assert isinstance(found, Expression), found
    return found


def worked(text: str, values: dict[str, Value] = VALUES) -> Value | Fault:
    return evaluate(read(text), values)


def test_it_is_read_as_a_call_and_written_back() -> None:
    expression = read('M("CuSO4.5H2O")')
    assert expression.node == Call("M", (TextNode("CuSO4.5H2O"),))
    assert text_of(expression.node) == 'M("CuSO4.5H2O")'
    assert expression.names == frozenset()


def test_it_comes_to_the_sum_of_its_atoms() -> None:
    assert worked('2 * M("CuSO4.5H2O")') == Quantity(Fraction(499))


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("M(mass)", "M wants a formula in quotes, not a plain number"),
        ('M("CuXO4")', "'CuXO4': 'X' is not the symbol of an element"),
        ('M("NaCl")', "no mass is given for Cl, Na in NaCl"),
    ],
)
def test_what_has_no_mass_is_told(text: str, message: str) -> None:
    assert worked(text) == Fault(message, 1)


def test_it_needs_its_table() -> None:
    found = worked('M("NaCl")', {})
    assert isinstance(found, Fault)
    assert found.message == "there is no table of masses called M here"


def test_masses_in_two_units_are_not_added() -> None:
    from drill.quantities import unit_of

    gram = unit_of("g")
    assert gram is not None
    mixed = FactsRow("m", "M", {"H": Quantity(Fraction(1), gram), "O": Quantity(Fraction(16))})
    found = worked('M("H2O")', {"M": mixed})
    assert isinstance(found, Fault)
    assert "different units" in found.message


@pytest.mark.parametrize(
    ("formula", "expected"),
    [('M("H2O")', "2 × 1 + 16"), ('5 * M("H2O")', "5 × (2 × 1 + 16)")],
)
def test_on_paper_it_is_a_sum(formula: str, expected: str) -> None:
    assert Writer(VALUES).write(read(formula).node) == expected


def test_without_chemistry_there_is_no_such_function() -> None:
    assert parse('M("H2O")') == Fault("there is no function 'M'", 1, "")
