"""What is printed is what a pupil works with: a key worked from more digits is told."""

from __future__ import annotations

from pathlib import Path

import pytest

from drill.checking import check
from tests.checking.proving import bank

HYDRATE = """\
format = 1
title = "Water of crystallisation"
skills = ["calc.mass-by-difference"]
command_word = "calculate"
course = ["combined higher"]
[draw]
crucible = { from = 24.00, to = 25.00, step = 0.01, unit = "g" }
salt = { from = 1.21, to = 1.69, step = 0.02, unit = "g" }
[work]
before = { is = "BEFORE", unit = "g", decimals = 2 }
after = { is = "crucible + salt", unit = "g", decimals = 2 }
water = { is = "before - after", unit = "g", called = "mass of water" }
moles = { is = "water / (18 in g/mol)", unit = "mol", called = "amount of water" }
[[part]]
kind = "number"
ask = "Before heating: {before}. After heating: {after}. Calculate the mass of water lost."
answer = "water"
[[part]]
kind = "number"
ask = "Calculate the amount of water in moles."
answer = "moles"
"""
EXACT = "crucible + salt + 5 * 18 * salt / 120"


def _said(folder: Path, before: str) -> list[str]:
    made = bank(folder, hydrate=HYDRATE.replace("BEFORE", before))
    report = check([made], made, seeds=10)
    return [f"{p.line} {p.message} {p.hint}" for p in report.problems if "printed" in p.message]


def test_a_printed_value_that_is_not_rounded_in_its_formula_is_told(tmp_path: Path) -> None:
    said = _said(tmp_path, EXACT)
    assert any(
        one.startswith("10 before is printed as ")
        and "is worked from it" in one
        and "Write round(…, 2)." in one
        for one in said
    ), said


def test_what_the_marker_forgives_as_rounding_on_the_way_is_told_too(tmp_path: Path) -> None:
    """26.4825 g is printed as 26.48 g: 1.04 either way, but 0.0578 mol, and the key is 0.0579."""
    fixed = HYDRATE.replace("from = 24.00, to = 25.00, step = 0.01", "one_of = [24.05]")
    fixed = fixed.replace("from = 1.21, to = 1.69, step = 0.02", "one_of = [1.39]")
    made = bank(tmp_path, hydrate=fixed.replace("BEFORE", EXACT))
    report = check([made], made, seeds=3)
    said = [str(one) for one in report.problems if "is printed as" in one.message]
    assert len(said) == 1, [str(one) for one in report.problems]
    assert "before is printed as 26.48 g but is 26.48" in said[0]
    assert "part b is worked from it" in said[0]
    assert "Write round(…, 2)." in said[0]


@pytest.mark.parametrize("before", [f"round({EXACT}, 2)"])
def test_one_that_is_rounded_is_not(tmp_path: Path, before: str) -> None:
    assert _said(tmp_path, before) == []
