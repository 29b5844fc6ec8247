"""A wrong reading tells from which height the scale was read; a burette counts downwards."""

from __future__ import annotations

from fractions import Fraction

import pytest

from drill.app.papers.reading_height import ABOVE, BELOW, seen_from
from drill.generate import generate
from drill.marking import mark
from drill.model import NumberKey, Question
from tests.common.shipped import shipped_bank

BANK = shipped_bank()


@pytest.mark.parametrize(
    ("template", "lines", "told"),
    [
        ("measure/read-cylinder", "1.5", ABOVE),
        ("measure/read-cylinder", "-1.5", BELOW),
        ("measure/read-burette", "-1.5", ABOVE),
        ("measure/read-burette", "1.5", BELOW),
        ("measure/read-cylinder", "4", ""),
        ("measure/read-cylinder", "0", ""),
        ("measure/read-ruler", "1.5", ""),
    ],
)
def test_the_way_it_is_off_tells_the_height(template: str, lines: str, told: str) -> None:
    found = BANK.template(template)
    assert not isinstance(found, tuple)
    question = generate(found, 5)
    assert isinstance(question, Question)
    assert question.scale is not None
    part = next(part for part in question.parts if part.kind == "reading")
    assert isinstance(part.key, NumberKey)
    read = question.scale.reading + Fraction(lines) * question.scale.division
    given = mark(part, f"{float(read):.6g} {question.scale.unit}")
    assert seen_from(given, part.key, question.scale) == told
