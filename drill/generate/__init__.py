"""From a template and a seed to a question: draws, texts, keys, worked answers.

generate(template, seed) -> Question | Problem    the same pair, the same question, for ever
choose(seed, name, n) -> int                      one number of the draw stream, 0 to n - 1
"""

from __future__ import annotations

from drill.generate.question import generate
from drill.generate.stream import choose

__all__ = ["choose", "generate"]
