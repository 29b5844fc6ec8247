"""Whether every row and choice an author wrote down can really be drawn."""

from __future__ import annotations

from collections.abc import Iterator

from drill.errors import Problem
from drill.frozen import replace
from drill.generate import generate
from drill.model import Draw, Template
from drill.quantities import Quantity, Value

_SEEDS = (1, 2, 3)  # each with all its tries, before a value counts as out of reach


def check_reachable(template: Template) -> list[Problem]:
    """A problem for each row or choice with which no question can be made.

    Unsuitable numbers are drawn again, so such a row would never appear and nobody would notice.
    It is a note if the author's own requirement excludes the row, and an error otherwise.
    """
    return [
        problem
        for place, draw in enumerate(template.draws)
        for label, only in _alone(draw)
        if (problem := _out_of_reach(template, place, label, only)) is not None
    ]


def _alone(draw: Draw) -> Iterator[tuple[str, Draw]]:
    """For each row or choice: the draw with only that one left, and a name for it."""
    if draw.kind == "row" and len(draw.rows) > 1:
        for row in draw.rows:
            yield f'the row "{row.id}" of {draw.table}', replace(draw, rows=(row,))
    if draw.kind == "choice" and len(draw.choices) > 1:
        for value in draw.choices:
            yield f'the choice "{_text(value)}"', replace(draw, choices=(value,))


def _text(value: Value) -> str:
    return f"{float(value.value):g}" if isinstance(value, Quantity) else str(value)


def _out_of_reach(template: Template, place: int, label: str, only: Draw) -> Problem | None:
    draws = (*template.draws[:place], only, *template.draws[place + 1 :])
    alone = replace(template, draws=draws)
    reason: Problem | None = None
    for seed in _SEEDS:
        made = generate(alone, seed)
        if not isinstance(made, Problem):
            return None
        reason = made
    assert reason is not None
    why = reason.message.partition(" (seed ")[0]
    says = f'{label} can never be drawn for "{only.name}": {why}.'
    level = "note" if why.startswith("the requirement ") else "error"
    return Problem(
        template.path, only.line, 0, says, "Leave it out, or mend what rules it out.", level
    )
