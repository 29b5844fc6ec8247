"""Every formula read a second time, by Python's own grammar, wherever the two grammars overlap.

`ast.parse` only reads; nothing of what it reads is ever run.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Callable, Mapping
from fractions import Fraction

from drill.quantities import Expression, unit_of
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

_ARITHMETIC: Mapping[type[ast.operator], str] = {
    ast.Add: "+",
    ast.Sub: "-",
    ast.Mult: "*",
    ast.Div: "/",
    ast.Pow: "^",
}
_COMPARISONS: Mapping[type[ast.cmpop], str] = {
    ast.Lt: "<",
    ast.LtE: "<=",
    ast.Gt: ">",
    ast.GtE: ">=",
    ast.Eq: "==",
    ast.NotEq: "!=",
}


_IF = re.compile(r"\bif\s*\(")


class _NoOverlap(Exception):
    """Written in a way that only one of the two grammars has."""


def read_again(expression: Expression) -> Node | None:
    """The tree Python's grammar gives the text, in our nodes; None where it has no such form."""
    pieces = " ".join(expression.text.split()).split('"')
    # what stands in quotes is left alone; "if" is a word of Python's own
    pieces[::2] = [_IF.sub("if_(", piece.replace("^", "**")) for piece in pieces[::2]]
    text = '"'.join(pieces)
    try:
        return _node(ast.parse(text, mode="eval").body, text)
    except (_NoOverlap, SyntaxError, ValueError, RecursionError):
        return None


def _node(tree: ast.expr, text: str) -> Node:
    reader = _READERS.get(type(tree))
    if reader is None:
        raise _NoOverlap
    return reader(tree, text)


def _constant(tree: ast.Constant, text: str) -> Node:
    if isinstance(tree.value, str):
        return TextNode(tree.value)
    if isinstance(tree.value, bool) or not isinstance(tree.value, int | float):
        raise _NoOverlap
    return NumberNode(Fraction(ast.get_source_segment(text, tree) or ""))


def _attribute(tree: ast.Attribute, text: str) -> Node:
    left = _node(tree.value, text)
    if not isinstance(left, Name):
        raise _NoOverlap
    return Name(f"{left.name}.{tree.attr}")


def _unary(tree: ast.UnaryOp, text: str) -> Node:
    operand = _node(tree.operand, text)
    if isinstance(tree.op, ast.USub):
        return Negate(operand)
    if isinstance(tree.op, ast.Not):
        return Not(operand)
    raise _NoOverlap


def _binary(tree: ast.BinOp, text: str) -> Node:
    op = _ARITHMETIC.get(type(tree.op))
    if op is None:
        raise _NoOverlap
    return Binary(op, _node(tree.left, text), _node(tree.right, text))


def _logic(tree: ast.BoolOp, text: str) -> Node:
    op = "and" if isinstance(tree.op, ast.And) else "or"
    first, *others = (_node(value, text) for value in tree.values)
    for other in others:
        first = Logic(op, first, other)
    return first


def _compare(tree: ast.Compare, text: str) -> Node:
    if isinstance(tree.ops[0], ast.In) and len(tree.ops) == 1:
        return _in(tree, text)
    ops = [_COMPARISONS.get(type(op)) for op in tree.ops]
    known = tuple(op for op in ops if op is not None)
    # "a < b in g" is one chain to Python and a conversion inside a comparison to us
    if len(known) < len(ops):
        raise _NoOverlap
    return Compare(tuple(_node(one, text) for one in (tree.left, *tree.comparators)), known)


def _in(tree: ast.Compare, text: str) -> Node:
    operand, among = _node(tree.left, text), tree.comparators[0]
    if isinstance(among, ast.List):
        return Member(operand, ListOf(tuple(_node(item, text) for item in among.elts)))
    written = (ast.get_source_segment(text, among) or "").replace("**", "^")
    unit = unit_of(written.strip('"'))
    if unit is None:
        raise _NoOverlap
    return Convert(operand, unit)


def _call(tree: ast.Call, text: str) -> Node:
    if not isinstance(tree.func, ast.Name) or tree.keywords:
        raise _NoOverlap
    function = "if" if tree.func.id == "if_" else tree.func.id
    return Call(function, tuple(_node(one, text) for one in tree.args))


_READERS: Mapping[type[ast.expr], Callable[..., Node]] = {
    ast.Constant: _constant,
    ast.Name: lambda tree, text: Name(tree.id),
    ast.Attribute: _attribute,
    ast.UnaryOp: _unary,
    ast.BinOp: _binary,
    ast.BoolOp: _logic,
    ast.Compare: _compare,
    ast.Call: _call,
    ast.List: lambda tree, text: ListOf(tuple(_node(item, text) for item in tree.elts)),
}
