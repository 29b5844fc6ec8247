"""Templates written on the spot and checked; helpers of these tests only."""

from __future__ import annotations

import shutil
from pathlib import Path

from drill.checking import Report, check

BANK = Path(__file__).parents[1] / "generate" / "templates"

GOOD = """\
format = 1
title = "Mass by difference"
skills = ["calc.mass-by-difference"]
command_word = "calculate"
course = ["combined foundation"]
[draw]
basin = { from = 38.00, to = 60.00, step = 0.01, unit = "g" }
crystals = { from = 2.00, to = 6.00, step = 0.01, unit = "g" }
[work]
total = { is = "basin + crystals", unit = "g", decimals = 2 }
[[part]]
kind = "number"
ask = "The basin is {basin}. With crystals it is {total}. Calculate the mass of the crystals."
answer = "crystals"
decimals = 2
[[part.slip]]
id = "not-subtracted"
gives = "total"
says = "Take the basin away."
"""


def bank(folder: Path, **files: str) -> Path:
    """A bank with the facts of the test templates and these questions, in the folder `tests`."""
    shutil.copytree(BANK / "facts", folder / "facts", dirs_exist_ok=True)
    for name, text in files.items():
        path = folder / "tests" / f"{name}.toml"
        path.parent.mkdir(exist_ok=True)
        path.write_text(text, "utf-8")
    return folder


def checked(folder: Path, text: str, seeds: int = 60) -> Report:
    return check([bank(folder, question=text) / "tests" / "question.toml"], folder, seeds, 1)


def problems(folder: Path, text: str, seeds: int = 60) -> list[str]:
    """What `drill bank check` prints, each without its file's name."""
    report = checked(folder, text, seeds)
    return [str(problem).partition("question.toml:")[2] for problem in report.problems]
