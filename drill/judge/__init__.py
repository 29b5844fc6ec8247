"""A second judge for every number: another parser, another table of units, other arithmetic.

It shares no module with `drill.quantities`: formulas are read by Python's `ast`, units come from
their published definitions, functions and rounding from theirs, molar masses and facts from the
bank's files. It is given an author's text and a finished question, and says where they differ.

doubts(case, template, question) -> list[Doubt]         by exact arithmetic
proof_doubts(case, template, question) -> list[Doubt]   by sympy, from the same trees
never_met(case, seed) -> Iterator[str]                  requirements that can never hold
"""

from drill.judge.doubts import Doubt
from drill.judge.judge import doubts
from drill.judge.proof import never_met, proof_doubts
from drill.judge.world import Case

__all__ = ["Case", "Doubt", "doubts", "never_met", "proof_doubts"]
