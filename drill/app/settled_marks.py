"""Marks that a teacher or tutor settled, told once to the learner whose answers they are."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING

from drill.model import LONGEST_REPLY
from drill.plaintext import one_line

if TYPE_CHECKING:
    from drill.bank import Bank
    from drill.store import Learner, OpenMark, Store

_TOLD = "settled told"
_LONGEST = 300


@dataclass(frozen=True)
class SettledMark:
    """What was asked and typed, the marks before and now of how many, who decided and their line.

    `ask` is "" where the question cannot be made as it was.
    """

    day: str
    title: str
    ask: str
    typed: str
    before: int | None
    marks: int
    of: int
    by: str
    reply: str


def newly_settled(store: Store, bank: Bank, who: Learner, now: datetime) -> list[SettledMark]:
    """Those of a learner that they were not told of yet, the oldest answer first; told by this."""
    told = store.setting(who, _TOLD) or "0"
    place = int(told) if told.isascii() and told.isdecimal() else 0
    marks, place_now = store.settled_since(who, place)
    if place_now != place:
        store.set_setting(who, _TOLD, str(place_now), now)
    return [_told(store, bank, mark) for mark in marks]


def _told(store: Store, bank: Bank, mark: OpenMark) -> SettledMark:
    from drill.app.weakness.part_answers import in_words
    from drill.sitting import as_asked, part_of

    verdict, answer = mark.answer.verdict, mark.answer
    assert verdict is not None, "a settled mark has been marked"
    question = as_asked(store, bank, mark.asking)
    ask, option, _ = in_words(answer, part_of(question, answer.part))
    return SettledMark(
        day=answer.when.date().isoformat(),
        title=question.title if question else mark.asking.template,
        ask=one_line(ask, _LONGEST),
        typed=one_line(option or answer.text, _LONGEST),
        before=verdict.before,
        marks=verdict.mark.marks,
        of=verdict.mark.of,
        by=verdict.who,
        reply=one_line(verdict.note or "", LONGEST_REPLY),
    )
