"""What can go wrong, as values: faults in authors' files, and the one exception of our own.

A fault in a file somebody wrote is a `Problem`: it is gathered with the others and shown with its
place. `DrillError` is for what the user of a command can mend (a wrong name, a newer database).
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from drill.plaintext import counted, harmless


class DrillError(Exception):
    """Something the user can put right; the command line prints it as one line and exits 1."""


class WrongValue(DrillError):
    """An option, or an argument, with a value it cannot have; the command line exits 2."""


@dataclass(frozen=True, order=True)
class Problem:
    """One fault in one author's file.

    `line` and `column` count from 1; 0 means the place is not known more closely. `level` is
    "error" (the file is not used) or "note" (it is used all the same).
    """

    path: str
    line: int
    column: int
    message: str
    hint: str = ""
    level: str = "error"

    def __str__(self) -> str:
        place = f"{self.path}:{self.line}" if self.line else self.path
        text = f"{place}: {self.message}"
        return harmless(f"{text} {self.hint}" if self.hint else text, 20_000)

    def as_row(self) -> dict[str, str | int]:
        """The problem as one JSON row."""
        return {
            "path": self.path,
            "line": self.line,
            "column": self.column,
            "level": self.level,
            "message": self.message,
            "hint": self.hint,
        }


def problems_as_text(problems: Iterable[Problem], files: int) -> str:
    """All problems sorted by place, then one closing line that counts them.

    Args:
        problems: in any order.
        files: how many files were looked at.
    """
    ordered = sorted(problems)
    if not ordered:
        return f"no problems ({counted(files, 'file')} checked)"
    in_files = len({problem.path for problem in ordered})
    lines = [str(problem) for problem in ordered]
    errors = sum(problem.level == "error" for problem in ordered)
    found = [counted(errors, "problem") if errors else "no problems"]
    found += [counted(len(ordered) - errors, "note")] if errors < len(ordered) else []
    where = f"in {counted(in_files, 'file')} ({counted(files, 'file')} checked)"
    lines.append(f"{', '.join(found)} {where}")
    return "\n".join(lines)
