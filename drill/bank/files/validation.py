"""Checks a table of an author's file against the schema, and reports every fault at once."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from drill.bank.files.faults import Faults, nearest, nearest_or_all
from drill.bank.files.toml_lines import KeyPath
from drill.bank.schema.fields import TYPES, Field, is_number, seen, unprintable
from drill.plaintext import one_line

LONGEST_TEXT = 4000
MOST_ENTRIES = 60

_MEANT = {
    **{
        name: f"It stands below its part: [[part.{name}]]."
        for name in ("slip", "option", "point", "level")
    },
    "marks": "Write award = { value = 2 }, or max = 2 in a written part.",
}  # keys that belong elsewhere, and where


def checked(
    raw: Mapping[str, Any],
    keys: tuple[Field, ...],
    where: KeyPath,
    faults: Faults,
    kind: str = "",
    what: str = "",
) -> dict[str, Any]:
    """The table's values by key, with defaults; wrong values are left out and added to the faults.

    Args:
        raw: the table as tomllib read it.
        kind: which kind of part or draw it is; "" when it has no kinds.
        what: the words for this table in a message, as "a written part".
    """
    known = {key.name: key for key in keys}
    known |= {key.name: key for key in keys if key.belongs_to(kind)}
    clean: dict[str, Any] = {}
    if "kind" in raw and "ask" in raw and not {"kind", "ask"} & known.keys():
        faults.add((*where, "kind"), "a new part begins here.", "Write [[part]] above it.")
        raw = {name: value for name, value in raw.items() if name in known}
    for name, value in raw.items():
        key = known.get(name)
        if key is None:
            names = (k.name for k in keys if k.belongs_to(kind))
            hint = _MEANT.get(name) or nearest_or_all(name, names, 20)
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


def _misplaced(key: Field, what: str) -> tuple[str, str]:
    owners = ", ".join(key.kinds)
    return f"{key.name} does not belong to {what}.", f"It goes with: {owners}."


def _fits(key: Field, value: Any, where: KeyPath, faults: Faults) -> bool:
    """Whether type, range and choice are valid; if not, a fault is added."""
    kind = TYPES[key.holds]
    if not kind.fits(value):
        faults.add(where, f"{key.name} must be {kind.words}, got {seen(value)}.", _mend(key, value))
        return False
    return _in_range(key, value, where, faults) and _allowed(key, value, where, faults)


def _in_range(key: Field, value: Any, where: KeyPath, faults: Faults) -> bool:
    """Whether a number, or the length of a text or list, is within limits, and texts are valid."""
    if isinstance(value, str) and key.required and not value.strip():
        faults.add(where, f"{key.name} is empty.", _for_example(key))
        return False
    if bounds := _bounds(key, value):
        size, low, high, counted = bounds
        if not low <= size <= high:
            message = f"{key.name} must have {_range(low, high, counted)}, got {seen(size)}."
            faults.add(where, message)
            return False
    if isinstance(value, str):
        return _printable(key, value, where, faults)
    entries = value if isinstance(value, list) else []
    return all(_sound(key, entry, (*where, index), faults) for index, entry in enumerate(entries))


def _bounds(key: Field, value: Any) -> tuple[Any, int, int, str] | None:
    """The value to check, its minimum and maximum, and its name; None when there is no limit."""
    if isinstance(value, str):
        return len(value), 0, LONGEST_TEXT, " characters"
    if isinstance(value, list):
        low = key.low if key.low is not None else int(key.required)
        return len(value), low, key.high or MOST_ENTRIES, " entries"
    if isinstance(value, bool) or key.low is None or key.high is None:
        return None
    return value, key.low, key.high, ""


def _range(low: int, high: int, counted: str) -> str:
    if not counted:
        return f"a value from {low} to {high}"
    return f"at least {low} and at most {high}{counted}" if low else f"at most {high}{counted}"


def _sound(key: Field, entry: Any, where: KeyPath, faults: Faults) -> bool:
    """Whether a list entry, if it is text, is not empty, not too long, and printable."""
    if not isinstance(entry, str):
        return True
    if not entry.strip():
        faults.add(where, f"{key.name} has an empty entry.", "Take it out.")
        return False
    if len(entry) > LONGEST_TEXT:
        message = f"an entry of {key.name} has {len(entry)} characters, at most {LONGEST_TEXT} are"
        faults.add(where, f"{message} read.")
        return False
    return _printable(key, entry, where, faults)


def _printable(key: Field, text: str, where: KeyPath, faults: Faults) -> bool:
    found = unprintable(text)
    if found:
        faults.add(where, f"{key.name} holds {found}, which cannot be printed.", "Take it out.")
    return not found


def _allowed(key: Field, value: Any, where: KeyPath, faults: Faults) -> bool:
    if not key.allowed:
        return True
    entries: Iterable[Any] = value if isinstance(value, list) else [value]
    wrong = [entry for entry in entries if entry not in key.allowed]
    for entry in wrong:
        hint = nearest(str(entry), key.allowed)
        listed = ", ".join(key.allowed)
        faults.add(where, f"{key.name} must be one of {listed}; got {seen(entry)}.", hint)
    return not wrong


def _for_example(key: Field) -> str:
    return f"Write for example: {key.example.splitlines()[0]}"


_NUMBER_WORDS = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")


def _mend(key: Field, value: Any) -> str:
    """The line to write instead, when the value shows what was meant."""
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
