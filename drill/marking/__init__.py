"""Marking: a part and what was typed become a `Mark`, by rules a teacher can read.

mark(part, typed, earlier) -> Mark      never raises, whatever is typed
RULES                                   general kind of part -> the rule that marks it
rule_of(part)                           the same for a subject's kinds too
MARKER                                  number of these rules, kept with every verdict

An order loses one mark for every step that has to be moved (common practice, no source), and is
worth at most one mark less than it has steps. A value rounded on the way is blamed only where the
answer has three figures: with two, too many ways lead to the same answer. A school's own word and
the bank's are both right. Extended answers are suggested a level, never given one: the learner sets
the mark, and it is counted apart.
"""

from __future__ import annotations

from drill.marking.marker import MARKER, RULES, mark, rule_of

__all__ = ["MARKER", "RULES", "mark", "rule_of"]
