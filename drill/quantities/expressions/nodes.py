"""The syntax tree of a parsed expression: frozen nodes, nothing evaluated.

`column` counts from 1 in the text and is left out of comparisons, so that two texts that mean the
same are the same tree. Trees are at most `DEEPEST` deep: a walk over one may call itself.
"""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from msgspec import Struct

from drill.quantities.values import Unit

if TYPE_CHECKING:
    from drill.quantities.evaluation.functions import Function

DEEPEST = 60
_NOT_COMPARED = frozenset({"column", "text", "own"})


class _Node(Struct, frozen=True, eq=False):
    """The base of all nodes; where and how one was written does not affect equality."""

    def __eq__(self, other: object) -> bool:
        return type(self) is type(other) and _meaning(self) == _meaning(other)

    def __hash__(self) -> int:
        return hash((type(self), _meaning(self)))


def _meaning(node: Struct) -> tuple[object, ...]:
    names = type(node).__struct_fields__
    return tuple(getattr(node, name) for name in names if name not in _NOT_COMPARED)


class NumberNode(_Node, frozen=True):
    """A number; `text` keeps how it was written ("1.20") and does not affect equality."""

    value: Fraction
    text: str = ""
    column: int = 0


class TextNode(_Node, frozen=True):
    """Words in quotes."""

    value: str
    column: int = 0


class Name(_Node, frozen=True):
    """A value by its name; "route.acid" is the cell `acid` of a row, "titres.1" a list's first."""

    name: str
    column: int = 0


class Negate(_Node, frozen=True):
    """-x"""

    operand: Node
    column: int = 0


class Binary(_Node, frozen=True):
    """left op right, op one of + - * / ^"""

    op: str
    left: Node
    right: Node
    column: int = 0


class Compare(_Node, frozen=True):
    """first op second op third …, each op one of < <= > >= == !=; true when every pair is."""

    operands: tuple[Node, ...]
    ops: tuple[str, ...]
    column: int = 0


class Logic(_Node, frozen=True):
    """left op right, op "and" or "or"; the right side is evaluated only if it matters."""

    op: str
    left: Node
    right: Node
    column: int = 0


class Not(_Node, frozen=True):
    """not x"""

    operand: Node
    column: int = 0


class Convert(_Node, frozen=True):
    """x in UNIT; a bare number takes the unit, a quantity is converted to it."""

    operand: Node
    unit: Unit
    column: int = 0


class Member(_Node, frozen=True):
    """x in [a, b]"""

    operand: Node
    among: ListOf
    column: int = 0


class ListOf(_Node, frozen=True):
    """[a, b, c]"""

    items: tuple[Node, ...]
    column: int = 0


class Call(_Node, frozen=True):
    """function(a, b); `own` is the function itself where a subject brought it."""

    function: str
    arguments: tuple[Node, ...]
    column: int = 0
    own: Function | None = None


Node = (
    NumberNode
    | TextNode
    | Name
    | Negate
    | Binary
    | Compare
    | Logic
    | Not
    | Convert
    | Member
    | ListOf
    | Call
)


class Expression(Struct, frozen=True):
    """A text that was read: its tree, and the names it looks up ("route.acid" in full)."""

    text: str
    node: Node
    names: frozenset[str]


def children(node: Node) -> tuple[Node, ...]:
    """The nodes directly under this one, from left to right."""
    match node:
        case NumberNode() | TextNode() | Name():
            return ()
        case Negate(operand) | Not(operand) | Convert(operand):
            return (operand,)
        case Binary(_, left, right) | Logic(_, left, right):
            return (left, right)
        case Compare(operands):
            return operands
        case Member(operand, among):
            return (operand, among)
        case ListOf(items):
            return items
        case Call(_, arguments):
            return arguments


def names_in(node: Node) -> frozenset[str]:
    """Every name looked up anywhere in the tree."""
    if isinstance(node, Name):
        return frozenset((node.name,))
    return frozenset().union(*(names_in(child) for child in children(node)))
