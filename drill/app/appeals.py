"""Marks that wait for a teacher or tutor: contested ones, and those the marker was not sure of."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import TYPE_CHECKING

from drill.app.context import existing_learner
from drill.app.pictures import words_for_picture
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

    `why` it is here: contested, not sure, or doubted by a second reading. `lines` of the scheme
    decided, for a written answer. `options` are those of a choice,
    as the pupil saw them. `of_class`: the class whose work it came with, "" for answers of
    this machine; `name` is the pupil's on its list. `picture`: the drawing in words.

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
    lines: tuple[str, ...] = ()
    of_class: str = ""
    options: tuple[str, ...] = ()
    name: str = ""
    picture: str = ""


def judge_of(by: str) -> str:
    """The person deciding, if they are allowed to.

    Raises:
        DrillError: it is neither teacher nor tutor.
    """
    from drill.sitting import JUDGES

    if by not in JUDGES:
        raise WrongValue(f'--by "{one_line(by, 40)}": it is one of {", ".join(JUDGES)}.')
    return by


def appeals(store: Store, bank: Bank, code: str = "") -> list[Appeal]:
    """Marks waiting, of one learner or of everybody here, and of the classes gathered here.

    Contested ones first, then those not sure of, then those a second reading doubts; most marks
    first among these.
    """
    from drill.app.classes.class_appeals import class_appeals

    known = code and any(who.code.casefold() == code.casefold() for who in store.learners())
    ours = [] if code and not known else _here(store, bank, code)
    found = [*ours, *class_appeals(bank, code)]
    if code and not found and not known:
        existing_learner(store, code)  # says who there is
    return sorted(found, key=_first)


_ORDER = ("contested", "not sure", "doubted")


def _first(row: Appeal) -> tuple[object, ...]:
    most = -row.of if row.why == "doubted" else 0
    return _ORDER.index(row.why), most, row.when


def _here(store: Store, bank: Bank, code: str) -> list[Appeal]:
    waiting = _open_marks(store, code)
    rows = [_row(store, bank, mark) for mark in waiting]
    open_ids = {mark.answer.id for mark in waiting}
    learners = [existing_learner(store, code)] if code else store.learners()
    for mark in (mark for who in learners for mark in store.marked(who)):
        if mark.answer.id not in open_ids and (row := _doubted(store, bank, mark)) is not None:
            rows.append(row)
    return rows


def _doubted(store: Store, bank: Bank, mark: OpenMark) -> Appeal | None:
    """The mark where a second reading doubts it and nobody has settled it."""
    verdict, typed = mark.answer.verdict, mark.answer.text
    if verdict is None or verdict.by != "engine" or len(typed.split()) < 2:
        return None
    from drill.checking.doubted import doubted
    from drill.sitting import as_asked, part_of

    entry = bank.entry(mark.asking.template)
    if entry is None or "written" not in entry.kinds:
        return None
    part = part_of(as_asked(store, bank, mark.asking), mark.answer.part)
    given = {point.id: point.marks for point in verdict.mark.points}
    if part is None or not doubted(part, typed, given):
        return None
    return replace(_row(store, bank, mark), why="doubted")


def scheme_lines(part: Part | None, typed: str) -> tuple[str, ...]:
    """The lines of a written part's scheme that met an answer."""
    if part is None or part.kind != "written":
        return ()
    from drill.checking.close_look import look_closely

    return tuple(
        f"{point.id}, {line}" for point in look_closely(part, typed).points for line in point.lines
    )


def settle_appeal(
    store: Store, id: str, points: Mapping[str, int], by: str, now: datetime, reply: str = ""
) -> Mark:
    """Store a person's marks for the mark with that id; returns the mark now in force.

    A mark that was settled may be settled again: the last word counts.

    Args:
        id: as a row has it, or at least its last four digits.
        points: marks given, by marking point; a point left out keeps what it has.
        reply: a line to the pupil, told with the mark; "" for none.

    Raises:
        DrillError: no mark, or several, have the id; an unknown point or marks.
    """
    from drill.app.classes.class_appeals import find_in_class, settle_in_class
    from drill.sitting import settle

    if len(id) >= 4 and not any(_ends(one, id) for who in store.learners()
                                for one in store.marked(who)):  # fmt: skip
        theirs = find_in_class(id)
        if theirs is not None:
            return settle_in_class(theirs, points, by, now, reply)
    waiting = _open_marks(store, "")
    settled = [mark for who in store.learners() for mark in store.marked(who) if _ends(mark, id)]
    chosen = waiting if any(_ends(mark, id) for mark in waiting) else settled
    return settle(store, _wanted(chosen, id), points, by, now, reply)


def equal_answers(store: Store, bank: Bank, id: str) -> list[str]:
    """Ids of other answers that say the same to the same part, and that nobody has settled."""
    from drill.app.classes.class_appeals import class_marks, sameness

    every: dict[str, tuple[tuple[object, ...], bool]] = {}
    for mark in (mark for who in store.learners() for mark in store.marked(who)):
        asking, answer, verdict = mark.asking, mark.answer, mark.answer.verdict
        entry = bank.entry(asking.template)
        written = entry is not None and "written" in entry.kinds
        same = sameness(asking.template, asking.version, answer.part,
                        "written" if written else "", asking.seed, answer.text)  # fmt: skip
        every[answer.id.hex()] = same, verdict is not None and verdict.settled
    for theirs in class_marks(settled=True):
        item, row = theirs.row.item, theirs.row
        same = sameness(item.template, item.version, item.part, item.kind, row.seed, row.text)
        every.setdefault(row.answer.hex(), (same, theirs.is_settled))
    wanted = [same for key, (same, _) in every.items() if key.endswith(id.casefold())]
    return [
        key
        for key, (same, done) in every.items()
        if wanted and same == wanted[0] and not done and not key.endswith(id.casefold())
    ]


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
    says = points_in_words(part)
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
        lines=scheme_lines(part, answer.text),
        options=options_of(part),
        picture=words_for_picture(question),
    )


def options_of(part: Part | None) -> tuple[str, ...]:
    """The options or steps with their letters, as the pupil saw them."""
    return tuple(f"{letter}  {text}" for letter, text in part.lettered) if part else ()


def points_in_words(part: Part | None) -> dict[str, str]:
    """{point: what it wants}."""
    if part is not None and part.kind == "levels":
        return {"level": part.points[0].says}
    return {point.id: point.says for point in part.points} if part else {}


def _point(point: PointMark, says: str) -> AppealPoint:
    return AppealPoint(point.id, says, point.marks, point.of, point.because, point.unsure)
