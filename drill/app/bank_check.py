"""Templates proved, and the files that a teacher's paths, folders and ids mean."""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from drill.errors import DrillError, Problem
from drill.places import bank_dir

if TYPE_CHECKING:
    from drill.checking import Report


@dataclass(frozen=True)
class CheckedTemplate:
    """The result for one template that could be read.

    `distinct` questions came of `seeds` seeds; `samples` sample answers were marked.
    """

    template: str
    path: str
    version: str
    seeds: int
    distinct: int
    draws: bool
    samples: int
    unproven: bool
    problems: int
    passed: bool


@dataclass(frozen=True)
class BankFindings:
    """Every problem in order of place, and a row a template."""

    problems: tuple[Problem, ...]
    templates: tuple[CheckedTemplate, ...]


def check_bank(
    names: Sequence[str],
    seeds: int,
    jobs: int = 0,
    on_progress: Callable[[int, int], None] | None = None,
    stamp: bool = False,
) -> tuple[BankFindings, int]:
    """Prove templates; also returns how many files were looked at.

    Args:
        names: files, folders or ids; none: the whole bank.
        jobs: processes; 0: one a core.
        stamp: learn from the sample answers, then write the bank's passed.csv for those that pass.

    Raises:
        DrillError: a name means no template.
    """
    from drill.checking import check, fit, write_passed
    from drill.sitting import settled_dir

    folder = bank_dir()
    files, jobs = template_files(names, folder), jobs or os.cpu_count() or 1
    if stamp:
        fit(files, folder)  # first: what is learned from samples changes marks
    report = check(files, folder, seeds, jobs, on_progress, settled_dir())
    if stamp:
        write_passed(report, folder)
    return _findings(report), report.files


def _findings(report: Report) -> BankFindings:
    rows = tuple(CheckedTemplate(**row) for row in report.rows)
    return BankFindings(tuple(sorted(report.problems)), rows)


def template_files(names: Sequence[str], folder: Path) -> list[Path]:
    """The template files meant by paths, folders or ids; all of the bank when none is named.

    Raises:
        DrillError: a name means no template.
    """
    if not names:
        return sorted(folder.glob("*/*.toml"))
    return [file for name in names for file in _files(name, folder)]


def _files(name: str, folder: Path) -> list[Path]:
    path = Path(name)
    if path.is_dir():
        return _inside(path, folder)
    if path.is_file():
        return [path]
    file = folder / f"{name.replace('.', '/')}.toml"
    if not file.is_file():
        raise DrillError(f'there is no template, file or folder "{name}".')
    return [file]


def _inside(path: Path, folder: Path) -> list[Path]:
    """Every template below a folder; files such as the skills and the lexicon are not templates."""
    top = folder.resolve()
    files = [one for one in sorted(path.rglob("*.toml")) if one.resolve().parent != top]
    if not files:
        raise DrillError(f'the folder "{path}" holds no template: its name ends in .toml.')
    return files
