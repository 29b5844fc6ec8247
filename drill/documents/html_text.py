"""Texts and room to write for a page: notation raised and lowered, lines, boxes, squared paper."""

from __future__ import annotations

from itertools import groupby

from drill.documents.notation import Run, runs
from drill.documents.squared_paper import grid_svg
from drill.documents.values import AnswerLines, Block, Boxes, FinalAnswer, Form, Grid, Working
from drill.plaintext import escaped, harmless

_LONGEST = 20_000


def set_text(text: str) -> str:
    """A text with its notation as elements, made harmless; formulas stay on one line."""
    pieces = groupby(runs(harmless(text, _LONGEST)), key=lambda run: run.kept)
    return "".join(
        f'<span class="kept-together">{inner}</span>' if kept else inner
        for kept, inner in ((kept, "".join(map(_run, stretch))) for kept, stretch in pieces)
    )


def _run(run: Run) -> str:
    said = escaped(run.text)
    return f"<{run.place}>{said}</{run.place}>" if run.place else said


def room(block: Block) -> str:
    """Room to answer in; nothing that is read aloud but labels and units."""
    match block:
        case AnswerLines(lines):
            return f'<div aria-hidden="true">{"<div class=room></div>" * lines}</div>'
        case Working(lines):
            return f'<div aria-hidden="true">{"<div class=working></div>" * lines}</div>'
        case FinalAnswer(before, unit, unit_asked):
            second = ' unit <span class="unit"></span>' if unit_asked else f" {set_text(unit)}"
            return f'<p class="final">{escaped(before)} <span></span>{second.rstrip()}</p>'
        case Form(fields):
            inner = "".join(f"{escaped(a)} <span>{escaped(b)}</span>" for a, b in fields)
            return f'<p class="form">{inner}</p>'
        case Boxes(count):
            inner = '<span class="box"></span>' * count
            return f'<p class="boxes" aria-hidden="true">{inner}</p>'
        case Grid(across, up):
            return f"<figure>{grid_svg(across, up)}</figure>"
    raise TypeError(f"no block: {type(block).__name__}")
