"""A question's drawing is there, can be drawn, and fits a screen of 80 columns."""

from __future__ import annotations

from collections.abc import Iterator

from drill.checking.report import Finding
from drill.drawings import SHAPES, cells, picture_of, scale_drawing
from drill.errors import DrillError
from drill.model import Question, Template

COLUMNS, ROWS = 80, 17


def picture_can_be_drawn(template: Template, question: Question) -> Iterator[Finding]:
    """The file of `picture` is a drawing of ours, and `scale` an instrument we draw."""
    if question.picture and question.scale is not None:
        says = "a question has a picture or a scale, not both."
        yield Finding("picture", template.lines.get("scale", 0), says, "Keep one of them.")
    if question.picture:
        yield from _picture(template, question)
    if question.scale is not None:
        line = template.lines.get("scale", 0)
        if question.scale.shape not in SHAPES:
            says = f'no instrument has the shape "{question.scale.shape}".'
            yield Finding("scale", line, says, f"Known: {', '.join(SHAPES)}.")
        elif scale_drawing(question.scale).width > 2 * COLUMNS:
            says = f"the {question.scale.name} is too wide for a screen of {COLUMNS} columns."
            yield Finding("scale width", line, says, "Number its lines more often.")


def _picture(template: Template, question: Question) -> Iterator[Finding]:
    try:
        cells(picture_of(question).drawing, COLUMNS, ROWS)
    except DrillError as error:
        says = f"{str(error).rstrip('.')}."
        yield Finding(f"picture {question.picture}", template.lines.get("picture", 0), says, "")
