"""What an expression is once it is read: a small tree of frozen nodes, nothing worked out.

`column` counts from 1 in the text and is left out of comparisons, so that two texts that mean the
same are the same tree. Trees are at most `DEEPEST` deep: a walk over one may call itself.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import TYPE_CHECKING

from drill.quantities.values import Unit

if TYPE_CHECKING:
    from drill.quantities.evaluation.functions import Function

DEEPEST = 60


@dataclass(frozen=True)
class NumberNode:
    """A number as written; `text` keeps how ("1.20"), and is not part of what it means."""

    value: Fraction
    text: str = field(default="", compare=False)
    column: int = field(default=0, compare=False)


@dataclass(frozen=True)
class TextNode:
    """Words in quotes."""

    value: str
    column: int = field(default=0, compare=False)


@dataclass(frozen=True)
class Name:
    """A value by its name; "route.acid" is the cell `acid` of a row, "titres.1" a list's first."""

    name: str
    column: int = field(default=0, compare=False)


@dataclass(frozen=True)
class Negate:
    """-x"""

    operand: Node
    column: int = field(default=0, compare=False)


@dataclass(frozen=True)
class Binary:
    """left op right, op one of + - * / ^"""

    op: str
    left: Node
    right: Node
    column: int = field(default=0, compare=False)


@dataclass(frozen=True)
class Compare:
    """first op second op third …, each op one of < <= > >= == !=; true when every pair is."""

    operands: tuple[Node, ...]
    ops: tuple[str, ...]
    column: int = field(default=0, compare=False)


@dataclass(frozen=True)
class Logic:
    """left op right, op "and" or "or"; the right side is looked at only when it decides."""

    op: str
    left: Node
    right: Node
    column: int = field(default=0, compare=False)


@dataclass(frozen=True)
class Not:
    """not x"""

    operand: Node
    column: int = field(default=0, compare=False)


@dataclass(frozen=True)
class Convert:
    """x in UNIT; a number written out takes the unit, a quantity is turned into it."""

    operand: Node
    unit: Unit
    column: int = field(default=0, compare=False)


@dataclass(frozen=True)
class Member:
    """x in [a, b]"""

    operand: Node
    among: ListOf
    column: int = field(default=0, compare=False)


@dataclass(frozen=True)
class ListOf:
    """[a, b, c]"""

    items: tuple[Node, ...]
    column: int = field(default=0, compare=False)


@dataclass(frozen=True)
class Call:
    """function(a, b); `own` is the function itself where a subject brought it."""

    function: str
    arguments: tuple[Node, ...]
    column: int = field(default=0, compare=False)
    own: Function | None = field(default=None, compare=False)


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


@dataclass(frozen=True)
class Expression:
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
