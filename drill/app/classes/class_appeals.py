"""Marks of a class that wait for its teacher, and what the teacher decided.

Pupils' answers are on their own machines; here lies what they handed in. A decision is kept beside
it, becomes a sample answer here, and reaches its pupil in the next handout.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta, timezone
from typing import TYPE_CHECKING, Any

from drill.app.classes.class_merge import BY_HAND
from drill.app.classes.class_questions import Questions
from drill.app.classes.class_room import (
    ClassRoom,
    Decision,
    class_named,
    classes,
    contests_decision,
)
from drill.app.pictures import words_for_picture
from drill.errors import DrillError
from drill.model import Mark, PointMark
from drill.plaintext import one_line

if TYPE_CHECKING:
    from drill.app.appeals import Appeal
    from drill.bank import Bank
    from drill.exchange.hand_in import HandedIn

_MOST_LOOKED = 2000
"""Written answers looked at for doubts, so that a year group does not take minutes."""


@dataclass(frozen=True)
class ClassMark:
    """A mark of a class: the room it lies in, the pupil's code, and what was handed in.

    `name` is the one of the teacher's list, or "".
    """

    room: ClassRoom
    learner: str
    code: str
    name: str
    row: HandedIn

    @property
    def is_settled(self) -> bool:
        """Whether a person in charge has judged."""
        return self.row.judge in BY_HAND and self.row.appeal is None

    @property
    def waits(self) -> bool:
        """Whether the pupil contests it or the marker was not sure."""
        return self.row.appeal is not None or bool(self.row.unsure)

    def points(self) -> tuple[PointMark, ...]:
        """The points as they were marked on the pupil's machine."""
        unsure = self.row.unsure.split()
        return tuple(
            PointMark(id_, marks, of, "", id_ in unsure)
            for id_, marks, of in json.loads(self.row.points)
        )


def class_marks(code: str = "", settled: bool = False) -> Iterator[ClassMark]:
    """Every answer of every class here that nobody has settled yet; with `settled` those too."""
    for name in classes():
        room = class_named(name)
        names = room.names()
        for who, one in room.handed_in():
            if code and who.casefold() != code.casefold():
                continue
            called = names.get(who.casefold(), "")
            marks = (ClassMark(room, one.learner, who, called, row) for row in one.rows)
            yield from (mark for mark in marks if settled or not mark.is_settled)


def class_appeals(bank: Bank, code: str = "") -> list[Appeal]:
    """Contested marks, those not sure of, and those a second reading doubts."""
    questions, found, looked = Questions(bank), [], 0
    for mark in class_marks(code):
        if mark.waits:
            found.append(_appeal(mark, questions, "contested" if mark.row.appeal else "not sure"))
        elif mark.row.item.kind == "written" and looked < _MOST_LOOKED:
            looked += 1
            if _doubts(mark, questions):
                found.append(_appeal(mark, questions, "doubted"))
    return found


def _doubts(mark: ClassMark, questions: Questions) -> tuple[Any, ...]:
    from drill.checking.doubted import doubted

    part = questions.part(mark.row.item, mark.row.seed)
    given = {point.id: point.marks for point in mark.points()}
    return doubted(part, mark.row.text, given) if part else ()


def _appeal(mark: ClassMark, questions: Questions, why: str) -> Appeal:
    from drill.app.appeals import (
        Appeal,
        AppealPoint,
        options_of,
        points_in_words,
        scheme_lines,
        short_id,
    )

    row = mark.row
    question, part = questions.question(row.item, row.seed), questions.part(row.item, row.seed)
    says = points_in_words(part)
    when = datetime.fromtimestamp(row.at / 1000, UTC)
    local = when.astimezone(timezone(timedelta(minutes=row.zone)))
    points = mark.points()
    return Appeal(
        id=short_id(row.answer),
        learner=mark.code,
        when=local.isoformat(timespec="minutes"),
        why=why,
        reason=row.appeal,
        template=row.item.template,
        seed=row.seed,
        version=row.item.version,
        part=row.item.part,
        question=question.text if question else None,
        ask=part.ask if part else None,
        model_answer=part.model_answer if part else None,
        answer=row.text,
        marks=sum(point.marks for point in points),
        of=sum(point.of for point in points),
        says="",
        points=tuple(
            AppealPoint(one.id, says.get(one.id, one.id), one.marks, one.of, "", one.unsure)
            for one in points
        ),
        lines=scheme_lines(part, row.text),
        of_class=mark.room.title,
        options=options_of(part),
        name=mark.name,
        picture=words_for_picture(question),
    )


def find_in_class(id: str) -> ClassMark | None:
    """The mark whose answer's id ends so; None when no class has it.

    Raises:
        DrillError: several have.
    """
    found = [
        mark for mark in class_marks(settled=True) if mark.row.answer.hex().endswith(id.casefold())
    ]
    if len({mark.row.answer for mark in found}) > 1:
        raise DrillError(f'more than one mark with the id "{one_line(id, 40)}".')
    return found[0] if found else None


def sameness(
    template: str, version: str, part: str, kind: str, seed: int, text: str
) -> tuple[object, ...]:
    """What two answers share when the same mark is right for both.

    Words mean the same whatever the numbers; a number or a letter only with the same seed.
    """
    return (
        template,
        version,
        part,
        seed if kind != "written" else 0,
        " ".join(text.casefold().split()),
    )


def settle_in_class(
    mark: ClassMark, points: Mapping[str, int], by: str, now: datetime, reply: str = ""
) -> Mark:
    """Keep a decision beside the class, where its report counts it, and the answer as a sample.

    Raises:
        DrillError: an unknown point, or marks it cannot earn.
    """
    from drill.sitting import judged, keep_sample

    row = mark.row
    before = mark.points()
    whole = Mark(row.marks, sum(point.of for point in before), before, "", None)
    verdict = judged(whole, points)
    given = {point.id: point.marks for point in verdict.points}
    mark.room.settle(
        mark.learner, row.answer.hex(), Decision(given, by, reply, contests_decision(row)), now
    )
    keep_sample(row.item.template, row.item.version, row.seed, row.item.part, row.text, given)
    return verdict
