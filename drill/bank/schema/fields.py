"""What one key of an author's file is: its name, what it holds, and a teacher's words for it.

The same descriptions check a file and write its documentation, so neither can drift.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Callable, Mapping
from datetime import date, datetime
from decimal import Decimal
from typing import Any, TypeGuard

from msgspec import Struct

from drill.bank.files.toml_lines import Unusable, is_usable
from drill.model.field import Field as Field
from drill.plaintext import one_line


class Type(Struct, frozen=True):
    """A type of value: its description, and a test for a value read by tomllib."""

    words: str
    fits: Callable[[Any], bool]


def _is_whole(value: Any) -> bool:
    return isinstance(value, int) and not isinstance(value, bool) and abs(value) < 10**18


def is_number(value: Any) -> TypeGuard[int | Decimal]:
    """A number an author wrote, provided it is small enough to calculate with."""
    if isinstance(value, Decimal):
        return is_usable(value)
    return _is_whole(value)


def _is_texts(value: Any) -> bool:
    return isinstance(value, list) and all(isinstance(entry, str) for entry in value)


def _is_tables(value: Any) -> bool:
    return isinstance(value, list) and all(isinstance(entry, dict) for entry in value)


def _is_value(value: Any) -> bool:
    return isinstance(value, str | bool) or is_number(value)


def _is_day(value: Any) -> bool:
    return isinstance(value, date | str) and not isinstance(value, datetime)


TYPES: Mapping[str, Type] = {
    "text": Type("text in quotes", lambda v: isinstance(v, str)),
    "whole": Type("a whole number", _is_whole),
    "number": Type("a number", is_number),
    "truth": Type("true or false", lambda v: isinstance(v, bool)),
    "texts": Type("a list of texts in square brackets", _is_texts),
    "one or more": Type(
        "text in quotes, or several in square brackets",
        lambda v: isinstance(v, str) or _is_texts(v),
    ),
    "formula": Type(
        "a formula in quotes, or a number", lambda v: isinstance(v, str) or is_number(v)
    ),
    "pair": Type("two formulas in square brackets", lambda v: isinstance(v, list) and len(v) == 2),
    "values": Type("a list of values in square brackets", lambda v: isinstance(v, list)),
    "value": Type("a number, text, or true or false", _is_value),
    "patterns": Type("a list of patterns in square brackets", lambda v: isinstance(v, list)),
    "table": Type("a table", lambda v: isinstance(v, dict)),
    "tables": Type("tables headed [[…]]", _is_tables),
    "day": Type("a day, as 2027-05-18", _is_day),
}


def seen(value: Any) -> str:
    """The author's value as words, short enough for a message."""
    if isinstance(value, str):
        return f'"{one_line(value, 40)}"'
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, Unusable):
        return one_line(value.text, 40)
    if isinstance(value, list):
        return f"a list of {len(value)}"
    if isinstance(value, dict):
        return "a table"
    if isinstance(value, int) and abs(value) > 10**40:
        return "a whole number far too large"  # Python refuses to write thousands of digits
    return one_line(str(value), 40)


def unprintable(text: str) -> str:
    """The first control character in the text, as U+202E; "" if there is none."""
    if text.isprintable():
        return ""
    for sign in text:
        if sign not in "\n\t" and (unicodedata.category(sign) == "Cc" or sign in _TURNING):
            return f"U+{ord(sign):04X}"
    return ""


# marks that turn the direction of writing
_TURNING = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
