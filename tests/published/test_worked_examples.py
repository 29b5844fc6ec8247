"""Published worked examples, worked through our own expressions with their units.

Numbers only, from OpenStax Chemistry 2e (CC BY-NC-SA 4.0), OpenStax Physics for high schools
(CC BY 4.0) and OpenStax College Physics 2e; each case names its example. An answer is right when
it rounds to what the book prints, at the book's own precision: half up or, as OpenStax does, half
to even. Where the book rounds a value on the way, the step says so with sig(). Examples whose
print contradicts itself are left out (Chemistry 2e example 5.7; example 5.5's unit slip is told
beside it).

Relative masses: Prohaska and others, Standard atomic weights of the elements 2021 (IUPAC
Technical Report), Pure Appl. Chem. 94 (2022), abridged to five figures.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from drill.quantities import (
    Expression,
    FactsRow,
    Quantity,
    Step,
    Value,
    decimals_of,
    half_even,
    half_up,
    parse,
    run_steps,
    unit_of,
)
from drill.subjects import subject
from tests.published.worked_examples import EXAMPLES, Example

_MASSES = """H 1.008 C 12.011 N 14.007 O 15.999 Na 22.990 Mg 24.305 Al 26.982 Si 28.085 S 32.06
Cl 35.45 K 39.098 Ca 40.078 Fe 55.845 Cu 63.546 Ga 69.723 Ag 107.87 Ba 137.33 Be 9.0122"""


def quantity(text: str) -> Quantity:
    number, _, spelled = text.strip().partition(" ")
    unit = unit_of(spelled)
    assert unit is not None, spelled
    return Quantity(Fraction(number), unit)


def givens_of(example: Example) -> dict[str, Value]:
    pairs = [given.split("=") for given in example.givens.split(";") if given]
    masses = _MASSES.split()
    cells = {s: quantity(f"{m} g/mol") for s, m in zip(masses[::2], masses[1::2], strict=True)}
    return {name.strip(): quantity(value) for name, value in pairs} | {
        "M": FactsRow("atomic weights", "abridged", cells)
    }


def steps_of(example: Example) -> list[Step]:
    steps = []
    for line in example.work.split("; "):
        head, _, text = line.partition(" = ")
        name, _, unit = head.rstrip("]").partition(" [")
        expression = parse(text, subject("chemistry").functions)
        assert isinstance(expression, Expression), expression
        steps.append(Step(name, expression, unit))
    return steps


def rounded_as(printed: str, value: Fraction) -> set[Fraction]:
    """The value at the precision of the print; "2.1e5" is a print to two figures."""
    mantissa, _, power = printed.partition("e")
    places = decimals_of(mantissa) - int(power or 0)
    return {half_up(value, places), half_even(value, places)}


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda example: example.source)
def test_the_published_answer_comes_out(example: Example) -> None:
    steps = steps_of(example)
    values = run_steps(steps, givens_of(example))
    assert isinstance(values, dict), values
    answer = values[steps[-1].name]
    assert isinstance(answer, Quantity)
    assert Fraction(example.printed) in rounded_as(example.printed, answer.value)


def test_the_limiting_reactants_are_the_published_ones() -> None:
    """OpenStax Chemistry 2e example 4.12 (silicon) and its check your learning (oxygen)."""
    first = Example(
        "", "si=2.00 g; n2=1.50 g", 'x [mol] = si / M("Si") / 3; y [mol] = n2 / M("N2") / 2', ""
    )
    second = Example(
        "", "h2=5.00 g; o2=10.0 g", 'x [mol] = h2 / M("H2") / 2; y [mol] = o2 / M("O2")', ""
    )
    for example, silicon_like in ((first, True), (second, False)):
        text = "x < y" if silicon_like else "y < x"
        expression = parse(text, subject("chemistry").functions)
        assert isinstance(expression, Expression)
        values = run_steps([*steps_of(example), Step("less", expression)], givens_of(example))
        assert isinstance(values, dict)
        assert values["less"] is True


def test_there_are_enough_examples_and_each_names_its_own_place() -> None:
    sources = [example.source for example in EXAMPLES]
    assert len(set(sources)) == len(sources) >= 40
