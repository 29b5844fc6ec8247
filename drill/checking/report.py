"""The result of checking: the problems in authors' files, and a row for every template."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from drill.bank import read_passed
from drill.bank import write_passed as write_list
from drill.errors import Problem

Row = Mapping[str, Any]


@dataclass(frozen=True)
class Finding:
    """A fault in one instance; how many other instances have it is counted later.

    `check` and `line` tell findings apart; `says` shows the values seen, `hint` what to do.
    `always`: it is reported only if every instance has it.
    """

    check: str
    line: int
    says: str
    hint: str = ""
    level: str = "error"
    always: bool = False


@dataclass(frozen=True)
class Report:
    """`files` were looked at; `rows` hold, for each template that could be read, its id, version,
    seeds, distinct instances, sample answers, and whether it passed.
    """

    problems: tuple[Problem, ...]
    files: int
    rows: tuple[Row, ...]

    @property
    def passed(self) -> bool:
        """Whether nothing was found but notes."""
        return all(problem.level != "error" for problem in self.problems)


def write_passed(report: Report, folder: Path) -> None:
    """Bring the bank's passed.csv up to date with what was checked.

    What passed is written with its version, what failed or is gone is taken out; templates that
    were not looked at keep their line.

    Raises:
        OSError: the bank's folder cannot be written to.
    """
    passed = dict(read_passed(folder))
    for row in report.rows:
        passed.pop(row["template"], None)
        if row["passed"]:
            passed[row["template"]] = row["version"]
    kept = {id_: version for id_, version in passed.items() if (folder / f"{id_}.toml").is_file()}
    write_list(folder, kept)
