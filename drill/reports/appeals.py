"""Marks that wait for a teacher or tutor, as rows: contested ones, and those not sure of."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from drill.model import Part, PointMark, Question
    from drill.store import OpenMark


def short_id(answer: bytes) -> str:
    """The end of an answer's id, long enough to tell the marks of a class apart."""
    return answer.hex()[-8:]


def appeal_row(mark: OpenMark, question: Question | None, part: Part | None) -> dict[str, Any]:
    """One mark with all that settling it needs: what was asked, the scheme, answer and reason.

    Args:
        question: as it was asked; None when it cannot be made again (`question` is then null).
        part: the part of it that was answered.
    """
    answer, verdict = mark.answer, mark.answer.mark
    assert verdict is not None, "an open mark has been marked"
    says = {point.id: point.says for point in part.points} if part else {}
    if part is not None and part.kind == "levels":
        says = {"level": part.points[0].says}
    return {
        "id": short_id(answer.id),
        "learner": mark.learner.code,
        "when": answer.when.isoformat(timespec="minutes"),
        "why": "contested" if answer.appeal is not None else "not sure",
        "reason": answer.appeal,
        "template": mark.asking.template,
        "seed": mark.asking.seed,
        "version": mark.asking.version,
        "part": answer.part,
        "question": question.text if question else None,
        "ask": part.ask if part else None,
        "model_answer": part.model_answer if part else None,
        "answer": answer.text,
        "marks": verdict.marks,
        "of": verdict.of,
        "says": verdict.says,
        "points": [_point(point, says.get(point.id, point.id)) for point in verdict.points],
    }


def _point(point: PointMark, says: str) -> dict[str, Any]:
    return {
        "id": point.id,
        "says": says,
        "marks": point.marks,
        "of": point.of,
        "because": point.because,
        "unsure": point.unsure,
    }
