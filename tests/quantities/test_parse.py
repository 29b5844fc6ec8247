"""The grammar: what is read as what, what is refused in which words, and that it stays small."""

from __future__ import annotations

import time
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drill.quantities import FUNCTIONS, Expression, Fault, parse, text_of
from drill.quantities.expressions.nodes import (
    Binary,
    Call,
    Compare,
    Convert,
    ListOf,
    Logic,
    Member,
    Name,
    Negate,
    Node,
    Not,
    NumberNode,
    TextNode,
)
from tests.quantities.helpers import bounded, fault, read, unit

a, b, c = Name("a"), Name("b"), Name("c")
GRAMS, AMOUNT = unit("g"), unit("mol/dm3")


def number(text: str) -> NumberNode:
    return NumberNode(Fraction(text))


@pytest.mark.parametrize(
    ("text", "node"),
    [
        ("1.20", number("1.2")),
        ("1e-3", number("0.001")),
        (".5 + 5.", Binary("+", number("0.5"), number("5"))),
        ("a - b - c", Binary("-", Binary("-", a, b), c)),
        ("a / b * c", Binary("*", Binary("/", a, b), c)),
        ("a + b * c", Binary("+", a, Binary("*", b, c))),
        ("a ^ b ^ c", Binary("^", a, Binary("^", b, c))),
        ("-a ^ b", Negate(Binary("^", a, b))),
        ("a ^ -b", Binary("^", a, Negate(b))),
        ("-a * b", Binary("*", Negate(a), b)),
        ("a < b <= c", Compare((a, b, c), ("<", "<="))),
        ("a + b < c", Compare((Binary("+", a, b), c), ("<",))),
        ("not a and b or c", Logic("or", Logic("and", Not(a), b), c)),
        ("not a < b", Not(Compare((a, b), ("<",)))),
        ('route.fizzes == "yes"', Compare((Name("route.fizzes"), TextNode("yes")), ("==",))),
        ("a in g", Convert(a, GRAMS)),
        ("a + b in g", Convert(Binary("+", a, b), GRAMS)),
        ("(a in g) + b", Binary("+", Convert(a, GRAMS), b)),
        ("a in mol/dm3 < c", Compare((Convert(a, AMOUNT), c), ("<",))),
        ("a in mol dm^-3", Convert(a, AMOUNT)),
        ('a in "mol dm-3"', Convert(a, AMOUNT)),
        ("a in mol per dm3", Convert(a, AMOUNT)),
        ("a in J/(kg °C)", Convert(a, unit("J/(kg °C)"))),
        ("a in %", Convert(a, unit("%"))),
        ("a in 1/s", Convert(a, unit("1/s"))),
        ("a in cm³", Convert(a, unit("cm3"))),
        ("sum([a, b]) / 2", Binary("/", Call("sum", (ListOf((a, b)),)), number("2"))),
        ('a in ["x", "y"]', Member(a, ListOf((TextNode("x"), TextNode("y"))))),
        ('count("CuSO4.5H2O")', Call("count", (TextNode("CuSO4.5H2O"),))),
        ("if(a, b, c)", Call("if", (a, b, c))),
    ],
)
def test_it_is_read_as(text: str, node: Node) -> None:
    assert read(text).node == node


def test_names_are_gathered_in_full() -> None:
    assert read("a * route.M + sum([b, a])").names == {"a", "route.M", "b"}
    assert read("1 + 2").names == frozenset()


@pytest.mark.parametrize(
    ("text", "message", "column", "hint"),
    [
        ("", "the expression ends too soon", 1, "A value is missing here."),
        ("1 +", "the expression ends too soon", 4, "A value is missing here."),
        ("(1 + 2", "'(' is not closed", 1, "Add )."),
        ("1 + 2)", "')' does not belong here", 6, "There is no ( for it."),
        ("[1, 2", "'[' is not closed", 1, "Add ]."),
        ("[]", "a list holds at least one value", 1, ""),
        ("a = 3", "'=' does not belong here", 3, "Write == to compare."),
        ("2 ** 3", "'**' does not belong here", 3, "Write ^ for a power."),
        ("2x", "'2x' is neither a number nor a name", 1, "Write 2 * x."),
        ("a b", "'b' does not belong here", 3, "Between two values stands a sign: * for times."),
        ("2(3)", "'(' does not belong here", 2, "Between two values stands a sign: * for times."),
        ("50 %", "'%' does not belong here", 4, "Write a percentage out: 100 * part / whole."),
        ("a × b", "'×' has no meaning here", 3, "Write * for times."),
        ("a − b", "'−' has no meaning here", 3, "Write - for minus."),
        (
            "x²",
            "'x²' is no name of a value",
            1,
            "Names are of plain letters, digits and _; a square is written x^2.",
        ),
        ("a (b)", "there is no function 'a'", 1, "Write * for times."),
        ("SUM(a, b)", "there is no function 'SUM'", 1, "Did you mean 'sum'?"),
        (
            "a * 20 cm3",
            "'cm3' does not belong here",
            8,
            "Write (20 in cm3) for a number with a unit.",
        ),
        ("1,5 < a", "',' does not belong here", 2, "Write 1.5, with a point."),
        ("rond(a, 2)", "there is no function 'rond'", 1, "Did you mean 'round'?"),
        ("round(a)", "round takes 2 values, not 1", 1, "Write round(x, places)."),
        ("mean(1, 2)", "mean takes 1 value, not 2", 1, "Write mean(list)."),
        ("a in gramms", "'gramms' is not a unit we know", 6, "Did you mean 'grammes'?"),
        ("a in", "'' is not a unit we know", 5, ""),
        (
            "a in dm3 * b",
            "it is not clear what '*' after a unit belongs to",
            10,
            "Put brackets round the conversion: (… in dm3) * …",
        ),
        ('"yes', "the quotation mark is not closed", 1, 'Put a second " behind the text.'),
        ("'yes'", '"\'" has no meaning here', 1, 'Text stands in "double quotes".'),
        ("1.2.3", "'1.2.' has too many points", 1, ""),
        ("1e99", "the power of ten in '1e99' is beyond 64", 1, ""),
        ("and", "a value is missing before 'and'", 1, ""),
        ("+1", "a value is missing before '+'", 1, "Leave the sign out."),
        ("__import__('os')", '"\'" has no meaning here', 12, 'Text stands in "double quotes".'),
        ("eval(a)", "there is no function 'eval'", 1, ""),
        ("a; b", "';' has no meaning here", 2, ""),
    ],
)
def test_it_is_refused_in_words(text: str, message: str, column: int, hint: str) -> None:
    assert parse(text) == Fault(message, column, hint)


# ------------------------------------------------------------------ it stays small, whatever comes


@pytest.mark.parametrize(
    "text",
    [
        "(" * 1000 + "1" + ")" * 1000,
        "-" * 1000 + "1",
        "not " * 400 + "a",
        "2^" * 500 + "2",
        "1+" * 900 + "1",
        "[" * 900,
        "1" * 1_000_000,
        "a" * 1_000_000,
        "a in " + "(" * 900 + "g" + ")" * 900,
        "a in g" + " g" * 900,
        "sum([" + "1," * 900 + "1])",
        '"' + "x" * 1_000_000,
        "abs(" * 400 + "1" + ")" * 400,
        "a<" * 900 + "a",
        "1e999999999",
        "9" * 61,
    ],
)
def test_too_much_is_a_fault_at_once(text: str) -> None:
    begun = time.process_time()
    assert isinstance(parse(text), Fault)
    assert time.process_time() - begun < 0.5


def test_the_bounds_are_named() -> None:
    assert fault("(" * 70 + "1").message == "brackets and signs go at most 60 deep"
    assert fault("1+" * 70 + "1").message == "an expression is at most 60 steps deep"
    assert fault("[" + "1+1," * 180 + "1]").message == "an expression has at most 500 parts"
    assert fault("[" + "1," * 200 + "1]").message == "a list holds at most 200 values"
    assert fault(" " * 2001).message == "an expression has at most 2000 characters; this has 2001"


@bounded
@given(st.text(max_size=60))
def test_no_text_makes_it_raise(text: str) -> None:
    assert isinstance(parse(text), Expression | Fault)


_WORDS = (
    """+ - * / ^ ( ) , [ ] < > = % " <= == in and not or if a r.x 1 2.5 1e3 g mol dm3 °C . ² ' e"""
)
WORDS = st.sampled_from([*FUNCTIONS, *_WORDS.split(), "\n"])


@bounded
@given(st.lists(WORDS, max_size=25).map(" ".join))
def test_no_order_of_its_own_words_makes_it_raise(text: str) -> None:
    found = parse(text)
    if isinstance(found, Fault):
        assert 0 <= found.column <= len(text) + 1
    else:
        assert read(text_of(found.node)).node == found.node


# ------------------------------------------------------------------ written out and read again

NAMES = st.sampled_from(["a", "b", "mass", "route.M_crystals", "inside", "r.in_x"]).map(Name)
NUMBERS = st.decimals(0, 10**6, places=3).map(lambda d: NumberNode(Fraction(d), str(d)))
WHOLE = st.integers(0, 99).map(lambda n: NumberNode(Fraction(n)))
TEXTS = st.sampled_from(["", "yes", "sulfuric acid", "and"]).map(TextNode)
UNITS = st.sampled_from(["g", "mol/dm3", "J/(kg °C)", "%", "1/s", "cm3", "N m", "min"]).map(unit)


def _trees(inner: st.SearchStrategy[Node]) -> st.SearchStrategy[Node]:
    pairs = st.tuples(inner, inner)
    lists = st.lists(inner, min_size=1, max_size=3).map(lambda items: ListOf(tuple(items)))
    ops = st.sampled_from(["<", "<=", ">", ">=", "==", "!="])
    return st.one_of(
        st.builds(Negate, inner),
        st.builds(Not, inner),
        st.builds(Convert, inner, UNITS),
        st.tuples(st.sampled_from("+-*/^"), pairs).map(lambda t: Binary(t[0], *t[1])),
        st.tuples(st.sampled_from(["and", "or"]), pairs).map(lambda t: Logic(t[0], *t[1])),
        st.builds(lambda xs, o: Compare(xs, (o,)), pairs, ops),
        st.builds(lambda x, xs, o, p: Compare((x, *xs), (o, p)), inner, pairs, ops, ops),
        st.builds(Member, inner, lists),
        lists,
        inner.map(lambda x: Call("abs", (x,))),
        pairs.map(lambda t: Call("round", t)),
    )


TREES = st.recursive(st.one_of(NAMES, NUMBERS, WHOLE, TEXTS), _trees, max_leaves=12)


@bounded
@given(TREES)
def test_a_tree_written_out_reads_back_as_itself(node: Node) -> None:
    assert read(text_of(node)).node == node


def test_only_needed_brackets_are_written() -> None:
    text = "100 * (a - b) / (a * (volume in dm3)) ^ 2"
    assert text_of(read(text).node) == "100 * (a - b) / (a * (volume in dm3))^2"
    assert text_of(read("a + b").node, {"a": "mass of salt", "b": "3 g"}.__getitem__) == (
        "mass of salt + 3 g"
    )
