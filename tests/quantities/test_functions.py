"""The functions of the language, each against a value worked by hand."""

from __future__ import annotations

from decimal import Decimal, localcontext
from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drill.quantities import FUNCTIONS, Fault, Quantity, Value, evaluate
from tests.quantities.helpers import bounded, q, read, shown, work

TITRES = tuple(q(f"{x} cm3") for x in ("26.10", "25.05", "24.95", "25.40"))


@pytest.mark.parametrize(
    ("text", "result"),
    [
        ("round(2.675, 2)", "2.68"),
        ("round(12.4, 2)", "12.40"),
        ("round(mass, 1)", "6.3 g"),
        ("round(mass in kg, 3)", "0.006 kg"),
        ("sig(0.02504, 3)", "0.0250"),
        ("sig(mass, 1)", "6 g"),
        ("floor(2.9)", "2"),
        ("floor(-2.1)", "-3"),
        ("ceil(mass)", "7 g"),
        ("abs(-mass)", "6.25 g"),
        ("min(3, 1, 2)", "1"),
        ("max(titres)", "26.1 cm3"),
        ("max(mass, 7)", "7 g"),
        ("sum(titres)", "101.5 cm3"),
        ("mean(titres)", "25.375 cm3"),
        ("median(titres)", "25.225 cm3"),
        ("median([3, 1, 2])", "2"),
        ("range(titres)", "1.15 cm3"),
        ("half_range(titres)", "0.575 cm3"),
        ("count(titres)", "4"),
        ('count(["x", "y"])', "2"),
        ("first(titres)", "26.1 cm3"),
        ("last(titres)", "25.4 cm3"),
        ('last(["x", "y"])', "y"),
        ("mean(drop(titres, 26.10))", "25.13 cm3"),
        ("mean(without(titres, first(titres)))", "25.13 cm3"),
        ("mean(drop_anomaly(titres))", "25.13 cm3"),
        ("mean(concordant(titres, 0.10))", "25 cm3"),
        ("count(concordant(titres, 0.50))", "3"),
        ("count(concordant(titres, 0))", "1"),
        ("sqrt(2.25)", "1.5"),
        ("sqrt(mass * mass)", "6.25 g"),
        ("log10(0.001)", "-3"),
        ("gradient(0, 1, 4, 9)", "2"),
        ("gradient(1 in s, mass, 3 in s, 2 * mass)", "3.125 g/s"),
        ("percent_of(mass, 2 * mass)", "50 %"),
        ("percent_change(mass, 1.1 * mass)", "10 %"),
        ("percent_change(8, 6)", "-25 %"),
        ("percent_error(9, 10)", "10 %"),
    ],
)
def test_it_gives(text: str, result: str) -> None:
    assert shown(text, mass="6.25 g", titres=TITRES) == result


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("percent_of(mass, mass in kg)", "cannot compare g and kg: one of them must be converted"),
        ("percent_of(1, 0)", "cannot divide by zero"),
        ("gradient(1, 2, 1, 3)", "the two points of a gradient have the same x"),
        ("drop(titres, 3)", "the value to leave out is not in the list"),
        ("drop_anomaly([1, 2])", "an anomaly can only be told among three values or more"),
        (
            "drop_anomaly([1, 2, 3])",
            "two values lie equally far from the median: neither is the anomaly",
        ),
        ("concordant(titres, -1)", "a spread is not below zero"),
        (
            "mean([mass, mass in kg])",
            "cannot put in one list g and kg: one of them must be converted",
        ),
        ("sig(mass, 0)", "sig wants a whole number from 1 to 20 behind the comma"),
        ("log10(0)", "log10 wants a number above zero"),
        ("first(mass)", "a list is wanted here, not a number in g"),
        ('sum(["x"])', "a number is wanted here, not the text 'x'"),
    ],
)
def test_it_refuses(text: str, message: str) -> None:
    found = work(text, mass="6.25 g", titres=TITRES)
    assert isinstance(found, Fault)
    assert found.message == message


READINGS = st.lists(
    st.integers(2400, 2600).map(lambda n: Quantity(Fraction(n, 100))), min_size=1, max_size=7
)


def spread(values: tuple[Quantity, ...]) -> Fraction:
    sizes = [value.value for value in values]
    return max(sizes) - min(sizes)


@bounded
@given(READINGS, st.integers(0, 40).map(lambda n: Fraction(n, 100)))
def test_no_larger_or_closer_set_is_concordant(values: list[Quantity], within: Fraction) -> None:
    found = work("concordant(values, within)", values=tuple(values), within=Quantity(within))
    assert isinstance(found, tuple)
    assert found
    assert spread(found) <= within  # type: ignore[arg-type]
    every = [
        some
        for size in range(1, len(values) + 1)
        for some in combinations(values, size)
        if spread(some) <= within
    ]
    largest = max(len(some) for some in every)
    assert len(found) == largest
    assert spread(found) == min(spread(s) for s in every if len(s) == largest)  # type: ignore[arg-type]


@bounded
@given(st.fractions(Fraction(1, 10**6), 10**6))
def test_roots_and_logarithms_are_right_to_forty_digits(value: Fraction) -> None:
    root, power = work("sqrt(x)", x=Quantity(value)), work("log10(x)", x=Quantity(value))
    assert isinstance(root, Quantity)
    assert isinstance(power, Quantity)
    assert abs(root.value**2 / value - 1) < Fraction(1, 10**38)
    with localcontext(prec=60):
        exact = (Decimal(value.numerator) / Decimal(value.denominator)).log10()
    assert abs(power.value - Fraction(exact)) < Fraction(1, 10**37)


@bounded
@given(st.fractions(0, 10**6))
def test_the_root_of_a_square_is_exact(value: Fraction) -> None:
    assert work("sqrt(x * x)", x=Quantity(value)) == Quantity(value)


ANYTHING: st.SearchStrategy[Value] = st.one_of(
    st.fractions(max_denominator=50).map(Quantity),
    st.sampled_from([q("3 g"), q("2 kg"), q("-1 °C"), "yes", "", True, TITRES, ("x", "y"), ()]),
)


@bounded
@given(st.sampled_from(sorted(set(FUNCTIONS) - {"if"})), st.data())
def test_no_value_makes_a_function_raise(name: str, data: st.DataObject) -> None:
    function = FUNCTIONS[name]
    count = data.draw(st.integers(function.fewest, min(function.most, 4)))
    values = [data.draw(ANYTHING) for _ in range(count)]
    names = [f"v{i}" for i in range(count)]
    text = f"{name}({', '.join(names)})"
    found = evaluate(read(text), dict(zip(names, values, strict=True)))
    assert isinstance(found, Quantity | Fault | tuple | str)


def test_every_function_says_how_it_is_written_and_what_it_gives() -> None:
    assert all(f.form.startswith(f"{name}(") and f.says for name, f in FUNCTIONS.items())
