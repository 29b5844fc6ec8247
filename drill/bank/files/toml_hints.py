"""Hints for common TOML mistakes: the first one that fits the line is shown."""

from __future__ import annotations

import re
from collections.abc import Callable

_CURLY = re.compile("[“”„‟‘’‚‛«»]")
_COMMA = re.compile(r"=\s*(-?\d+,\d+)")
_DAY = re.compile(
    r"=\s*(?:\d{1,4}[-/]\d|\d{1,2}\.\d{1,2}\.\d"
    r"|\d{1,2} (?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec))",
    re.ASCII | re.IGNORECASE,
)
_WORD = re.compile(r"=\s*(true|false|yes|no)\b", re.IGNORECASE)
_OF_A_PART = ("kind", "ask", "answer", "hint", "skill", "award", "accept", "decimals", "figures")
_TWICE = re.compile(r"Cannot (?:declare|overwrite|mutate)")


def toml_hint(rows: list[str], line: int, message: str) -> str:
    """What to do about a line that cannot be read; "" when nothing likely fits.

    Args:
        rows: the file's lines.
        line: where the TOML parser stopped, counted from 1.
        message: what `tomllib` says.
    """
    row = rows[line - 1].strip() if 0 < line <= len(rows) else ""
    return next((said for hint in _HINTS if (said := hint(row, message, rows[: line - 1]))), "")


def plain_words(message: str) -> str:
    """What `tomllib` says, in words for an author."""
    return next((said for start, said in _WORDS.items() if message.startswith(start)), message)


_WORDS = {
    "Cannot declare": "this heading stands there already",
    "Cannot overwrite": "this name has a value already",
    "Invalid initial character for a key part": "a name is missing here",
    "Expected '=' after a key": "an = sign is missing behind a name",
    "Invalid value": "no value can be read here",
    "Unescaped '\\' in a string": "a backslash means something else in text",
    "Illegal character '\\n'": "the line ends inside a text",
    "Unterminated string": "a text is not closed",
    "Unclosed array": "a list is not closed",
    "Unclosed inline table": "a { is not closed",
}


def _curly(row: str, message: str, above: list[str]) -> str:
    outside = re.sub(r'"(?:[^"\\]|\\.)*"', "", row)
    found = _CURLY.search(outside)
    return f'Replace {found[0]} by the straight quotation mark ".' if found else ""


def _comma(row: str, message: str, above: list[str]) -> str:
    found = _COMMA.search(row)
    return f"Write {found[1].replace(',', '.')}, with a point." if found else ""


def _day(row: str, message: str, above: list[str]) -> str:
    return "Write a date as 2027-05-18, or in quotes." if _DAY.search(row) else ""


def _truth(row: str, message: str, above: list[str]) -> str:
    found = _WORD.search(row)
    if not found or not message.startswith("Invalid value"):
        return ""
    return f"Write {'true' if found[1].lower() in ('true', 'yes') else 'false'}."


def _no_value(row: str, message: str, above: list[str]) -> str:
    _, sign, value = row.partition("=")
    return "Write a value behind the = sign." if sign and not value.strip() else ""


def _one_line(row: str, message: str, above: list[str]) -> str:
    if "key part" not in message and "inline table" not in message:
        return ""
    return "What stands in { } stands on one line, without a comma before the }."


def _sign_missing(row: str, message: str, above: list[str]) -> str:
    if not row or row.startswith(("[", "#", '"', "'", "]", "}")):
        return ""
    name = row.partition("=")[0].strip()
    if "=" not in row or name.endswith(":"):
        return "Write name = value."
    if " " in name and '"' not in name:
        joined = re.sub(r"\W+", "_", name)
        return f'A name is one word, as {joined}; words in [require] stand in quotes: "{name}" = …'
    return ""


def _header_twice(row: str, message: str, above: list[str]) -> str:
    if not _TWICE.match(message) or not row.startswith("["):
        return ""
    name = row.strip("[] ").split(".")[-1]
    if row.startswith("[["):
        return f"A [{name}] or [[{name}.…]] stands above: every {name} begins with {row}."
    if row in ("[part]", "[part.slip]", "[part.option]", "[part.point]", "[part.level]"):
        return f"Write [{row}], with two brackets, for every {name}."
    return f"Put these lines below the first {row}."


def _key_twice(row: str, message: str, above: list[str]) -> str:
    if not _TWICE.match(message):
        return ""
    name = row.partition("=")[0].strip()
    if name in _OF_A_PART:
        return f"{name} stands here twice. If a new part begins, write [[part]] above it."
    return f"{name or 'The same name'} stands here twice."


def _quotes(row: str, message: str, above: list[str]) -> str:
    return "Text needs quotes round it." if message.startswith("Invalid value") else ""


def _unclosed(row: str, message: str, above: list[str]) -> str:
    if not message.startswith("Illegal character"):
        return ""
    return 'A quotation mark may be missing. Text over several lines stands between """ and """.'


def _not_closed(row: str, message: str, above: list[str]) -> str:
    if message.startswith("Unterminated"):
        return 'Text over several lines stands between """ and """.'
    if message.startswith("Unclosed"):
        return "Close a list with ], and { with }."
    return ""


def _backslash(row: str, message: str, above: list[str]) -> str:
    if "'\\'" not in message:
        return ""
    return "Write \\\\ for a backslash, or put the text in 'single quotes'."


_HINTS: tuple[Callable[[str, str, list[str]], str], ...] = (
    _curly,
    _comma,
    _day,
    _truth,
    _no_value,
    _one_line,
    _header_twice,
    _key_twice,
    _sign_missing,
    _quotes,
    _unclosed,
    _not_closed,
    _backslash,
)
