"""The filler: what each slot prints, and that nothing of Python's own can be reached."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drill.generate.text.fill import Shown, fill, names_in
from drill.quantities import FactsRow, Fault, Quantity, unit_of

GRAM, CM3 = unit_of("g"), unit_of("cm3")
assert GRAM
assert CM3

VALUES = {
    "mass": Quantity(Fraction("12.4"), GRAM, 2),
    "amount": Quantity(Fraction(25, 1000), unit_of("mol") or GRAM, None, 3),
    "ratio": Quantity(Fraction(2)),
    "acid": "ethanoic acid",
    "salt": "sodium chloride",
    "eight": Quantity(Fraction(8), GRAM, 1),
    "titres": (Quantity(Fraction("23.9"), CM3, 2), Quantity(Fraction(24), CM3, 2)),
    "route": FactsRow("salts", "CuO", {"base": "copper oxide", "M": Quantity(Fraction("249.5"))}),
}


def filled(text: str) -> str:
    made = fill(text, Shown(VALUES))
    assert isinstance(made, str), made
    return made


def fault(text: str) -> str:
    made = fill(text, Shown(VALUES))
    assert isinstance(made, Fault), made
    return f"{made.message}. {made.hint}".strip()


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("no slots at all", "no slots at all"),
        ("{mass}", "12.40 g"),
        ("{bare:mass} only", "12.40 only"),
        ("{amount}", "0.0250 mol"),
        ("{ratio} to one", "2 to one"),
        ("{a:acid}", "an ethanoic acid"),
        ("{a:salt}", "a sodium chloride"),
        ("{a:eight} mass", "an 8.0 g mass"),
        ("{cap:acid} burns", "Ethanoic acid burns"),
        ("{cap:a:acid}", "An ethanoic acid"),
        ("{titres}", "23.90 and 24.00 cm3"),
        ("{titres.2}", "24.00 cm3"),
        ("{bare:titres}", "23.90 and 24.00"),
        ("{route.base}, {route.M}", "copper oxide, 249.5"),
        ("{{mass}}", "{mass}"),
        ("a {{ and a }}", "a { and a }"),
        ("{ mass }", "12.40 g"),
    ],
)
def test_slots(text, expected):
    assert filled(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("{mas}", 'nothing is called "mas" here. Did you mean "mass"?'),
        ("{route}", '"route" is a row of facts: name a column. Such as route.base, route.M.'),
        ("{route.bse}", '"route" has no "bse". Did you mean "base"?'),
        ("{titres.3}", '"titres" has no "3".'),
        ("{big:mass}", '"big:" is not a way to show. Known: bare:, a:, cap:.'),
        ("{mass", "a brace without its partner. Write {{ or }} for a brace."),
        ("mass}", "a brace without its partner. Write {{ or }} for a brace."),
        ("{}", '"" is not a name. Write {name}, or {{ for a brace.'),
        ("{mass!r}", '"mass!r" is not a name. Write {name}, or {{ for a brace.'),
        ("{mass[0]}", '"mass[0]" is not a name. Write {name}, or {{ for a brace.'),
        ("{mass.value}", '"mass" has no "value".'),
        ("{acid.__class__}", '"acid" has no "__class__".'),
    ],
)
def test_faults(text, expected):
    assert fault(text) == expected


@settings(max_examples=100, deadline=None)
@given(st.text(alphabet="{}:.amsb 1", max_size=30))
def test_no_text_can_stop_it(text):
    assert isinstance(fill(text, Shown(VALUES)), str | Fault)
    assert isinstance(names_in(text), frozenset)


@settings(max_examples=50, deadline=None)
@given(st.text(max_size=40))
def test_doubled_braces_print_any_text(text):
    assert filled(text.replace("{", "{{").replace("}", "}}")) == text


def test_a_school_has_its_own_names_for_things():
    words = {"evaporating basin": "evaporating dish", "measuring cylinder": "upright"}
    shown = Shown(VALUES, words)
    assert fill("Fill an evaporating basin.", shown) == "Fill an evaporating dish."
    assert fill("A measuring cylinder holds {mass}.", shown) == "An upright holds 12.40 g."


def test_names_that_a_text_prints():
    assert names_in("{mass} of {a:route.base} {{no}}") == {"mass", "route.base"}


@pytest.mark.parametrize(("value", "printed"), [(True, "yes"), (False, "no")])
def test_what_holds_or_not_is_printed_as_yes_or_no(value: bool, printed: str) -> None:
    assert fill("{pure}", Shown({"pure": value})) == printed
