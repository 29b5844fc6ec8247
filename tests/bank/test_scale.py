"""An author's `scale`: its examples are read, and what is wrong with one is said at its line."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest

from drill.bank import read_template
from drill.bank.schema.template_schema import SCALE, TEMPLATE
from drill.generate import generate
from drill.model import Question, Template
from tests.bank.conftest import HEAD

INSTRUMENTS = """\
id,shape,name,unit,low (),high (),division (),spaces (),source
cylinder_50,cylinder,50 cm3 measuring cylinder,cm3,0,50,1,10,common practice
"""

QUESTION = """\
{scale}
[draw]
cylinder = {{ row_of = "instruments" }}
level = {{ from = 21.5, to = 21.5, step = 1, unit = "cm3" }}
plain = {{ from = 3, to = 4, step = 1 }}
[[part]]
kind = "reading"
ask = "Read the volume."
answer = "level"
unit = "cm3"
"""

Read = Callable[[str], Template | list[str]]


@pytest.fixture
def read(tmp_path: Path) -> Read:
    """A question with this line for its scale, or what is wrong with it, as "line: message"."""
    (tmp_path / "facts").mkdir()
    (tmp_path / "facts" / "instruments.csv").write_text(INSTRUMENTS, encoding="utf-8")
    path = tmp_path / "measure" / "question.toml"
    path.parent.mkdir()

    def reading(scale: str) -> Template | list[str]:
        path.write_text(HEAD + QUESTION.format(scale=scale), encoding="utf-8")
        template = read_template(path, tmp_path)
        if isinstance(template, Template):
            return template
        return [str(problem).removeprefix(f"{path}:") for problem in template]

    return reading


def test_the_examples_of_the_docs_are_read(read: Read) -> None:
    whole = next(key.example for key in TEMPLATE if key.name == "scale")
    pieces = "scale = { " + ", ".join(key.example for key in SCALE) + " }"
    for line in (whole, pieces):
        assert isinstance(read(line), Template)


def test_the_numbers_of_the_row_and_the_reading_reach_the_question(read: Read) -> None:
    template = read('scale = { of = "cylinder", reads = "level" }')
    assert isinstance(template, Template)
    question = generate(template, 3)
    assert isinstance(question, Question)
    scale = question.scale
    assert scale is not None
    assert (scale.shape, scale.reading, scale.division) == ("cylinder", Fraction(43, 2), 1)
    assert (scale.low, scale.high, scale.spaces, scale.unit) == (0, 50, 10, "cm3")


@pytest.mark.parametrize(
    ("line", "message"),
    [
        ('scale = { of = "plain", reads = "level" }', 'no draw "plain" holds a row of facts.'),
        ('scale = { of = "cylindre", reads = "level" }', "Did you mean"),
        ('scale = { of = "cylinder", reads = "levle" }', 'no draw or step is called "levle"'),
        ('scale = { of = "cylinder" }', "reads is missing"),
        ('scale = "cylinder"', "scale must be a table"),
    ],
)
def test_a_fault_is_said_at_its_line(read: Read, line: str, message: str) -> None:
    found = read(line)
    assert isinstance(found, list)
    assert any(message in problem and problem.startswith("6:") for problem in found), found


def test_a_reading_that_is_not_on_the_scale_is_a_problem(read: Read) -> None:
    template = read('scale = { of = "cylinder", reads = "level + level + level" }')
    assert isinstance(template, Template)
    assert "has no such reading" in str(generate(template, 1))
