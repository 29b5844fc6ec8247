"""Which names a question has, and whether its formulas and texts use only those."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from drill.bank.files.faults import Faults, nearest_or_all
from drill.bank.files.toml_lines import KeyPath
from drill.bank.reference.row_filters import columns_of
from drill.bank.schema.fields import is_number, seen, unprintable
from drill.plaintext import one_line
from drill.quantities import Expression, FactsRow, Fault, Function, parse
from drill.subjects import Subject

RESERVED = frozenset(("and", "or", "not", "in", "true", "false", "if"))
WAYS = ("bare", "a", "cap")

_NAME = re.compile(r"[A-Za-z][A-Za-z0-9_]*", re.ASCII)
_SLOT = re.compile(r"[A-Za-z_]\w*(?:\.\w+)*", re.ASCII)


@dataclass(frozen=True)
class KnownName:
    """What is known about a name: the rows it can stand for, or that it is a list of values.

    `unclear` marks a draw that has a fault itself, so that its uses are not reported as well.
    """

    rows: tuple[FactsRow, ...] = ()
    several: bool = False
    unclear: bool = False

    def holds(self, rest: list[str]) -> bool:
        """Whether `.rest` after the name is allowed: for a list, the number of one of its items."""
        return not rest or self.unclear or (self.several and len(rest) == 1 and rest[0].isdigit())


class NameScope:
    """The names of one question as they come up in its file; a name is known from there on.

    `all` holds every name in the file, to tell a name defined later from one never defined.
    `subject` may add functions, and `looked_in` collects the tables that these look up.
    """

    def __init__(self, faults: Faults, subject: Subject) -> None:
        self.faults = faults
        self.subject = subject
        self.known: dict[str, KnownName] = {}
        self.all: frozenset[str] = frozenset()
        self.looked_in: set[str] = set()

    def add(self, name: str, known: KnownName, where: KeyPath) -> None:
        """Register a name; an invalid name, or one already used, is a fault."""
        if not _NAME.fullmatch(name) or len(name) > 60:
            hint = "Use letters, digits and _, a letter first."
            self.faults.add(where, f'"{one_line(name, 40)}" cannot be a name.', hint)
        elif name in RESERVED or name in self.subject.tables:
            self.faults.add(where, f'"{name}" is a word of the formulas.', "Choose another name.")
        elif name in self.known:
            self.faults.add(where, f'the name "{name}" is taken.', "Choose another name.")
        self.known.setdefault(name, known)

    # ---------------------------------------------------------------- formulas

    def formula(self, value: Any, where: KeyPath) -> Expression | None:
        """A formula read and its names checked; None when there is none, or it has a fault."""
        if value is None:
            return None
        if not isinstance(value, str) and not is_number(value):
            self.faults.add(where, f"a formula must be text in quotes, got {seen(value)}.")
            return None
        text = written(value)
        expression = parse(text, self.subject.functions)
        if isinstance(expression, Fault):
            self.faults.add_fault(where, text, expression)
            return None
        self.looked_in |= {function.looks_in for function in self._own_in(text)}
        unknown = [
            fault for name in sorted(expression.names) for fault in self._unknown(name, text)
        ]
        for message, hint in unknown:
            self.faults.add(where, message, hint)
        return None if unknown else expression

    def _own_in(self, text: str) -> list[Function]:
        """The subject's functions called in a formula that look up a table."""
        return [
            function
            for name, function in self.subject.functions.items()
            if function.looks_in and re.search(rf"\b{re.escape(name)}\s*\(", text)
        ]

    def _unknown(self, name: str, text: str) -> Iterator[tuple[str, str]]:
        first, *rest = name.split(".")
        known = self.known.get(first)
        for function in self._own_in(text) if known is None else ():
            if '"' in function.form and _called_with(function, text, name):
                hint = f"Put the formula in single quotes, to hold double ones: '{function.form}'."
                what = f"{function.name} is given no text"
                yield f'{what}: "{one_line(name, 40)}" stands without quotes.', hint
                return
        if known is None and first in self.all:
            hint = "A line sees only the draws and the steps above it."
            yield f'"{first}" stands further down, or is this very line.', hint
        elif known is None:
            yield f'no draw or step is called "{first}".', nearest_or_all(first, self.known)
        elif rest and known.rows:
            yield from _unknown_column(first, rest, known.rows)
        elif not known.holds(rest):
            yield f'"{first}" is no row of facts, so it has no "{rest[0]}".', ""

    # ---------------------------------------------------------------- texts

    def text(self, value: str, where: KeyPath, what: str = "") -> str:
        """The text unchanged; each unknown {name} in it is a fault.

        Args:
            what: the words for this text, when its key does not tell.
        """
        for message, hint in slot_faults(value, self):
            self.faults.add(where, f"{what}: {message}" if what else message, hint)
        return value

    def printable(self, text: str, where: KeyPath) -> bool:
        """Whether a text may reach a screen; if not, the fault is added."""
        found = unprintable(text)
        if found:
            self.faults.add(where, f"{found} cannot be printed.", "Take it out.")
        return not found

    def texts(self, values: Any, where: KeyPath) -> tuple[str, ...]:
        """The same for a list."""
        return tuple(self.text(value, (*where, i)) for i, value in enumerate(values))

    def pairs(self, values: Mapping[str, Any] | None, where: KeyPath) -> dict[str, str]:
        """The same for a table of texts, its names included."""
        out: dict[str, str] = {}
        for name, value in (values or {}).items():
            here = (*where, name)
            if not isinstance(value, str) or not value.strip():
                message = f'"{one_line(name, 40)}" must have text in quotes, got {seen(value)}.'
                self.faults.add(here, message)
            elif self.printable(name, here) and self.printable(value, here):
                out[self.text(name, here)] = self.text(value, here)
        return out


def _called_with(function: Function, text: str, name: str) -> bool:
    return bool(re.search(rf"\b{function.name}\s*\(\s*{re.escape(name)}\b", text))


def written(value: str | int | Decimal) -> str:
    """A formula's text; a number as the author wrote it (1.20 keeps its zero)."""
    return f"{value:f}" if isinstance(value, Decimal) else str(value)


def _unknown_column(
    first: str, rest: list[str], rows: tuple[FactsRow, ...]
) -> Iterator[tuple[str, str]]:
    column = rest[0]
    columns = columns_of(rows)
    if len(rest) > 1:
        yield f'"{first}.{column}" is a cell, so it has no "{rest[1]}".', ""
    elif column not in columns:
        yield f'{rows[0].table}.csv has no column "{column}".', nearest_or_all(column, columns)
    else:
        empty = [row.id for row in rows if column not in row.cells]
        if empty:
            hint = "Leave such rows out with where."
            yield f'{column} is empty in row "{empty[0]}" of {rows[0].table}.csv.', hint


def slot_faults(text: str, names: NameScope) -> Iterator[tuple[str, str]]:
    """The faults in the {…} of a text: a message and a hint for each."""
    place = 0
    while (brace := _next_brace(text, place)) >= 0:
        if text[brace : brace + 2] in ("{{", "}}"):
            place = brace + 2
            continue
        end = text.find("}", brace)
        if text[brace] == "}" or end < 0 or "{" in text[brace + 1 : end]:
            yield f"a brace without its partner at character {brace + 1}.", "Write {{ for a brace."
            return
        yield from _slot_faults(text[brace + 1 : end], names)
        place = end + 1


def _next_brace(text: str, place: int) -> int:
    found = [at for at in (text.find("{", place), text.find("}", place)) if at >= 0]
    return min(found, default=-1)


def _slot_faults(inside: str, names: NameScope) -> Iterator[tuple[str, str]]:
    *ways, name = (piece.strip() for piece in inside.split(":"))
    shown = one_line(inside, 40)
    for way in ways:
        if way not in WAYS:
            yield f'{{{shown}}}: "{one_line(way, 20)}:" is unknown.', "Known: bare:, a:, cap:."
            return
    if not _SLOT.fullmatch(name):
        yield f"{{{shown}}} is not a name in braces.", "Write {name}, or {{ for a brace."
        return
    first, *rest = name.split(".")
    known = names.known.get(first)
    if known is None:
        yield f"{{{shown}}}: nothing is called that here.", nearest_or_all(first, names.known)
    elif known.rows and not rest:
        columns = columns_of(known.rows)[:3]
        hint = "Name a column, as " + ", ".join(f"{{{name}.{column}}}" for column in columns) + "."
        yield f"{{{shown}}} is a whole row of facts.", hint
    elif rest and known.rows:
        yield from _unknown_column(first, rest, known.rows)
    elif not known.holds(rest):
        yield f'{{{shown}}}: "{first}" has no parts.', ""
