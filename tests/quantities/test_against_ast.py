"""Our grammar and arithmetic against Python's own: `ast` reads the same text, we walk its tree.

Expressions are put together without regard to precedence, so that both parsers must decide it.
Nothing is ever handed to `eval`.
"""

from __future__ import annotations

import ast
import operator
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from drill.quantities import Expression, Fault, Quantity, evaluate, parse
from tests.quantities.helpers import bounded

ENV = {"a": Fraction(3, 2), "b": Fraction(-7), "c": Fraction(1, 4)}

_ARITHMETIC = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
}
_TESTS = {
    ast.Lt: operator.lt,
    ast.LtE: operator.le,
    ast.Gt: operator.gt,
    ast.GtE: operator.ge,
    ast.Eq: operator.eq,
    ast.NotEq: operator.ne,
}


class Undefined(Exception):
    """The expression has no value that our language can hold."""


def by_python(node: ast.expr) -> Fraction | bool:
    match node:
        case ast.Constant(value):
            return Fraction(str(value))
        case ast.Name(name):
            return ENV[name]
        case ast.UnaryOp(ast.USub(), operand):
            return -by_python(operand)
        case ast.UnaryOp(ast.Not(), operand):
            return not by_python(operand)
        case ast.BoolOp(op, values):
            quick = isinstance(op, ast.Or)
            return quick if any(by_python(value) == quick for value in values) else not quick
        case ast.BinOp(left, ast.Pow(), right):
            return power(by_python(left), by_python(right))
        case ast.BinOp(left, op, right):
            divisor = by_python(right)
            if isinstance(op, ast.Div) and not divisor:
                raise Undefined
            return sized(_ARITHMETIC[type(op)](by_python(left), divisor))
        case ast.Compare(left, ops, comparators):
            chain = [by_python(left), *map(by_python, comparators)]
            pairs = zip(chain, chain[1:], ops, strict=False)
            return all(_TESTS[type(op)](x, y) for x, y, op in pairs)
    raise AssertionError(ast.dump(node))


def power(base: Fraction | bool, exponent: Fraction | bool) -> Fraction:
    if exponent == Fraction(1, 2) or Fraction(exponent).denominator != 1 or abs(exponent) > 64:
        raise Undefined
    if not base and exponent < 0:
        raise Undefined
    size = max(Fraction(base).numerator.bit_length(), Fraction(base).denominator.bit_length())
    if size > 1 and (size - 1) * abs(exponent) > 6000:
        raise Undefined
    return sized(Fraction(base) ** int(exponent))


def sized(value: Fraction) -> Fraction:
    if max(value.numerator.bit_length(), value.denominator.bit_length()) > 6000:
        raise Undefined
    return value


# text put together with no brackets but those drawn
LEAVES = st.sampled_from([*ENV, "0", "1", "2", "3", "10", "0.5", "1.25", "7.0"])
SUMS = st.recursive(
    LEAVES,
    lambda inner: st.one_of(
        st.tuples(inner, st.sampled_from(["+", "-", "*", "/", "^"]), inner).map(" ".join),
        inner.map("-{}".format),
        inner.map("({})".format),
    ),
    max_leaves=10,
)
COMPARED = st.lists(SUMS, min_size=2, max_size=3).flatmap(
    lambda sums: st.sampled_from(["<", "<=", ">", ">=", "==", "!="]).map(
        lambda op: f" {op} ".join(sums)
    )
)
TRUTHS = st.recursive(
    COMPARED,
    lambda inner: st.one_of(
        st.tuples(inner, st.sampled_from(["and", "or"]), inner).map(" ".join),
        inner.map("not {}".format),
        inner.map("({})".format),
    ),
    max_leaves=4,
)


def ours(text: str) -> Fraction | bool | Fault:
    expression = parse(text)
    assert isinstance(expression, Expression), expression
    value = evaluate(expression, {name: Quantity(x) for name, x in ENV.items()})
    if isinstance(value, Quantity):
        return value.value
    assert isinstance(value, bool | Fault)
    return value


def agree(text: str) -> None:
    tree = ast.parse(text.replace("^", "**"), mode="eval").body
    try:
        expected = by_python(tree)
    except Undefined:
        return
    assert ours(text) == expected


@bounded
@given(SUMS)
def test_sums_come_to_the_same(text: str) -> None:
    agree(text)


@bounded
@given(TRUTHS)
def test_truths_come_to_the_same(text: str) -> None:
    agree(text)


def test_what_the_comparison_leaves_out_is_a_fault_or_a_root_here() -> None:
    assert isinstance(ours("1 / 0"), Fault)
    assert isinstance(ours("2 ^ 65"), Fault)
    assert isinstance(ours("0 ^ -1"), Fault)
    assert ours("2.25 ^ 0.5") == Fraction(3, 2)
