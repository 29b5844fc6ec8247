"""Marks from paper become verdicts by paper, on askings without typed text."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from typing import TYPE_CHECKING, NamedTuple

from drill.app.papers.paper_making import SETTING
from drill.app.papers.paper_marks import (
    KeptPaper,
    MarksSheet,
    PaperItemKept,
    PupilMarks,
    in_words,
    kept_paper,
    read_marks,
)
from drill.errors import DrillError

if TYPE_CHECKING:
    from drill.bank import Bank
    from drill.model import Mark
    from drill.store import AnswerRow, AskingRow, Learner, Store


@dataclass(frozen=True)
class EnteredPaper:
    """A pupil's paper; `state` is new, corrected or unchanged, `name` the class list's or ""."""

    pupil: str
    paper: str
    marks: int
    of: int
    state: str
    name: str = ""


class PartMark(NamedTuple):
    """Marks of a part, None where it was not tried; `answer` is its id where it has one already."""

    marks: int | None
    of: int
    answer: bytes | None = None


@dataclass(frozen=True)
class Entered:
    """What a sheet brought; `empty` are pupils in it without any marks."""

    pupils: tuple[EnteredPaper, ...]
    empty: tuple[str, ...]


def enter(
    store: Store, file: str, new_pupils: bool, now: datetime, class_name: str = ""
) -> Entered:
    """Store the marks of a sheet, all of them or none.

    The same sheet again stores nothing twice; a mark that was changed in it is corrected.

    Args:
        new_pupils: a code that nobody has here is given to somebody new.
        class_name: pupils of this class, by its list or what they handed in, are known, too.

    Raises:
        DrillError: anything in it is in doubt, every doubt with its line.
    """

    def paper_of(code: str) -> KeptPaper | None:
        return kept_paper(code, store.setting(None, SETTING + code))

    from drill.app.classes.class_pupil import names_in_classes

    sheet = read_marks(file, paper_of)
    known = {learner.code.casefold(): learner for learner in store.learners()}
    doubts = list(sheet.doubts)
    if not new_pupils:
        here = {*known, *(_of_class(class_name) if class_name else ())}
        doubts += [_unknown(row) for row in sheet.rows if row.pupil.casefold() not in here]
    if doubts:
        raise DrillError("\n".join(in_words(MarksSheet((), (), tuple(doubts)), file)))
    done, names = [], names_in_classes()
    for row in sheet.rows:
        who = known.get(row.pupil.casefold()) or store.new_learner(row.pupil, now)
        state = _store(store, who, row, now)
        name = names.get(who.code.casefold(), "")
        done.append(EnteredPaper(who.code, row.paper.code, row.total, row.paper.marks, state, name))
    return Entered(tuple(done), sheet.empty)


def hand_to_class(
    store: Store, bank: Bank, entered: Entered, class_name: str, now: datetime
) -> str:
    """Count the entered pupils' answers of this computer in a class's report, too.

    They stand beside what the same codes handed in; only marks from paper are taken, so that what
    somebody practised on this computer is theirs to hand in. Returns the class's name.

    Raises:
        DrillError: no such class was gathered here.
    """
    from drill.app.classes.class_merge import merged
    from drill.app.classes.class_room import class_named
    from drill.app.classes.hand_in import handed_in

    room = class_named(class_name)
    pupils = {row.pupil for row in entered.pupils}
    as_there = {code.casefold(): code for code in room.codes()}
    for who in store.learners():
        if who.code in pupils:
            here = handed_in(store, bank, who, now)
            here = replace(here, rows=tuple(row for row in here.rows if row.judge == "paper"))
            here = replace(here, code=as_there.get(who.code.casefold(), who.code))
            room.keep(merged(room.kept(here.learner), here))
    return room.title


def _of_class(name: str) -> set[str]:
    """The codes of a class in small letters: of its list, and of who handed in."""
    from drill.app.classes.class_room import class_named

    room = class_named(name)
    return {*room.names(), *(code.casefold() for code in room.codes())}


def _unknown(row: PupilMarks) -> str:
    return (
        f'line {row.line}: nobody has the code "{row.pupil}" on this computer. Mend it, or let '
        "--new add whoever is not here yet."
    )


def _store(store: Store, who: Learner, row: PupilMarks, now: datetime) -> str:
    """One pupil's paper; what is there already stays."""
    there = {(asking.version, asking.seed): asking for asking in store.askings(who)}
    sitting: bytes | None = None
    states = set()
    for number, item in enumerate(row.paper.items):
        marks = {
            letter: PartMark(row.marks[name], of)
            for name, place, letter, of in row.paper.columns
            if place == number
        }
        asking = there.get((item.version, item.seed))
        if asking is None:
            goal = {"questions": len(row.paper.items)}
            sitting = sitting or store.start_sitting(who, row.paper.deck, now, goal)
            asking = new_asking(store, sitting, who, item, now)
        states.add(judge_parts(store, asking, marks, f"paper {row.paper.code}", now))
    if sitting is not None:
        store.end_sitting(sitting, now, "done")
        return "new"
    return "corrected" if states & {"new", "corrected"} else "unchanged"


def new_asking(
    store: Store, sitting: bytes, who: Learner, item: PaperItemKept, now: datetime
) -> AskingRow:
    """A question of a paper, as one that was put; its text must have been kept before."""
    from drill.store import NewAsking

    new = NewAsking(sitting, who, item.version, item.template, item.seed, item.skill, False)
    return store.asking(store.ask(new, now))


def judge_parts(
    store: Store, asking: AskingRow, marks: Mapping[str, PartMark], marker: str, now: datetime
) -> str:
    """A verdict for each part that has none by paper yet, or another one.

    Returns:
        new, corrected or unchanged.
    """
    by_part = {answer.part: answer for answer in asking.answers}
    state = "unchanged"
    for letter, one in marks.items():
        answer = by_part.get(letter)
        if answer is not None and (answer.text or _marks_of(answer) == (one.marks or 0)):
            continue  # what was typed keeps its own mark
        state = "corrected" if answer else "new"
        kind = "pass" if one.marks is None else "paper"
        id = (
            answer.id
            if answer
            else store.answer(asking.id, letter, "", kind, None, 0.0, now, one.answer)
        )
        store.verdict(id, "paper", marker, _mark(one.marks or 0, one.of), now)
    return state


def _marks_of(answer: AnswerRow) -> int | None:
    return answer.mark.marks if answer.mark else None


def _mark(marks: int, of: int) -> Mark:
    from drill.model import Mark

    return Mark(marks, of, (), "")
