"""TOML text with the line of every key: `tomllib` gives the values, this module the lines.

`tomllib` does not record positions, and its time grows with the square of the depth of a dotted
key. So this module scans the text first: it notes the lines, and rejects excessive nesting.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from decimal import Decimal, InvalidOperation
from typing import Any

from msgspec import Struct

KeyPath = tuple[str | int, ...]

DEEPEST = 12  # names in a dotted key or header, brackets within brackets
MOST_NOTED = 1000  # entries of a list whose lines are kept
MOST_DIGITS = 40
MOST_EXPONENT = 30

_BLANK = re.compile(r"(?:[ \t\r\n]|#[^\n]*)*")
_NAME = re.compile(r"""[ \t]*(?:([A-Za-z0-9_-]+)|"((?:[^"\\\n]|\\.)*+)"|'([^'\n]*)')[ \t]*""")
# possessive (*+, ++): an unclosed string must not set off a search through every split of it
_TOKEN = re.compile(
    r'"""(?:[^"\\]++|\\.|"(?!""))*+(?:"""(?:"{1,2}(?!"))?|\\?\Z)'
    r"|'''(?:[^']++|'(?!''))*+(?:'''(?:'{1,2}(?!'))?|\Z)"
    r'|"(?:[^"\\\n]++|\\[^\n])*+"?'
    r"|'[^'\n]*+'?"
    r"|#[^\n]*+"
    r"|[\[\]{},\n]",
    re.DOTALL,
)


class Unusable(Struct, frozen=True):
    """A number in the file that is refused, as it was written."""

    text: str


# a number in base 16, 8 or 2; in base 10 Python's own int() refuses what is too long
_LONG_WHOLE = re.compile(r"(?<![\w.])0[xob][0-9A-Fa-f_]{500,}")


class BadToml(Exception):
    """The text is not TOML; `line` and `column` count from 1, 0 when unknown."""

    def __init__(self, message: str, line: int = 0, column: int = 0) -> None:
        super().__init__(message)
        self.message, self.line, self.column = message, line, column


class Lines(Struct, frozen=True):
    """Where each key stands. Paths hold names and, for lists, places counted from 0."""

    at: Mapping[KeyPath, int]

    def of(self, path: KeyPath) -> int:
        """The line of the key, or of the nearest enclosing table; 1 for the file itself."""
        for end in range(len(path), 0, -1):
            line = self.at.get(path[:end])
            if line is not None:
                return line
        return 1


def read_toml(text: str) -> tuple[dict[str, Any], Lines]:
    """The values (decimal numbers as written, exact) and the line of every key.

    Raises:
        BadToml: it is not TOML, or nests deeper than `DEEPEST`.
    """
    import tomllib

    text = text.removeprefix("\ufeff")
    lines = lines_of(text)
    if long := _LONG_WHOLE.search(text):
        # Python can hold it and then cannot print it, so no message about it could be written
        raise BadToml(
            "a whole number has thousands of digits", text.count("\n", 0, long.start()) + 1
        )
    try:
        return tomllib.loads(text, parse_float=_number), lines
    except tomllib.TOMLDecodeError as error:
        raise _bad(text, str(error)) from None
    except (ValueError, RecursionError):
        # tomllib gives no place for the one thing that Python's own int() refuses
        found = re.search(r"[0-9][0-9_]{4000,}", text)
        line = text.count("\n", 0, found.start()) + 1 if found else 1
        raise BadToml("a whole number has thousands of digits", line) from None


def _number(text: str) -> Decimal | Unusable:
    """An exact number, provided it is small enough to calculate with."""
    try:
        value = Decimal(text)
    except InvalidOperation:
        return Unusable(text)
    return value if is_usable(value) else Unusable(text)


def is_usable(value: Decimal) -> bool:
    """Whether a number is finite and neither absurdly long nor absurdly large or small."""
    if not value.is_finite() or len(value.as_tuple().digits) > MOST_DIGITS:
        return False
    exponent = value.as_tuple().exponent
    assert isinstance(exponent, int)
    return abs(exponent) <= MOST_EXPONENT and abs(value.adjusted()) <= MOST_EXPONENT


def _bad(text: str, message: str) -> BadToml:
    """tomllib says "… (at line 6, column 9)" or "… (at end of document)"."""
    found = re.fullmatch(r"(.*) \(at line (\d+), column (\d+)\)", message, re.DOTALL)
    if found:
        return BadToml(found[1], int(found[2]), int(found[3]))
    return BadToml(message.removesuffix(" (at end of document)"), text.rstrip().count("\n") + 1)


def lines_of(text: str) -> Lines:
    """The line of every key, in time that grows with the length of the text only.

    Raises:
        BadToml: something nests deeper than `DEEPEST`.
    """
    return _Finder(text).find()


class _Finder:
    """Scans the text once, statement by statement; syntax errors are left for tomllib to report."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.at: dict[KeyPath, int] = {}
        self.lists: dict[KeyPath, int] = {}  # arrays of tables -> how many so far
        self.header: KeyPath = ()
        self.line, self.counted = 1, 0

    def find(self) -> Lines:
        text, end = self.text, len(self.text)
        place = _skip(text, 0)
        while place < end:
            read = self._read_header if text[place] == "[" else self._read_pair
            place = _skip(text, read(place))
        return Lines(self.at)

    def _line_at(self, place: int) -> int:
        self.line += self.text.count("\n", self.counted, place)
        self.counted = place
        return self.line

    def _names(self, place: int) -> tuple[list[str], int]:
        """The dotted key at a position, and the position after it."""
        names: list[str] = []
        while found := _NAME.match(self.text, place):
            bare, double, single = found.groups()
            names.append(bare or (_unescaped(double) if double is not None else single or ""))
            if len(names) > DEEPEST:
                raise BadToml(f"names nest deeper than {DEEPEST}", self._line_at(place))
            place = found.end()
            if not self.text.startswith(".", place):
                break
            place += 1
        return names, place

    def _read_header(self, place: int) -> int:
        line = self._line_at(place)
        is_list = self.text.startswith("[[", place)
        names, place = self._names(place + (2 if is_list else 1))
        if names:
            self.header = self._entered(names, is_list, line)
        return self._line_end(place)

    def _entered(self, names: list[str], is_list: bool, line: int) -> KeyPath:
        path: KeyPath = ()
        for name in names[:-1]:
            path = (*path, name)
            self.at.setdefault(path, line)
            if path in self.lists:
                path = (*path, self.lists[path] - 1)
        path = (*path, names[-1])
        self.at.setdefault(path, line)
        if not is_list:
            return path
        index = self.lists.get(path, 0)
        self.lists[path] = index + 1
        path = (*path, index)
        self.at[path] = line
        return path

    def _read_pair(self, place: int) -> int:
        line = self._line_at(place)
        names, place = self._names(place)
        if not names or not self.text.startswith("=", place):
            return self._line_end(place)
        path = self.header
        for name in names:
            path = (*path, name)
            self.at.setdefault(path, line)
        return self._read_value(place + 1, path)

    def _read_value(self, place: int, path: KeyPath) -> int:
        """The place behind the value of a key."""
        found = _TOKEN.search(self.text, place)
        if found is None:
            return len(self.text)
        if found[0] in ("[", "{"):
            return self._read_brackets(found.start(), path)
        return found.start() if found[0] == "\n" else self._line_end(found.end())

    def _read_brackets(self, place: int, path: KeyPath) -> int:
        """The position after a list or inline table; notes where each entry of the list starts."""
        depth = index = dots = 0
        is_list = self.text[place] == "["
        for found in _TOKEN.finditer(self.text, place):
            token = found[0]
            dots = self._few_dots(dots, place, found.start())
            place = found.end()
            if token in ("[", "{"):
                depth = self._deeper(depth, place)
                dots = 0
            elif token in ("]", "}"):
                depth -= 1
            elif token == ",":
                dots = 0
            if depth == 0:
                return self._line_end(place)
            if depth == 1 and is_list and token in ("[", ",") and index <= MOST_NOTED:
                self._note_entry(path, index, place)
                index += 1
        return len(self.text)

    def _few_dots(self, dots: int, start: int, end: int) -> int:
        """Dots since the last comma: tomllib takes quadratic time for dotted keys in inline tables.

        Raises:
            BadToml: there are more than any key has.
        """
        dots += self.text.count(".", start, end)
        if dots > DEEPEST:
            raise BadToml(f"names nest deeper than {DEEPEST}", self._line_at(start))
        return dots

    def _deeper(self, depth: int, place: int) -> int:
        if depth == DEEPEST:
            raise BadToml(f"brackets nest deeper than {DEEPEST}", self._line_at(place))
        return depth + 1

    def _note_entry(self, path: KeyPath, index: int, place: int) -> None:
        place = _skip(self.text, place)
        if not self.text.startswith("]", place) and place < len(self.text):
            self.at[(*path, index)] = self._line_at(place)

    def _line_end(self, place: int) -> int:
        end = self.text.find("\n", place)
        return len(self.text) if end < 0 else end


def _skip(text: str, place: int) -> int:
    found = _BLANK.match(text, place)
    return found.end() if found else place


def _unescaped(text: str) -> str:
    if "\\" not in text:
        return text
    import tomllib

    try:
        return str(tomllib.loads(f'a = "{text}"')["a"])
    except tomllib.TOMLDecodeError:
        return text
