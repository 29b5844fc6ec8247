"""Puts an instance's values into an author's text, with drill's own syntax.

    {mass}       the value as it is shown, with its unit: 12.40 g
    {bare:mass}  the number alone                {a:acid}  with its article: an acid
    {cap:acid}   first letter upper              {route.acid}  a column of a row of facts
    {{  }}       a brace

Only names are looked up, so that a text cannot reach Python's attributes, indexes or formats.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import lru_cache

from msgspec import Struct, field

from drill.generate.text.articles import article, capital, listed, renamed
from drill.plaintext import nearest
from drill.quantities import FactsRow, Fault, Quantity, Value, show

_WAYS = ("bare", "a", "cap")
_BRACE = re.compile(r"[{}]")
_NAME = re.compile(r"[A-Za-z_]\w*(?:\.\w+)*")


class Slot(Struct, frozen=True):
    """A place to be filled: the ways it is shown, outermost first, and the name looked up."""

    ways: tuple[str, ...]
    name: str


class Shown(Struct, frozen=True):
    """What a text may name; `words` are a school's own names for things, put in for the bank's."""

    values: Mapping[str, Value]
    words: Mapping[str, str] = field(default_factory=dict)

    def text(self, name: str, unit: bool = True) -> str | Fault:
        """One value in words or figures, with its unit or without."""
        value = look_up(self.values, name)
        return value if isinstance(value, Fault) else _plain(name, value, unit)


def fill(text: str, shown: Shown) -> str | Fault:
    """The text with every slot filled, or why that cannot be done."""
    if "{" not in text and "}" not in text:
        return renamed(text, shown.words) if shown.words else text
    pieces = pieces_of(text)
    if isinstance(pieces, Fault):
        return pieces
    out: list[str] = []
    for piece in pieces:
        filled = piece if isinstance(piece, str) else _filled(piece, shown)
        if isinstance(filled, Fault):
            return filled
        out.append(filled)
    whole = "".join(out)
    return renamed(whole, shown.words) if shown.words else whole


@lru_cache(maxsize=4096)
def pieces_of(text: str) -> tuple[str | Slot, ...] | Fault:
    """Plain text and slots in turn; a `Fault` gives the column of a brace that is not right."""
    out: list[str | Slot] = []
    at = 0
    while at < len(text):
        brace = _BRACE.search(text, at)
        if brace is None:
            out.append(text[at:])
            break
        start = brace.start()
        out.append(text[at:start])
        if text[start : start + 2] in ("{{", "}}"):
            out.append(text[start])
            at = start + 2
            continue
        end = text.find("}", start)
        if brace[0] == "}" or end < 0:
            return Fault("a brace without its partner", start + 1, "Write {{ or }} for a brace.")
        slot = _slot(text[start + 1 : end], start + 1)
        if isinstance(slot, Fault):
            return slot
        out.append(slot)
        at = end + 1
    return tuple(piece for piece in out if piece != "")


def names_in(text: str) -> frozenset[str]:
    """The names a text prints, dotted ones as they stand; none when its braces are not right."""
    pieces = pieces_of(text)
    if isinstance(pieces, Fault):
        return frozenset()
    return frozenset(piece.name for piece in pieces if isinstance(piece, Slot))


def _slot(inside: str, column: int) -> Slot | Fault:
    *ways, name = (piece.strip() for piece in inside.split(":"))
    unknown = next((way for way in ways if way not in _WAYS), None)
    if unknown is not None:
        return Fault(f'"{unknown}:" is not a way to show', column, "Known: bare:, a:, cap:.")
    if not _NAME.fullmatch(name):
        return Fault(f'"{name}" is not a name', column, "Write {name}, or {{ for a brace.")
    return Slot(tuple(ways), name)


def _filled(slot: Slot, shown: Shown) -> str | Fault:
    text = shown.text(slot.name, unit="bare" not in slot.ways)
    if isinstance(text, Fault):
        return text
    for way in reversed(slot.ways):
        if way == "a":
            text = f"{article(text)} {text}"
        elif way == "cap":
            text = capital(text)
    return text


def look_up(values: Mapping[str, Value], name: str) -> Value | Fault:
    """A value by its name; "route.acid" is a column of a row, "order.1" the first of a list."""
    first, *rest = name.split(".")
    if first not in values:
        return Fault(f'nothing is called "{first}" here', hint=_nearest(first, values))
    value = values[first]
    for key in rest:
        if isinstance(value, FactsRow) and key in value.cells:
            value = value.cells[key]
        elif isinstance(value, tuple) and key.isdigit() and 0 < int(key) <= len(value):
            value = value[int(key) - 1]
        else:
            known = value.cells if isinstance(value, FactsRow) else {}
            return Fault(f'"{first}" has no "{key}"', hint=_nearest(key, known))
    return value


def _nearest(name: str, known: Mapping[str, object]) -> str:
    if near := nearest(name, known):
        return f'Did you mean "{near}"?'
    return f"Known: {', '.join(list(known)[:12])}." if known else ""


def _plain(name: str, value: Value, unit: bool) -> str | Fault:
    if isinstance(value, Quantity):
        return show(value, unit=unit)
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, FactsRow):
        columns = ", ".join(f"{name}.{column}" for column in list(value.cells)[:6])
        return Fault(f'"{name}" is a row of facts: name a column', hint=f"Such as {columns}.")
    if isinstance(value, tuple):
        return _several(value, unit)
    return value


def _several(values: tuple[Quantity, ...] | tuple[str, ...], unit: bool) -> str:
    """ "23.95, 24.00 and 24.05 cm3": numbers of one unit name it once."""
    words = [value if isinstance(value, str) else show(value, unit=False) for value in values]
    last = values[-1] if values else ""
    symbol = last.unit.symbol if isinstance(last, Quantity) and unit else ""
    return f"{listed(words)} {symbol}".strip()
