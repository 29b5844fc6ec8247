"""Any formula of every function, unit and bracket: a value or a Fault, soon, and never large."""

from __future__ import annotations

import time
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from drill.quantities import (
    FUNCTIONS,
    Expression,
    FactsRow,
    Fault,
    Quantity,
    Value,
    evaluate,
    parse,
    show,
    unit_of,
)
from drill.quantities.arithmetic import MOST_DIGITS

from .helpers import bounded

CM3, GRAM = unit_of("cm3"), unit_of("g")
assert CM3 is not None
assert GRAM is not None
ENV: dict[str, Value] = {
    "a": Quantity(Fraction(0)),
    "b": Quantity(Fraction(-7, 3), CM3),
    "huge": Quantity(Fraction(10**60)),
    "word": "copper",
    "truth": True,
    "list": (Quantity(Fraction(1, 3), GRAM), Quantity(Fraction(2), GRAM)),
    "words": ("zinc", "iron"),
    "row": FactsRow("salts", "x", {"mass": Quantity(Fraction(5), GRAM), "acid": "nitric acid"}),
}
ATOMS = st.sampled_from(
    [
        *("0", "1", "2.50", "1e-3", "64", "0.5", "1e30", '"copper"', "true"),
        *("row.mass", "row.acid", "list.1", "list.9", "words.2", "nobody", "row.nothing"),
        *ENV,
    ]
)
UNITS = st.sampled_from(["dm3", "kg", "mol/dm3", "°C", "s", "%", "J/(g °C)"])
OPERATORS = st.sampled_from([*"+-*/^", "<", "<=", "==", "!=", "and", "or", "in"])


def compound(inner: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
    calls = st.tuples(st.sampled_from(sorted(FUNCTIONS)), st.lists(inner, max_size=4))
    return st.one_of(
        st.tuples(inner, OPERATORS, inner).map(lambda three: f"({' '.join(three)})"),
        st.tuples(inner, UNITS).map(lambda two: f"({two[0]} in {two[1]})"),
        st.lists(inner, min_size=1, max_size=4).map(lambda items: f"[{', '.join(items)}]"),
        calls.map(lambda call: f"{call[0]}({', '.join(call[1])})"),
        inner.map("-{}".format),
        inner.map("not {}".format),
    )


FORMULAS = st.recursive(ATOMS, compound, max_leaves=20)


@bounded
@given(FORMULAS)
def test_a_formula_comes_to_a_value_or_a_fault(text: str) -> None:
    begun = time.process_time()
    expression = parse(text)
    found = evaluate(expression, ENV) if isinstance(expression, Expression) else expression
    assert time.process_time() - begun < 0.5
    if isinstance(found, Fault):
        assert found.message.isprintable()
        assert 0 <= found.column <= len(text) + 1
    elif isinstance(found, Quantity):
        size = max(abs(found.value.numerator), found.value.denominator)
        assert size < 10 ** (MOST_DIGITS + 10)
        assert show(found)


@bounded
@given(FORMULAS)
def test_a_formula_comes_to_the_same_twice(text: str) -> None:
    expression = parse(text)
    if isinstance(expression, Expression):
        assert evaluate(expression, ENV) == evaluate(expression, ENV)
