"""Collects the faults in one author's file, each with the line of its key."""

from __future__ import annotations

from collections.abc import Iterable

from drill.bank.files.toml_lines import KeyPath, Lines
from drill.errors import Problem
from drill.plaintext import nearest as nearest_word
from drill.plaintext import one_line
from drill.quantities import Fault


class Faults:
    """The faults found in one file. Reading continues after each, so all are shown at once."""

    def __init__(self, path: str, lines: Lines, text: str = "") -> None:
        self.path, self.lines, self._text = path, lines, text
        self.found: list[Problem] = []

    def add(self, where: KeyPath, message: str, hint: str = "", level: str = "error") -> None:
        """A fault at a key: what is wrong with the value seen, then what to do."""
        self.found.append(Problem(self.path, self.lines.of(where), 0, message, hint, level))

    def add_fault(self, where: KeyPath, text: str, fault: Fault) -> None:
        """A formula that cannot be read; its column is converted to a column in the file."""
        line = self.lines.of(where)
        name = _called(where)
        message = f"{name}: {_sentence(fault.message)}"
        if fault.column and len(text) > 1:
            message = f'{name}, character {fault.column} of "{one_line(text, 60)}": '
            message += _sentence(fault.message)
        column = self._column(line, text, fault.column)
        self.found.append(Problem(self.path, line, column, message, fault.hint))

    def _column(self, line: int, text: str, column: int) -> int:
        """The column in the file, if the whole formula is on that line; else 0."""
        rows = self._text.splitlines()
        row = rows[line - 1] if 0 < line <= len(rows) else ""
        start = max(row.find(f'"{text}"'), row.find(f"'{text}'"))
        return start + 1 + column if start >= 0 and column else 0

    def problems(self) -> tuple[Problem, ...]:
        """All of them in order of place, each once."""
        return tuple(sorted(set(self.found)))


def _called(where: KeyPath) -> str:
    """What an author calls this formula: the step of [work], a draw and its key, else the key."""
    names = [step for step in where if isinstance(step, str)]
    if len(names) == 3 and names[0] == "work":
        return names[1]
    if len(names) == 3 and names[0] == "draw":
        return f"{names[1]}, {names[2]}"
    return names[-1] if names else "formula"


def _sentence(message: str) -> str:
    return message if message.endswith((".", "?", "!")) else f"{message}."


def nearest(wrong: str, known: Iterable[str]) -> str:
    """`Did you mean "…"?` when a known word is close, else "" (difflib loads slowly)."""
    near = nearest_word(wrong, known)
    return f'Did you mean "{near}"?' if near else ""


def nearest_or_all(wrong: str, known: Iterable[str], most: int = 12) -> str:
    """The nearest known word; without one, all of them when they are few."""
    choices = list(dict.fromkeys(known))
    near = nearest(wrong, choices)
    if near or not choices:
        return near
    listed = ", ".join(choices[:most])
    if not listed:
        return ""
    return f"There are: {listed}." if len(choices) <= most else f"There are {listed}, …"
