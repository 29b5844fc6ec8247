"""Parses a formula's text with Python's own grammar; `ast` only parses, nothing is ever run.

Python's grammar decides precedence. This module only replaces names, numbers, quoted words and
units by placeholders, so that no Python keyword can occur and no author's text reaches Python:

    100 * mass in "g/mol" > 3     ->     _0 * _1 << _2 > _3

`in` becomes an operator that binds more loosely than + and more tightly than <, as in drill; ^
becomes **, Python's operator for a power.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from drill.judge.cannot import Cannot
from drill.judge.units import Unit, unit_of

_TOKEN = re.compile(
    r'\s*(?:(?P<text>"[^"]*")|(?P<number>(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)'
    r"|(?P<name>[A-Za-z_]\w*(?:\.\w+)*)|(?P<sign><=|>=|==|!=|\*(?!\*)|[-+/^(),\[\]<>]))",
    re.ASCII,
)
_JOINING = ("and", "or", "not")
_UNIT_ENDS = re.compile(r"[,\]<>=!]|\b(?:and|or|in)\b")


@dataclass(frozen=True)
class Word:
    """A placeholder's meaning when it is text in quotes."""

    text: str


@dataclass(frozen=True)
class Called:
    """A placeholder's meaning when it is the name of a value or a function."""

    name: str


Leaf = Word | Called | Fraction | Unit


@dataclass(frozen=True)
class Formula:
    """`tree` is Python's syntax tree, `leaves` the meanings of its placeholders."""

    text: str
    tree: ast.expr
    leaves: tuple[Leaf, ...]

    def leaf(self, node: ast.expr) -> Leaf:
        """The meaning of a placeholder.

        Raises:
            Cannot: the node is not a placeholder.
        """
        if not isinstance(node, ast.Name):
            raise Cannot(f"{self.text!r} is not read as a formula")
        return self.leaves[int(node.id[1:])]

    def names(self) -> frozenset[str]:
        """Every name of a value in it."""
        called = {node.func.id for node in self._calls() if isinstance(node.func, ast.Name)}
        return frozenset(
            leaf.name
            for place, leaf in enumerate(self.leaves)
            if isinstance(leaf, Called) and f"_{place}" not in called
        )

    def functions(self) -> frozenset[str]:
        """Every function it calls."""
        leaves = [self.leaf(node.func) for node in self._calls()]
        return frozenset(leaf.name for leaf in leaves if isinstance(leaf, Called))

    def _calls(self) -> Iterator[ast.Call]:
        return (node for node in ast.walk(self.tree) if isinstance(node, ast.Call))


@lru_cache(maxsize=8192)
def read(text: str) -> Formula:
    """The formula of a text.

    Raises:
        Cannot: Python's grammar has no such form.
    """
    marks: list[Leaf] = []
    line = "".join(_marked(text, marks))
    try:
        tree = ast.parse(line.strip(), mode="eval").body
    except (SyntaxError, ValueError, RecursionError, MemoryError):
        raise Cannot(f"{text!r} is not read as a formula") from None
    return Formula(text, tree, tuple(marks))


def _marked(text: str, marks: list[Leaf]) -> Iterator[str]:
    at, end = 0, len(text.rstrip())
    while at < end:
        found = _TOKEN.match(text, at)
        if found is None:
            raise Cannot(f"{text!r}: {text[at:].strip()[:1]!r} has no meaning")
        at = found.end()
        if found["name"] == "in":
            yield " << "
            at, unit = _unit(text, at)
            if unit is not None:
                yield _mark(unit, marks)
        elif found["name"] in _JOINING:
            yield f" {found['name']} "
        elif found["sign"]:
            yield "**" if found["sign"] == "^" else found["sign"]
        elif found["name"]:
            yield _mark(Called(found["name"]), marks)
        else:
            leaf = Word(found["text"][1:-1]) if found["text"] else Fraction(found["number"])
            yield _mark(leaf, marks)


def _mark(leaf: Leaf, marks: list[Leaf]) -> str:
    marks.append(leaf)
    return f" _{len(marks) - 1} "


def _unit(text: str, at: int) -> tuple[int, Unit | None]:
    """The unit after `in`, and where it ends; None if a list follows."""
    rest = text[at:]
    if rest.lstrip().startswith("["):
        return at, None
    if quoted := re.match(r'\s*"([^"]*)"', rest):
        return at + quoted.end(), unit_of(quoted[1])
    length = _unit_length(rest)
    return at + length, unit_of(rest[:length])


def _unit_length(rest: str) -> int:
    """Up to the closing bracket round the conversion, or the next comparison or comma."""
    stop = _UNIT_ENDS.search(rest)
    deep = 0
    for place, sign in enumerate(rest[: stop.start() if stop else len(rest)]):
        deep += (sign == "(") - (sign == ")")
        if deep < 0:
            return place
    return stop.start() if stop else len(rest)
