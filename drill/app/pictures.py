"""The drawing that belongs to a question, and the words that stand for it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from drill.errors import DrillError

if TYPE_CHECKING:
    from drill.drawings import Drawing
    from drill.model import Question


def drawing_of(question: Question) -> tuple[Drawing, str]:
    """The scale or picture of a question that has one, and the same in words.

    Raises:
        DrillError: the drawing is not there or is no drawing.
    """
    from drill.drawings import picture_of, scale_drawing, scale_in_words

    if question.scale is not None:
        return scale_drawing(question.scale), scale_in_words(question.scale)
    picture = picture_of(question)
    return picture.drawing, picture.words


def picture_in_words(question: Question) -> str | None:
    """What stands for the drawing where it cannot be seen; None when there is none.

    Raises:
        DrillError: the drawing is not there or is no drawing.
    """
    if question.graph is not None:
        from drill.drawings import graph_in_words

        return graph_in_words(question.graph)
    return drawing_of(question)[1] if question.picture or question.scale else None


def words_for_picture(question: Question | None) -> str:
    """The same as a text; "" where there is no drawing, or none that can be drawn."""
    try:
        return (question and picture_in_words(question)) or ""
    except DrillError:
        return ""


def vectors_of(question: Question) -> str:
    """The drawing or graph of a question as an SVG element for a page; "" when it has none.

    Raises:
        DrillError: the drawing is not there or is no drawing.
    """
    from drill.drawings import graph_as_svg, picture_as_svg, picture_of, scale_as_svg

    if question.graph is not None:
        return graph_as_svg(question.graph)
    if question.scale is not None:
        return scale_as_svg(question.scale)
    if not question.picture:
        return ""
    return picture_as_svg(picture_of(question))
