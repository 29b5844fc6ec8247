"""Stored answers marked again, after a mark scheme or the marker has changed.

Only what the engine judged alone is looked at: a teacher's, a paper's and a learner's verdict
stand. Nothing is stored until `store_changes` is called with what `changes` showed.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING

from drill.frozen import replace
from drill.sitting.stored_question import as_asked, as_now, part_of, same_question

if TYPE_CHECKING:
    from fractions import Fraction

    from drill.bank import Bank
    from drill.model import Mark, Question
    from drill.store import AnswerRow, AskingRow, Learner, Store


@dataclass(frozen=True)
class Change:
    """An answer whose mark would be another one."""

    learner: Learner
    asking: AskingRow
    answer: AnswerRow
    old: Mark
    new: Mark


@dataclass(frozen=True)
class Remarked:
    """What marking again showed; `left` answers belong to a question that cannot be made again."""

    looked_at: int
    left: int
    changes: tuple[Change, ...]


def remark(store: Store, bank: Bank, template: str = "") -> Remarked:
    """Mark every stored answer again, or those to one template; stores nothing.

    A question that still reads the same is marked by today's scheme, any other by the scheme it
    was asked with and today's marker.
    """
    looked_at = left = 0
    changes: list[Change] = []
    for learner in store.learners():
        for asking in store.askings(learner):
            if asking.shown or asking.faulty or (template and asking.template != template):
                continue
            question = _question(store, bank, asking)
            ours = [answer for answer in asking.answers if _by_engine(answer)]
            if question is None:
                left += len(ours)
                continue
            looked_at += len(ours)
            changes += _changes(learner, asking, question)
    return Remarked(looked_at, left, tuple(changes))


def _question(store: Store, bank: Bank, asking: AskingRow) -> Question | None:
    then, now = as_asked(store, bank, asking), as_now(bank, asking)
    if then is None or now is None:
        return then
    return now if same_question(then, now) else then


def _by_engine(answer: AnswerRow) -> bool:
    return answer.kind == "answer" and answer.verdict is not None and answer.verdict.by == "engine"


def _changes(learner: Learner, asking: AskingRow, question: Question) -> Iterator[Change]:
    """In the order they were typed, so that earlier values are carried forward as they were."""
    from drill.marking import mark

    earlier: dict[str, Fraction] = {}
    for answer in asking.answers:
        part, old = part_of(question, answer.part), answer.mark
        if answer.kind != "answer" or part is None or old is None:
            continue
        new = mark(part, answer.text, earlier)
        if old.readable and not new.readable:  # it cannot be typed again any more
            new = replace(new, readable=True)
        if new.value is not None:
            earlier.setdefault(part.id, new.value)
        if _by_engine(answer) and _told(new) != _told(old):
            yield Change(learner, asking, answer, old, new)


def _told(mark: Mark) -> tuple[object, ...]:
    """What a change of which is worth a new verdict: marks, points, slip; not the wording."""
    points = {(point.id, point.marks, point.of, point.unsure) for point in mark.points}
    return mark.marks, mark.of, frozenset(points), mark.slip, mark.readable, mark.value


def store_changes(store: Store, bank: Bank, found: Remarked, now: datetime) -> int:
    """Store the new verdicts beside the old ones; returns how many."""
    from drill.marking import MARKER

    marker = f"{MARKER}+{bank.lexicon_hash()}"
    for change in found.changes:
        store.verdict(change.answer.id, "engine", marker, change.new, now)
    return len(found.changes)
