"""Spoilt questions: whatever a slip of the hand leaves behind gives words, not a crash."""

from __future__ import annotations

import random
import time
from pathlib import Path

import pytest

from drill.bank import read_template
from drill.model import Template
from tests.common.mutations import MUTATIONS

from .conftest import FILES

GOOD = FILES / "good" / "bank"
QUESTIONS = sorted(GOOD.glob("*/*.toml"))


@pytest.mark.parametrize("name", MUTATIONS)
def test_a_spoilt_question_loads_or_says_where(name: str, tmp_path: Path) -> None:
    path = tmp_path / "salts" / "spoilt.toml"
    path.parent.mkdir()
    for seed in range(6):
        rng = random.Random(f"{name} {seed}")
        original = rng.choice(QUESTIONS).read_text(encoding="utf-8")
        rows = MUTATIONS[name](original.splitlines(), rng)
        path.write_text("\n".join(rows), encoding="utf-8", newline="")
        check(path)


def check(path: Path) -> None:
    start = time.process_time()
    found = read_template(path, GOOD)
    assert time.process_time() - start < 2
    if isinstance(found, Template):
        return
    assert found
    last = path.read_text(encoding="utf-8").count("\n") + 1
    for problem in found:
        assert 1 <= problem.line <= last, problem
        assert problem.message.endswith("."), problem
        assert str(problem).isprintable(), problem
        assert len(str(problem)) < 900, problem


@pytest.mark.parametrize("key", ["format", "seconds", "retired"])
def test_a_whole_number_too_long_to_print_is_named_by_its_line(key: str, tmp_path: Path) -> None:
    path = tmp_path / "salts" / "spoilt.toml"
    path.parent.mkdir()
    path.write_text(f"# mine\n{key} = 0x{'f' * 5000}\n", encoding="utf-8")
    found = read_template(path, GOOD)
    assert [(problem.line, problem.message) for problem in found] == [
        (2, "cannot be read as TOML: a whole number has thousands of digits.")
    ]
