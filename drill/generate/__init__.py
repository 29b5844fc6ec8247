"""From a template and a seed to a question: draws, texts, keys, worked answers.

generate(template, seed) -> Question | Problem    the same pair, the same question, for ever
choose(seed, name, n) -> int                      one number of the draw stream, 0 to n - 1
prove(template, question) -> list[Problem]        where sympy does not agree with our arithmetic
prove_readings(template) -> list[Problem]         where Python's grammar does not agree with ours
names_in(text) -> frozenset[str]                  the names an author's text prints
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from drill.generate.draws.people import PEOPLE
from drill.generate.draws.stream import choose
from drill.generate.question import generate
from drill.generate.text.articles import article
from drill.generate.text.fill import names_in

if TYPE_CHECKING:
    from drill.errors import Problem
    from drill.model import Question, Template

__all__ = ["PEOPLE", "article", "choose", "generate", "names_in", "prove", "prove_readings"]


def prove(template: Template, question: Question) -> list[Problem]:
    """See `drill.generate.proof.proving`; imported only when a bank is checked, with sympy."""
    from drill.generate.proof import proving as proof

    return proof.prove(template, question)


def prove_readings(template: Template) -> list[Problem]:
    """See `drill.generate.proof.proving`."""
    from drill.generate.proof import proving as proof

    return proof.prove_readings(template)
