"""Formulas read by Python's grammar: what belongs together, and what is no formula."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drill.judge.amounts import Amount
from drill.judge.cannot import Cannot
from drill.judge.grammar import read
from drill.judge.units import unit_of
from drill.judge.working import worked
from drill.quantities import Expression, Fault, Quantity, evaluate, parse
from drill.quantities import unit_of as engine_unit
from tests.judge.helpers import shown


@pytest.mark.parametrize(
    ("text", "comes_to"),
    [
        ("2 + 3 * 4", "14"),
        ("2 - 3 - 4", "-5"),
        ("24 / 4 / 2", "3"),
        ("-2 ^ 2", "-4"),
        ("2 ^ 3 ^ 2", "512"),
        ("2 ^ -1", "0.5"),
        ("(2 + 3) * 4", "20"),
        ("not 1 == 2 and 3 < 2", "False"),
        ("1 == 2 and 1 == 2 or 1 == 1", "True"),
        ("1 < 2 < 3 < 3", "False"),
        ("1 in [2, 1]", "True"),
        ("not 1 in [2, 3]", "True"),
        ("1 + 1 in g", "2 g"),
        ("5 > 1 in g", "True"),
        ("(1500 in g) in kg > 1.4 in kg", "True"),
        ("1 in g/mol", "1 g/mol"),
        ("4.2 in J/(g °C)", "4.2 J/(g °C)"),
        ('1 in "mol dm-3"', "1 mol/dm3"),
        ("if(1 < 2, 3, 1 / 0)", "3"),
        ("1 == 1 or 1 / 0 > 2", "True"),
        ("1.20", "1.2"),
        (".5e1", "5"),
        ("007", "7"),
    ],
)
def test_what_belongs_together(text, comes_to):
    assert shown(text) == comes_to


def test_words_of_python_are_names_like_any_other():
    assert shown("lambda + class", **{"lambda": "1 g", "class": "2 g"}) == "3 g"


@pytest.mark.parametrize(
    "text",
    ["1 +", "a b", "(1", "1 ** 2", "x = 1", "__import__('os')", "[i for i in x]", "a.b.c()", "1; 2",
     "f(x=1)", "a[0]", "1 if 2 else 3", "1 in furlongs", "", "1 << 2", "@", "lambda: 1"],
)  # fmt: skip
def test_what_is_no_formula_is_refused(text):
    with pytest.raises(Cannot):
        worked(text, {"a": Amount(Fraction(1)), "x": Amount(Fraction(1))})


@settings(max_examples=150, deadline=None)
@given(st.text(alphabet='ab1.+-*/^() <>=in[],"dm3', max_size=30))
def test_any_text_is_read_or_refused(text):
    try:
        worked(text, {})
    except (Cannot, ArithmeticError):
        return


ATOMS = st.sampled_from(["a", "b", "1", "2.50", "0.1", "3", "100"])


def compound(inner: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
    return st.one_of(
        st.tuples(inner, st.sampled_from(["+", "-", "*", "/"]), inner).map(" ".join),
        st.tuples(inner, st.sampled_from(["+", "-", "*", "/"]), inner).map(" ".join),
        inner.map("{} ^ 2".format),
        inner.map("({})".format),
        inner.map("-{}".format),
        inner.map("round({}, 2)".format),
        inner.map("sig({}, 3)".format),
        st.tuples(inner, inner).map(lambda two: f"mean([{two[0]}, {two[1]}])"),
        st.tuples(inner, inner, inner).map(
            lambda three: f"if({three[0]} > 1 and not {three[1]} < 2, {three[2]}, 0)"
        ),
    )


@settings(max_examples=200, deadline=None)
@given(st.recursive(ATOMS, compound, max_leaves=12))
def test_the_program_and_the_judge_come_to_the_same(text):
    expression = parse(text)
    assert isinstance(expression, Expression)
    numbers = {"a": Fraction(3, 2), "b": Fraction(-7)}
    ours = evaluate(expression, {name: Quantity(value) for name, value in numbers.items()})
    try:
        theirs = worked(text, {name: Amount(value) for name, value in numbers.items()})
    except Cannot:
        assert isinstance(ours, Fault)
        return
    if not isinstance(ours, Fault):  # a fault of size only: the judge has other bounds
        assert isinstance(ours, Quantity)
        assert isinstance(theirs, Amount)
        assert (ours.value, ours.decimals, ours.figures) == (
            theirs.number,
            theirs.places,
            theirs.figures,
        )


def test_units_travel_as_they_do_in_the_program():
    texts = ["a * b", "a / b", "b / a", "a * a / b", "(a in dm3) * c", "c * d / (1 in kg)", "a ^ 2"]
    units = {"a": "cm3", "b": "mol/dm3", "c": "J/(g °C)", "d": "°C"}
    for text in texts:
        ours = evaluate(
            parse(text), {k: Quantity(Fraction(3), engine_unit(u)) for k, u in units.items()}
        )
        theirs = worked(text, {k: Amount(Fraction(3), unit_of(u)) for k, u in units.items()})
        assert isinstance(theirs, Amount)
        assert (ours.value, ours.unit.symbol) == (theirs.number, theirs.unit.symbol), text
        assert ours.unit.scale == theirs.unit.scale


def test_names_and_functions_of_a_formula():
    formula = read('max(a, route.b) + M("H2O") in [if, c.1]')
    assert formula.names() == {"a", "route.b", "if", "c.1"}
    assert formula.functions() == {"max", "M"}
