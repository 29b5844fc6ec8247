"""Templates for these tests: those in the folder beside this file, and texts on the spot."""

from __future__ import annotations

import tempfile
from functools import cache
from pathlib import Path

from drill.bank import read_template
from drill.errors import Problem
from drill.generate import generate
from drill.model import Part, Question, Template

FOLDER = Path(__file__).with_name("templates")
PATHS = sorted(FOLDER.glob("*/*.toml"))
NAMES = [path.relative_to(FOLDER).with_suffix("").as_posix() for path in PATHS]

HEAD = """\
format = 1
title = "A test"
skills = ["calc.test"]
command_word = "calculate"
course = ["combined foundation"]
"""


@cache
def template(name: str) -> Template:
    """One of the folder, as "salts/percentage-yield"."""
    read = read_template(FOLDER / f"{name}.toml", FOLDER)
    assert isinstance(read, Template), read
    return read


@cache
def written(text: str) -> Template:
    """A template of this text, its head put before it, with the folder's facts."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "tests" / "question.toml"
        path.parent.mkdir()
        path.write_text(HEAD + text, "utf-8")
        read = read_template(path, FOLDER)
    assert isinstance(read, Template), read
    return read


def question(of: Template, seed: int = 0) -> Question:
    made = generate(of, seed)
    assert isinstance(made, Question), made
    return made


def only_part(text: str, seed: int = 0) -> Part:
    """The first part of a template of this text."""
    return question(written(text), seed).parts[0]


def problem(text: str, seed: int = 0) -> str:
    """What stands in the way of a question, without its place."""
    made = generate(written(text), seed)
    assert isinstance(made, Problem), made
    return f"{made.line}: {made.message} {made.hint}"


def value_of(draw: str, name: str, seed: int = 0, before: str = "") -> str:
    """What a draw prints, "12.40 g"."""
    text = f"[draw]\n{before}\n{name} = {draw}\n"
    part = '[[part]]\nkind = "name"\nask = "{' + name + '}"\naccept = ["x"]\n'
    return only_part(text + part, seed).ask
