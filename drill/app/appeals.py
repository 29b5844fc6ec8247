"""Marks that wait for a teacher or tutor: contested ones, and those the marker was not sure of."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING

from drill.app.context import existing_learner
from drill.errors import DrillError, WrongValue
from drill.plaintext import one_line

if TYPE_CHECKING:
    from drill.bank import Bank
    from drill.model import Mark, Part, PointMark
    from drill.store import OpenMark, Store


@dataclass(frozen=True)
class AppealPoint:
    """A marking point with the marks it has now."""

    id: str
    says: str
    marks: int
    of: int
    because: str
    unsure: bool


@dataclass(frozen=True)
class Appeal:
    """One mark with all that settling it needs: what was asked, the scheme, answer and reason.

    `question`, `ask` and `model_answer` are None when the question cannot be made as it was.
    """

    id: str
    learner: str
    when: str
    why: str
    reason: str | None
    template: str
    seed: int
    version: str
    part: str
    question: str | None
    ask: str | None
    model_answer: str | None
    answer: str
    marks: int
    of: int
    says: str
    points: tuple[AppealPoint, ...]


def judge_of(by: str) -> str:
    """Who decides, if it is one who may.

    Raises:
        DrillError: it is neither teacher nor tutor.
    """
    from drill.sitting import JUDGES

    if by not in JUDGES:
        raise WrongValue(f'--by "{one_line(by, 40)}": it is one of {", ".join(JUDGES)}.')
    return by


def appeals(store: Store, bank: Bank, code: str = "") -> list[Appeal]:
    """Marks waiting, contested ones first; of one learner, or of everybody here."""
    return [_row(store, bank, mark) for mark in _open_marks(store, code)]


def settle_appeal(store: Store, id: str, points: Mapping[str, int], by: str, now: datetime) -> Mark:
    """Store a person's marks for the mark with that id; returns the mark now in force.

    A mark that was settled may be settled again: the last word counts.

    Args:
        id: as a row has it, or at least its last four digits.
        points: marks given, by marking point; a point left out keeps what it has.

    Raises:
        DrillError: no mark, or several, have the id; an unknown point or marks.
    """
    from drill.sitting import settle

    waiting = _open_marks(store, "")
    settled = [mark for who in store.learners() for mark in store.marked(who) if _ends(mark, id)]
    chosen = waiting if any(_ends(mark, id) for mark in waiting) else settled
    return settle(store, _wanted(chosen, id), points, by, now)


@dataclass(frozen=True)
class OfferedMark:
    """A mark that somebody in charge gave on another machine; `given` would come for `marks`."""

    id: str
    learner: str
    template: str
    part: str
    answer: str
    marks: int
    given: int
    of: int
    note: str


def offered(store: Store, code: str = "") -> list[OfferedMark]:
    """Marks from other machines that nobody accepted here; of one learner, or of everybody."""
    return [
        OfferedMark(
            short_id(mark.answer.id),
            mark.learner.code,
            mark.asking.template,
            mark.answer.part,
            mark.answer.text,
            mark.answer.mark.marks if mark.answer.mark else 0,
            mark.answer.offered.mark.marks,
            mark.answer.offered.mark.of,
            mark.answer.offered.note or "",
        )
        for mark in _offered(store, code)
        if mark.answer.offered is not None
    ]


def accept_marks(store: Store, code: str, now: datetime) -> int:
    """Let those marks count; returns how many."""
    waiting = _offered(store, code)
    for mark in waiting:
        assert mark.answer.offered is not None
        store.accept(mark.answer.offered.id, now)
    return len(waiting)


def _offered(store: Store, code: str) -> list[OpenMark]:
    learners = [existing_learner(store, code)] if code else store.learners()
    return [mark for learner in learners for mark in store.offered(learner)]


def short_id(answer: bytes) -> str:
    """The end of an answer's id, long enough to tell the marks of a class apart."""
    return answer.hex()[-8:]


def _open_marks(store: Store, code: str) -> list[OpenMark]:
    learners = [existing_learner(store, code)] if code else store.learners()
    marks = [mark for learner in learners for mark in store.open_marks(learner)]
    return sorted(marks, key=lambda mark: (mark.answer.appeal is None, mark.answer.when))


def _wanted(marks: Sequence[OpenMark], id: str) -> OpenMark:
    found = [mark for mark in marks if _ends(mark, id)]
    if len(found) != 1:
        what = "no mark" if not found else "more than one mark"
        shown = one_line(id, 40)
        raise DrillError(f'{what} with the id "{shown}". drill appeals --json lists them.')
    return found[0]


def _ends(mark: OpenMark, id: str) -> bool:
    return len(id) >= 4 and mark.answer.id.hex().endswith(id.lower())


def _row(store: Store, bank: Bank, mark: OpenMark) -> Appeal:
    """The mark with its question as it was asked."""
    from drill.sitting import as_asked, part_of

    question = as_asked(store, bank, mark.asking)
    part = part_of(question, mark.answer.part)
    answer, verdict = mark.answer, mark.answer.mark
    assert verdict is not None, "an open mark has been marked"
    says = _points_in_words(part)
    return Appeal(
        id=short_id(answer.id),
        learner=mark.learner.code,
        when=answer.when.isoformat(timespec="minutes"),
        why="contested" if answer.appeal is not None else "not sure",
        reason=answer.appeal,
        template=mark.asking.template,
        seed=mark.asking.seed,
        version=mark.asking.version,
        part=answer.part,
        question=question.text if question else None,
        ask=part.ask if part else None,
        model_answer=part.model_answer if part else None,
        answer=answer.text,
        marks=verdict.marks,
        of=verdict.of,
        says=verdict.says,
        points=tuple(_point(point, says.get(point.id, point.id)) for point in verdict.points),
    )


def _points_in_words(part: Part | None) -> dict[str, str]:
    if part is not None and part.kind == "levels":
        return {"level": part.points[0].says}
    return {point.id: point.says for point in part.points} if part else {}


def _point(point: PointMark, says: str) -> AppealPoint:
    return AppealPoint(point.id, says, point.marks, point.of, point.because, point.unsure)
