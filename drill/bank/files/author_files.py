"""Reads an author's file as text or TOML, up to a size limit; an unreadable file is a `Problem`."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from msgspec import Struct

from drill.bank.files.faults import Faults
from drill.bank.files.toml_lines import BadToml, read_toml
from drill.errors import Problem
from drill.places import put
from drill.plaintext import one_line

LARGEST = 1_000_000
_UTF16 = 'Save it as "UTF-8". Shells of Windows make such files with >: use --out there.'


class Opened(Struct, frozen=True):
    """A TOML file: its text, its values, and the list that faults in it are added to."""

    text: str
    raw: dict[str, Any]
    faults: Faults


def read_text(path: Path) -> str | Problem:
    """The file's text, no byte-order mark; a Problem when it is missing, huge or not UTF-8."""
    try:
        if not path.is_file():
            return Problem(str(path), 0, 0, "there is no such file.")
        size = path.stat().st_size
        if size > LARGEST:
            message = f"the file has {size:,} bytes; at most {LARGEST:,} are read."
            return Problem(str(path), 0, 0, message)
        raw = path.read_bytes()
    except (OSError, ValueError) as error:
        return Problem(str(path), 0, 0, f"cannot be read: {error}.")
    if raw.startswith((b"\xff\xfe", b"\xfe\xff")):
        return Problem(str(path), 1, 0, "the file is UTF-16 text.", _UTF16)
    try:
        return raw.decode("utf-8").removeprefix("\ufeff")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        message = f"byte {raw[error.start]:#04x} is not UTF-8 text."
        return Problem(str(path), line, 0, message, 'Save the file as "UTF-8".')


def open_toml(path: Path) -> Opened | Problem:
    """The file as TOML; a Problem with the line when it is not."""
    text = read_text(path)
    return text if isinstance(text, Problem) else parse_toml(text, str(path))


def parse_toml(text: str, shown: str) -> Opened | Problem:
    """Text as TOML; `shown` is the path that problems name."""
    try:
        raw, lines = read_toml(text)
    except BadToml as bad:
        return _unreadable(text, shown, bad)
    return Opened(text, raw, Faults(shown, lines, text))


def _unreadable(text: str, shown: str, bad: BadToml) -> Problem:
    from drill.bank.files.toml_hints import plain_words, toml_hint

    message = f"cannot be read as TOML: {one_line(plain_words(bad.message))}."
    hint = toml_hint(text.splitlines(), bad.line, bad.message)
    if hint.endswith(", with a point."):  # what TOML says of a comma leads astray
        message, hint = f"{hint[:-1]}: a comma ends a number here.", ""
    return Problem(shown, bad.line, bad.column, message, one_line(hint))


def write_atomically(path: Path, text: str) -> None:
    """Write the file atomically, so that no reader ever sees half of it.

    Raises:
        OSError: the folder cannot be written to.
    """
    put(path, text.encode())
