"""Which rule marks which kind of part, and the promise that no answer can stop a sitting."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from contextlib import suppress
from fractions import Fraction
from typing import Any

from drill.frozen import replace
from drill.marking.numeric.number import mark_number
from drill.marking.numeric.table import mark_table
from drill.marking.short.choice import mark_choice
from drill.marking.short.name import mark_name
from drill.marking.short.order import mark_order
from drill.marking.written.levels import mark_levels
from drill.marking.written.written_answer import mark_written
from drill.model import Mark, Part, PointMark
from drill.places import note_fault
from drill.subjects import subject
from drill.typed.awarding import nothing
from drill.typed.typed_text import tidy

# raised whenever some answer would be marked differently; the hash of lexicons and
# of what was learned from samples is added by callers
MARKER = "16"

Rule = Callable[[Part, str, Mapping[str, Fraction]], Mark]

# a rule takes the part with its own kind of key; which key goes with which kind is settled here
RULES: Mapping[str, Callable[[Any, str, Mapping[str, Fraction]], Mark]] = {
    "number": mark_number,
    "reading": mark_number,
    "choice": mark_choice,
    "name": mark_name,
    "order": mark_order,
    "written": mark_written,
    "table": mark_table,
    "levels": mark_levels,
}


def mark(part: Part, typed: str, earlier: Mapping[str, Fraction] = {}) -> Mark:
    """The verdict on what was typed; an empty answer is 0 and never an error.

    Args:
        part: one part of a question, with its key.
        typed: as it came from the keyboard; only the first 4,000 characters are read.
        earlier: part id -> `Mark.value` of this question's earlier parts, in their units.
    """
    text = tidy(typed)
    if not text:
        empty = nothing(part, "Nothing was answered.")
        return replace(empty, self_marked=part.kind == "levels")
    try:
        return rule_of(part)(part, text, earlier)
    except Exception as fault:  # ours must not cost a learner the sitting: a person decides
        with suppress(OSError):
            note_fault(fault)
        return _unmarked(part)


def rule_of(part: Part) -> Rule:
    """The rule of its kind, general or of the part's subject."""
    general = RULES.get(part.kind)
    if general is not None:
        return general
    own = subject(part.subject).kind(part.kind)
    assert own is not None, part.kind
    return own.mark


def _unmarked(part: Part) -> Mark:
    points = tuple(
        PointMark(point.id, 0, point.marks, "could not be marked", unsure=True)
        for point in part.points
    )
    says = "Could not be marked by the program: compare it with the worked answer."
    return Mark(0, part.marks, points, says)
