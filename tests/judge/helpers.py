"""Short ways to work a formula out with the judge, and to hold a question before it."""

from __future__ import annotations

from drill.generate import PEOPLE
from drill.judge import Case, doubts, proof_doubts
from drill.judge.amounts import Amount, Value
from drill.judge.author import exact
from drill.judge.units import unit_of
from drill.judge.working import worked
from drill.model import Question, Template
from tests.generate.making import FOLDER


def amount(text: str) -> Amount:
    """ "25.0 cm3" as the judge has it."""
    number, _, unit = text.partition(" ")
    return Amount(exact(number), unit_of(unit))


def amounts(text: str) -> tuple[Amount, ...]:
    """ "24.10 24.00 cm3": numbers of one unit."""
    *numbers, unit = text.split(" ")
    return tuple(amount(f"{number} {unit}") for number in numbers)


def shown(text: str, **names: str | Value) -> str:
    """What a formula comes to, "12.40 g"; names given with a number are amounts."""
    env = {
        name: amount(value) if isinstance(value, str) and value[:1] in "-.0123456789" else value
        for name, value in names.items()
    }
    value = worked(text, env)
    if isinstance(value, tuple):
        return " ".join(one if isinstance(one, str) else one.shown() for one in value)
    return value.shown() if isinstance(value, Amount) else str(value)


def case(of: Template) -> Case:
    """A template of the tests, with the facts of the tests' bank."""
    return Case(of.id, of.text, FOLDER, PEOPLE)


def said(of: Template, made: Question) -> list[str]:
    """What the judge says of a question, each with its line."""
    return [f"{one.line}: {one.says}" for one in doubts(case(of), of, made)]


def by_sympy(of: Template, made: Question) -> list[str]:
    """What sympy says of it."""
    return [f"{one.line}: {one.says} {one.hint}" for one in proof_doubts(case(of), of, made)]
