"""sympy agrees with the arithmetic of questions, and would say so if it did not."""

from __future__ import annotations

from fractions import Fraction

import pytest

from drill.checking import check
from drill.frozen import replace
from drill.judge import never_met
from drill.model import NumberKey, Question
from drill.quantities import Expression, parse
from tests.generate.making import FOLDER, HEAD, NAMES, question, template, written
from tests.judge.helpers import by_sympy, case, said


@pytest.mark.parametrize("name", NAMES)
def test_good_templates_are_proved(name):
    of = template(name)
    for seed in range(6):
        assert said(of, question(of, seed)) == []
        assert by_sympy(of, question(of, seed)) == []


EVERY_FUNCTION = """
[draw]
a = { from = 2, to = 9, step = 1 }
b = { from = 11, to = 19, step = 1, unit = "cm3" }
t = { readings = 5, centre = 24.0, spread = 0.2, step = 0.05, unit = "cm3", anomaly = true }
[work]
r = { is = "round(a / 7, 2) + sig(a / 3, 2) + floor(a / 2) + ceil(a / 2)" }
s = { is = "sqrt(a) * log10(a) + abs(3 - a) ^ 2" }
good = { is = "drop_anomaly(t)", unit = "cm3" }
m = { is = "mean(good) + half_range(good) + range(t) + median(t)", unit = "cm3" }
n = { is = "max(good) - min(t) + sum(concordant(t, 0.1))", unit = "cm3" }
g = { is = "gradient(a, b, a + 5, 2 * b)", unit = "cm3" }
p = { is = "percent_of(b, m) + percent_change(b, m) + percent_error(b, m)", unit = "%" }
i = { is = "if(a > 5, b, 2 * b) in dm3", unit = "dm3" }
w = { is = 'M("CuSO4.5H2O") * a', unit = "g/mol" }
l = { is = "mean(t in dm3) + mean(drop(t, first(t)) in dm3)", unit = "dm3" }
c = { is = "count(t) * -a + first(t) / last(t)" }
[[part]]
kind = "number"
ask = "{a} {b} {t}"
answer = "p"
"""


def test_every_function_is_proved():
    of = written(EVERY_FUNCTION)
    for seed in range(12):
        assert said(of, question(of, seed)) == []
        assert by_sympy(of, question(of, seed)) == []


SLIPS = """
[draw]
whole = { from = 40, to = 60, step = 1, unit = "g" }
part = { from = 5, to = 20, step = 1, unit = "g" }
[work]
rest = { is = "whole - part", unit = "g", decimals = 0 }
share = { is = "100 * part / whole", unit = "%" }
[[part]]
kind = "number"
ask = "{whole} {rest}"
answer = "share"
figures = 3
"""


def with_slip(gives: str) -> str:
    return f'{SLIPS}[[part.slip]]\nid = "s"\ngives = "{gives}"\nsays = "x"\n'


def unnoticed(gives: str) -> Question:
    """The question with that slip put past the check that redraws, as rounding could."""
    of = written(with_slip("100 * whole / part"))
    made = question(of, 1)
    key = made.parts[0].key
    assert isinstance(key, NumberKey)
    read = parse(gives)
    assert isinstance(read, Expression)
    slip = replace(key.slips[0], gives=read)
    return replace(made, parts=(replace(made.parts[0], key=replace(key, slips=(slip,))),))


@pytest.mark.parametrize(
    "gives", ["100 * (whole - rest) / whole", "100 - 100 * rest / whole", "100 / (whole / part)"]
)
def test_a_slip_that_is_the_answer_is_found(gives):
    of = written(with_slip("100 * whole / part"))
    assert by_sympy(of, unnoticed(gives)) == [
        '18: the slip "s" is the right answer, written in another way. Take it out.'
    ]


def test_a_slip_with_another_value_is_found():
    of = written(with_slip("100 * whole / part"))
    (found,) = by_sympy(of, unnoticed("whole / part"))
    assert found.endswith("to sympy it is another value. Report this fault.")


def test_a_wrong_key_is_found():
    of = written(with_slip("100 * whole / part"))
    made = question(of, 1)
    key = made.parts[0].key
    assert isinstance(key, NumberKey)
    wrong = replace(key, value=key.value + Fraction(1, 10**9))
    made = replace(made, parts=(replace(made.parts[0], key=wrong),))
    (found,) = by_sympy(of, made)
    assert found.startswith("13: the answer is ")


NEVER = """
[draw]
a = { from = 2, to = 9, step = 1 }
[work]
b = { is = "3 * a" }
[require]
"b is larger by more than all of a" = "b - 2 * a > a"
"a is small" = "a < 100"
[[part]]
kind = "number"
ask = "{a}"
answer = "b"
"""


def test_a_requirement_that_can_never_hold_is_named(tmp_path):
    assert list(never_met(case(written(NEVER)), 3)) == ["b is larger by more than all of a"]
    path = tmp_path / "tests" / "question.toml"
    path.parent.mkdir()
    path.write_text(HEAD + NEVER, "utf-8")
    (problem,) = check([path], FOLDER, 5, 1).problems
    assert "does not depend on what is drawn, and is never met" in str(problem)


def test_one_that_can_hold_is_not_named():
    of = written(NEVER.replace("b - 2 * a > a", "b - a > 100"))
    assert list(never_met(case(of), 3)) == []
