"""What one key of an author's file is: its name, what it holds, and a teacher's words for it.

The same descriptions check a file and write its documentation, so neither can drift.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal
from typing import Any

from drill.bank.faults import Faults, nearest, nearest_or_all
from drill.bank.toml_lines import Path, Unusable, is_usable
from drill.plaintext import one_line

LONGEST_TEXT = 4000
MOST_ENTRIES = 60


@dataclass(frozen=True, slots=True)
class Key:
    """One key. `kinds` are the kinds of its table it belongs to; none means all of them.

    `holds` names an entry of `TYPES`. `example` is a line of TOML that is read by a test.
    """

    name: str
    holds: str
    says: str
    example: str
    required: bool = False
    default: Any = None
    kinds: tuple[str, ...] = ()
    allowed: tuple[str, ...] = ()
    low: int | None = None
    high: int | None = None

    def belongs_to(self, kind: str) -> bool:
        return not self.kinds or not kind or kind in self.kinds


@dataclass(frozen=True, slots=True)
class Type:
    """What a key may hold: the words for it, and whether a value read by tomllib is one."""

    words: str
    fits: Callable[[Any], bool]


def _is_whole(value: Any) -> bool:
    return isinstance(value, int) and not isinstance(value, bool) and abs(value) < 10**18


def is_number(value: Any) -> bool:
    """A number an author wrote, of a size that arithmetic can carry."""
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
    return one_line(str(value), 40)


def checked(
    raw: Mapping[str, Any],
    keys: tuple[Key, ...],
    where: Path,
    faults: Faults,
    kind: str = "",
    what: str = "",
) -> dict[str, Any]:
    """The table's values by key, defaults filled in; what is wrong is left out and added to faults.

    Args:
        raw: the table as tomllib read it.
        kind: which kind of part or draw it is; "" when it has no kinds.
        what: the words for this table in a message, as "a written part".
    """
    known = {key.name: key for key in keys}
    known |= {key.name: key for key in keys if key.belongs_to(kind)}
    clean: dict[str, Any] = {}
    for name, value in raw.items():
        key = known.get(name)
        if key is None:
            hint = nearest_or_all(name, (k.name for k in keys if k.belongs_to(kind)), 20)
            faults.add((*where, name), f'unknown key "{one_line(name, 40)}".', hint)
        elif not key.belongs_to(kind):
            faults.add((*where, name), *_misplaced(key, what or kind))
        elif _fits(key, value, (*where, name), faults):
            clean[name] = value
    for key in keys:
        if not key.belongs_to(kind) or key.name in clean:
            continue
        if key.required and key.name not in raw:
            faults.add(where, f"{key.name} is missing.", _for_example(key))
        clean[key.name] = key.default
    return clean


def _misplaced(key: Key, what: str) -> tuple[str, str]:
    owners = ", ".join(key.kinds)
    return f"{key.name} does not belong to {what}.", f"It goes with: {owners}."


def _fits(key: Key, value: Any, where: Path, faults: Faults) -> bool:
    """Whether type, size and choice are right; if not, the fault is added."""
    kind = TYPES[key.holds]
    if not kind.fits(value):
        faults.add(where, f"{key.name} must be {kind.words}, got {seen(value)}.", _mend(key, value))
        return False
    return _in_range(key, value, where, faults) and _allowed(key, value, where, faults)


def _in_range(key: Key, value: Any, where: Path, faults: Faults) -> bool:
    size, counted = value, ""
    if isinstance(value, str):
        size, counted = len(value), " characters"
        low, high = (1 if key.required else 0), LONGEST_TEXT
        if key.required and not value.strip():
            faults.add(where, f"{key.name} is empty.", _for_example(key))
            return False
    elif isinstance(value, list):
        size, counted = len(value), " entries"
        low, high = key.low if key.low is not None else int(key.required), key.high or MOST_ENTRIES
    elif (key.low is None and key.high is None) or isinstance(value, bool | dict | date):
        return _short_entries(key, value, where, faults)
    else:
        low, high = key.low if key.low is not None else -(10**12), key.high or 10**12
    if size < low or size > high:
        faults.add(where, f"{key.name} must have {_range(low, high, counted)}, got {seen(size)}.")
        return False
    return _short_entries(key, value, where, faults)


def _range(low: int, high: int, counted: str) -> str:
    if not counted:
        return f"a value from {low} to {high}"
    return f"at least {low} and at most {high}{counted}" if low else f"at most {high}{counted}"


def _short_entries(key: Key, value: Any, where: Path, faults: Faults) -> bool:
    """Every text, alone or in a list, is not empty, not endless, and can be printed."""
    if isinstance(value, str):
        return _printable(key, value, where, faults)
    if not isinstance(value, list):
        return True
    for index, entry in enumerate(value):
        here = (*where, index)
        if not isinstance(entry, str):
            continue
        if not entry.strip():
            faults.add(here, f"{key.name} has an empty entry.", "Take it out.")
            return False
        if len(entry) > LONGEST_TEXT:
            message = f"an entry of {key.name} has {len(entry)} characters, at most {LONGEST_TEXT}"
            faults.add(here, f"{message} are read.")
            return False
        if not _printable(key, entry, here, faults):
            return False
    return True


def _printable(key: Key, text: str, where: Path, faults: Faults) -> bool:
    found = unprintable(text)
    if found:
        faults.add(where, f"{key.name} holds {found}, which cannot be printed.", "Take it out.")
    return not found


def unprintable(text: str) -> str:
    """The first character that steers a screen instead of showing, as U+202E; "" without one."""
    if text.isprintable():
        return ""
    for sign in text:
        if sign not in "\n\t" and (unicodedata.category(sign) == "Cc" or sign in _TURNING):
            return f"U+{ord(sign):04X}"
    return ""


# marks that turn the direction of writing
_TURNING = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")


def _allowed(key: Key, value: Any, where: Path, faults: Faults) -> bool:
    if not key.allowed:
        return True
    entries: Iterable[Any] = value if isinstance(value, list) else [value]
    wrong = [entry for entry in entries if entry not in key.allowed]
    for entry in wrong:
        hint = nearest(str(entry), key.allowed)
        listed = ", ".join(key.allowed)
        faults.add(where, f"{key.name} must be one of {listed}; got {seen(entry)}.", hint)
    return not wrong


def _for_example(key: Key) -> str:
    return f"Write for example: {key.example.splitlines()[0]}"


_NUMBER_WORDS = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")


def _mend(key: Key, value: Any) -> str:
    """The line to write instead, when the intention can be read off the value."""
    if key.holds in ("whole", "number") and isinstance(value, str):
        word = value.strip().lower()
        if word in _NUMBER_WORDS:
            return f"Write {key.name} = {_NUMBER_WORDS.index(word)}."
        if word.isascii() and word.isdigit() and len(word) < 10:
            return f"Write {key.name} = {word}, without quotes."
    if key.holds == "truth" and str(value).lower() in ("yes", "no", "true", "false", "1", "0"):
        right = "true" if str(value).lower() in ("yes", "true", "1") else "false"
        return f"Write {key.name} = {right}, without quotes."
    if key.holds == "texts" and isinstance(value, str):
        return f'Write {key.name} = ["{one_line(value, 40)}"].'
    if key.holds == "text" and is_number(value):
        return f'Write {key.name} = "{value}".'
    return _for_example(key)
