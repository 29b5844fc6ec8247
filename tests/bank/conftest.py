"""The small bank of tests, and one-line ways to read text as the program would."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Sequence
from pathlib import Path

import pytest

from drill.bank import read_template
from drill.errors import Problem
from drill.model import Template

FILES = Path(__file__).parents[1] / "bank_files"


@pytest.fixture
def bank(tmp_path: Path) -> Path:
    """A copy of the good bank, free to be spoilt."""
    return Path(shutil.copytree(FILES / "good" / "bank", tmp_path / "bank"))


@pytest.fixture(scope="session")
def good() -> Path:
    """The good bank itself, to be read only."""
    return FILES / "good" / "bank"


HEAD = """\
format = 1
title = "A question"
skills = ["calc.mean"]
command_word = "calculate"
course = ["combined higher"]
"""


@pytest.fixture
def read(good: Path, tmp_path: Path) -> Callable[[str], Template]:
    """A question of the five usual first lines and the text given; it must have no problems."""

    def reading(text: str) -> Template:
        template = read_template(_written(tmp_path, HEAD + text), good)
        assert isinstance(template, Template), listed(template, tmp_path)
        return template

    return reading


@pytest.fixture
def problems(good: Path, tmp_path: Path) -> Callable[[str], list[str]]:
    """What is wrong with such a question, as "line: message hint"; the text starts on line 6."""

    def finding(text: str) -> list[str]:
        path = _written(tmp_path, HEAD + text)
        template = read_template(path, good)
        assert not isinstance(template, Template), "it has no problems"
        return [str(problem).removeprefix(f"{path}:") for problem in template]

    return finding


def _written(folder: Path, text: str) -> Path:
    path = folder / "salts" / "question.toml"
    path.parent.mkdir(exist_ok=True)
    path.write_text(text, encoding="utf-8")
    return path


def listed(problems: Sequence[Problem], folder: Path) -> str:
    """Problems a line each, paths below a folder."""
    return "".join(f"{problem}\n" for problem in problems).replace(f"{folder}/", "")
