"""Whole questions before the judge: every number of a good one stands, one that is off is named."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

import pytest

from drill.frozen import field_names, replace
from drill.judge.author import formulas, raw_of
from drill.model import NumberKey, Question, Template
from drill.quantities import Expression, FactsRow, Quantity
from tests.common.shipped import templates
from tests.generate.making import question, written
from tests.judge.helpers import said

WHOLE = """
stem = "A student has {sample} of a solid and {many}."
[draw]
sample = { from = 4.00, to = 6.00, step = 0.01, unit = "g" }
many = { readings = 4, centre = 24.0, spread = 0.2, step = 0.05, unit = "cm3" }
metal = { one_of = ["zinc", "iron"] }
[work]
left = { is = "round(sample * 0.4, 2)", unit = "g", decimals = 2, called = "mass left" }
share = { is = "100 * left / sample", unit = "%", called = "percentage left" }
best = { is = "mean(concordant(many, 0.15))", unit = "cm3" }
[require]
"the mass is not small" = "sample > 4.5"
[[part]]
kind = "number"
ask = "{sample}, of which {left} are left. Work out the percentage."
answer = "share"
figures = 3
award = { value = 1, figures = 1 }
[[part.slip]]
id = "inverted"
gives = "100 * sample / left"
says = "Turn it over: {left} is the part."
[[part]]
kind = "choice"
ask = "Which is it?"
[[part.option]]
text = "more than {left}"
right_when = 'metal == "zinc"'
says = "It is zinc."
[[part.option]]
text = "less than {left}"
right_when = 'not metal == "zinc"'
says = "It is {metal}."
[[part]]
kind = "table"
ask = "{many}"
[part.cells.mean]
answer = "best"
decimals = 2
"""


def whole(seed: int = 3) -> tuple[Template, Question]:
    of = written(WHOLE)
    return of, question(of, seed)


def key_of(made: Question) -> NumberKey:
    key = made.parts[0].key
    assert isinstance(key, NumberKey)
    return key


def with_part(made: Question, index: int, **changes: object) -> Question:
    parts = list(made.parts)
    parts[index] = replace(parts[index], **changes)  # type: ignore[arg-type]
    return replace(made, parts=tuple(parts))


def with_key(made: Question, **changes: object) -> Question:
    return with_part(made, 0, key=replace(key_of(made), **changes))  # type: ignore[arg-type]


def test_a_good_question_stands():
    of = written(WHOLE)
    assert [said(of, question(of, seed)) for seed in range(20)] == [[]] * 20


OFF = Fraction(1, 10**9)
CHANGES = {
    "the answer of part a is": lambda made: with_key(made, value=key_of(made).value + OFF),
    "the answer of part a is ": lambda made: with_key(made, unit="g"),
    "places": lambda made: with_key(made, figures=2),
    "what is accepted": lambda made: with_key(made, low=Fraction(1), high=Fraction(99)),
    'the slip "inverted" of part a is': lambda made: with_key(
        made, slips=(replace(key_of(made).slips[0], value=key_of(made).value),)
    ),
    "; to the second judge it is 2": lambda made: with_key(
        made, slips=(replace(key_of(made).slips[0], text="2.5 g"),)
    ),
    "the slips of part a": lambda made: with_key(made, slips=()),
    "mark scheme": lambda made: with_part(
        made, 0, points=(made.parts[0].points[0]._replace(says="1.0 %"),)
    ),
    "the answer of part a": lambda made: with_part(made, 0, model_answer="12 %"),
    "does not hold": lambda made: with_part(
        made, 0, worked=made.parts[0].worked.replace(" ÷ ", " + ")
    ),
    "stem": lambda made: replace(made, text=made.text.replace(" g", " kg")),
    "the ask of part a": lambda made: with_part(
        made, 0, ask=made.parts[0].ask.replace(" g", "0 g")
    ),
    "option A of part b": lambda made: with_part(
        made,
        1,
        key=made.parts[1].key._replace(
            options=tuple(
                one._replace(right=not one.right) for one in made.parts[1].key.options
            )
        ),
    ),
}  # fmt: skip


@pytest.mark.parametrize("about", CHANGES)
def test_a_number_that_is_off_is_named(about):
    of, made = whole()
    changed = CHANGES[about](made)
    assert changed != made
    assert any(about.strip() in one for one in said(of, changed)), said(of, changed)


def test_other_numbers_than_the_seed_draws_are_named():
    of, _ = whole(3)
    assert said(of, replace(question(of, 4), seed=3))


def test_a_line_is_the_one_where_it_stands():
    of, made = whole()
    (found,) = said(of, with_key(made, slips=(replace(key_of(made).slips[0], value=Fraction(1)),)))
    assert found.startswith(f"{of.parts[0].slips[0].line}: ")


def everything(value: object) -> Iterator[Expression]:
    """Every formula anywhere inside a template."""
    if isinstance(value, Expression):
        yield value
    elif isinstance(value, Mapping):
        yield from (one for item in value.values() for one in everything(item))
    elif isinstance(value, tuple):
        yield from (one for item in value for one in everything(item))
    elif not isinstance(value, str | float | int | None | Quantity | FactsRow):
        yield from (one for name in field_names(value) for one in everything(getattr(value, name)))


def test_no_formula_of_the_shipped_bank_is_passed_over():
    for of in templates():
        assert {one.text for one in everything(of)} == set(formulas(raw_of(of.text))), of.id
