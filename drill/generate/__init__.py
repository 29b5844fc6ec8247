"""From a template and a seed to a question: draws, texts, keys, worked answers.

generate(template, seed) -> Question | Problem    the same pair always gives the same question
choose(seed, name, n) -> int                      one random number from the seed, 0 to n - 1
names_in(text) -> frozenset[str]                  the names an author's text prints
"""

from __future__ import annotations

from drill.generate.draws.people import PEOPLE
from drill.generate.draws.stream import choose
from drill.generate.question import generate
from drill.generate.text.articles import article
from drill.generate.text.fill import names_in

__all__ = ["PEOPLE", "article", "choose", "generate", "names_in"]
