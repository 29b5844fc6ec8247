"""A second judge for every number: another parser, another table of units, other arithmetic.

It shares no module with `drill.quantities`, so that a bug there cannot hide itself. Formulas are
parsed by Python's `ast`; units, functions and rounding are written again from their published
definitions; molar masses and facts are read again from the bank's files. It takes an author's text
and a finished question, and reports where they differ.

doubts(case, template, question) -> list[Doubt]         by exact arithmetic
proof_doubts(case, template, question) -> list[Doubt]   by sympy, from the same trees
never_met(case, seed) -> Iterator[str]                  requirements that can never hold
"""

from drill.judge.doubts import Doubt
from drill.judge.judge import doubts
from drill.judge.proof import never_met, proof_doubts
from drill.judge.world import Case

__all__ = ["Case", "Doubt", "doubts", "never_met", "proof_doubts"]
