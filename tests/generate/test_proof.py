"""sympy agrees with our arithmetic, and would say so if it did not."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass, replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drill.bank import Bank
from drill.generate import prove, prove_readings
from drill.generate.proof.proving import formulas
from drill.generate.proof.second_reading import read_again
from drill.model import NumberKey, Question, Template
from drill.places import bank_dir
from drill.quantities import Expression, FactsRow, Quantity, parse
from tests.generate.making import NAMES, question, template, written


@pytest.mark.parametrize("name", NAMES)
def test_good_templates_are_proved(name):
    of = template(name)
    assert prove_readings(of) == []
    for seed in range(3):
        assert prove(of, question(of, seed)) == []


EVERY_FUNCTION = """
[draw]
a = { from = 2, to = 9, step = 1 }
b = { from = 11, to = 19, step = 1, unit = "cm3" }
t = { readings = 5, centre = 24.0, spread = 0.2, step = 0.05, unit = "cm3", anomaly = true }
[work]
r = { is = "round(a / 7, 2) + sig(a / 3, 2) + floor(a / 2) + ceil(a / 2)" }
s = { is = "sqrt(a) * log10(a) + abs(3 - a) ^ 2" }
good = { is = "drop_anomaly(t)", unit = "cm3" }
m = { is = "mean(good) + half_range(good) + range(t) + median(t)", unit = "cm3" }
n = { is = "max(good) - min(t) + sum(concordant(t, 0.1))", unit = "cm3" }
g = { is = "gradient(a, b, a + 5, 2 * b)", unit = "cm3" }
p = { is = "percent_of(b, m) + percent_change(b, m) + percent_error(b, m)", unit = "%" }
i = { is = "if(a > 5, b, 2 * b) in dm3", unit = "dm3" }
w = { is = 'M("CuSO4.5H2O") * a', unit = "g/mol" }
l = { is = "mean(t in dm3) + mean(drop(t, first(t)) in dm3)", unit = "dm3" }
c = { is = "count(t) * -a + first(t) / last(t)" }
[[part]]
kind = "number"
ask = "{a} {b} {t}"
answer = "p"
"""


def test_every_function_is_proved():
    of = written(EVERY_FUNCTION)
    for seed in range(12):
        assert prove(of, question(of, seed)) == []


def messages(of, made: Question) -> list[str]:
    return [f"{problem.line}: {problem.message} {problem.hint}" for problem in prove(of, made)]


SLIPS = """
[draw]
whole = { from = 40, to = 60, step = 1, unit = "g" }
part = { from = 5, to = 20, step = 1, unit = "g" }
[work]
rest = { is = "whole - part", unit = "g", decimals = 0 }
share = { is = "100 * part / whole", unit = "%" }
[[part]]
kind = "number"
ask = "{whole} {rest}"
answer = "share"
figures = 3
"""


def with_slip(gives: str) -> str:
    return f'{SLIPS}[[part.slip]]\nid = "s"\ngives = "{gives}"\nsays = "x"\n'


def unnoticed(gives: str) -> Question:
    """The question with that slip put past the check that redraws, as rounding could."""
    of = written(with_slip("100 * whole / part"))
    made = question(of, 1)
    key = made.parts[0].key
    assert isinstance(key, NumberKey)
    read = parse(gives)
    assert isinstance(read, Expression)
    slip = replace(key.slips[0], gives=read)
    return replace(made, parts=(replace(made.parts[0], key=replace(key, slips=(slip,))),))


@pytest.mark.parametrize(
    "gives", ["100 * (whole - rest) / whole", "100 - 100 * rest / whole", "100 / (whole / part)"]
)
def test_a_slip_that_is_the_answer_is_found(gives):
    of = written(with_slip("100 * whole / part"))
    assert messages(of, unnoticed(gives)) == [
        '18: the slip "s" is the right answer, written in another way. Take it out.'
    ]


def test_a_slip_with_another_value_is_found():
    of = written(with_slip("100 * whole / part"))
    (found,) = messages(of, unnoticed("whole / part"))
    assert found.endswith("to sympy it is another value. Report this fault.")


def test_a_wrong_key_is_found():
    of = written(with_slip("100 * whole / part"))
    made = question(of, 1)
    key = made.parts[0].key
    assert isinstance(key, NumberKey)
    wrong = replace(key, value=key.value + Fraction(1, 10**9))
    made = replace(made, parts=(replace(made.parts[0], key=wrong),))
    (found,) = messages(of, made)
    assert found.startswith("13: the answer is ")


def test_wrong_arithmetic_of_ours_is_found(monkeypatch):
    from drill.generate.proof import proving as proof

    of = written(with_slip("100 * whole / part"))
    made = question(of, 1)
    right = proof.run_steps

    def wrong(steps, givens):
        values = right(steps, givens)
        values["share"] = replace(values["share"], value=values["share"].value * 2)
        return values

    monkeypatch.setattr(proof, "run_steps", wrong)
    assert any('"share" came to ' in message for message in messages(of, made))


# ------------------------------------------------------------ two readings of one formula

NAMES_IN = st.sampled_from(["a", "b", "route.mass", "titre_2", "x1"])
NUMBERS = st.sampled_from(["1", "2.50", "0.1", "1e-3", "100"])
ATOMS = NAMES_IN | NUMBERS


def compound(inner: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
    return st.one_of(
        st.tuples(inner, st.sampled_from(["+", "-", "*", "/", "^"]), inner).map(" ".join),
        st.tuples(inner, st.sampled_from(["<", "<=", "==", "!="]), inner).map(
            lambda three: f"({' '.join(three)})"
        ),
        inner.map(lambda one: f"({one})"),
        inner.map(lambda one: f"-{one}"),
        inner.map(lambda one: f"round({one}, 2)"),
        inner.map(lambda one: f"({one} in dm3)"),
        st.tuples(inner, inner).map(lambda two: f"mean([{two[0]}, {two[1]}])"),
        st.tuples(inner, inner, inner).map(
            lambda three: f"if({three[0]} > 1 and not {three[1]} < 2, {three[2]}, 0)"
        ),
    )


@settings(max_examples=100, deadline=None)
@given(st.recursive(ATOMS, compound, max_leaves=12))
def test_both_grammars_read_the_same_tree(text):
    ours, theirs = parse(text), read_again(Expression(text, parse("1").node, frozenset()))
    assert isinstance(ours, Expression)
    assert theirs == ours.node


@settings(max_examples=100, deadline=None)
@given(st.text(alphabet="ab1.+-*/^() <>=in[],\"'", max_size=25))
def test_any_text_can_be_read_again_without_harm(text):
    ours, theirs = parse(text), read_again(Expression(text, parse("1").node, frozenset()))
    if isinstance(ours, Expression) and theirs is not None:
        assert theirs == ours.node


def test_two_readings_that_differ_are_a_problem(monkeypatch):
    from drill.generate.proof import proving as proof

    monkeypatch.setattr(proof, "read_again", lambda expression: parse("1 + 1").node)
    found = prove_readings(written(SLIPS))
    assert str(found[0]).endswith(': "40" can be read in two ways. Put brackets in.')


def everything(value: object) -> Iterator[Expression]:
    """Every formula anywhere inside a template."""
    if isinstance(value, Expression):
        yield value
    elif isinstance(value, Mapping):
        yield from (one for item in value.values() for one in everything(item))
    elif isinstance(value, tuple):
        yield from (one for item in value for one in everything(item))
    elif is_dataclass(value) and not isinstance(value, Quantity | FactsRow):
        yield from (
            one for field in fields(value) for one in everything(getattr(value, field.name))
        )


def test_no_formula_of_the_shipped_bank_is_passed_over():
    shelf = Bank.open(bank_dir())
    for entry in shelf.entries():
        of = shelf.template(entry.id)
        assert isinstance(of, Template)
        assert {one.text for one in everything(of)} == {one.text for one, _ in formulas(of)}, of.id
        assert [str(problem) for problem in prove_readings(of)] == []
