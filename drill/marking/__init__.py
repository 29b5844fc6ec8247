"""Marking: a part and what was typed become a `Mark`, by rules a teacher can read.

mark(part, typed, earlier) -> Mark      never raises, whatever is typed
RULES                                   general kind of part -> the rule that marks it
rule_of(part)                           the same for a subject's kinds too
MARKER                                  number of these rules, kept with every verdict
"""

from __future__ import annotations

from drill.marking.marker import MARKER, RULES, mark, rule_of

__all__ = ["MARKER", "RULES", "mark", "rule_of"]
