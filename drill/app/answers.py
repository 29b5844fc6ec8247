"""Past answers: the question, what was typed, the mark, the correct answer and the scheme."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from itertools import groupby
from typing import TYPE_CHECKING

from drill.app.appeals import options_of
from drill.app.pictures import words_for_picture
from drill.app.weakness.part_answers import part_answers
from drill.errors import DrillError
from drill.plaintext import one_line

if TYPE_CHECKING:
    from drill.app.weakness.part_answers import PartAnswer
    from drill.bank import Bank
    from drill.model import Skill
    from drill.store import Learner, Store

_LONGEST = 1200
"""Characters of what stands before the parts of a question."""


@dataclass(frozen=True)
class AnswerLine:
    """One part answered or left out, with what would have earned all of it.

    `text` stands before the parts of its question, `picture` is its drawing in words, `options`
    are those of a choice or the steps to be put in order.
    `scheme`: its marking points in words, "" where the question cannot be made as it was; `own` of
    `own_of` are marks the learner decided, in no other figure.
    """

    day: str
    skill: str
    template: str
    part: str
    ask: str
    typed: str
    marks: int
    of: int
    own: int
    own_of: int
    passed: bool
    right: str
    scheme: tuple[str, ...]
    mistake: str
    text: str = ""
    picture: str = ""
    options: tuple[str, ...] = ()


@dataclass(frozen=True)
class PastAnswers:
    """The latest of them, and how many there are in all."""

    lines: tuple[AnswerLine, ...]
    of: int


def answers(
    store: Store,
    bank: Bank,
    who: Learner,
    skill: str = "",
    day: date | None = None,
    missed: bool = False,
    most: int | None = None,
) -> PastAnswers:
    """A learner's past answers, the latest question first, its parts in their order.

    Args:
        skill: words that stand in the name of the skill or of its topic; "" for all.
        day: of that day only.
        missed: only those that lost marks.
        most: not more than so many.

    Raises:
        DrillError: no skill answered is called so.
    """
    says = bank.skills()
    rows = part_answers(store, bank, who)
    wanted = _wanted(rows, says, skill) if skill else None
    found = [
        row
        for row in rows
        if (wanted is None or row.skill in wanted)
        and (day is None or row.when.astimezone().date() == day)
        and not (missed and row.is_right)
    ]
    questions = [list(parts) for _, parts in groupby(found, lambda row: row.asking)]
    latest = [row for parts in reversed(questions) for row in parts][:most]
    return PastAnswers(tuple(_line(row, says) for row in latest), len(found))


def _wanted(rows: Iterable[PartAnswer], says: dict[str, Skill], words: str) -> set[str]:
    """The skills answered in whose name all the words stand."""
    answered = {row.skill for row in rows}
    pieces = words.casefold().split()
    found = {one for one in answered if all(piece in _names(one, says) for piece in pieces)}
    if not found:
        known = "; ".join(sorted({says[one].says for one in answered if one in says}))
        raise DrillError(
            f'nothing was answered on "{one_line(words, 60)}". There is: {known or "nothing yet"}.'
        )
    return found


def _names(skill: str, says: dict[str, Skill]) -> str:
    known = says.get(skill)
    return f"{skill} {known.says} {known.family}".casefold() if known else skill


def _line(row: PartAnswer, says: dict[str, Skill]) -> AnswerLine:
    from drill.sitting import part_of

    return AnswerLine(
        day=row.when.astimezone().date().isoformat(),
        skill=says[row.skill].says if row.skill in says else row.skill,
        template=row.template,
        part=row.part,
        ask=row.ask,
        typed=row.typed,
        marks=row.marks,
        of=row.of,
        own=row.own,
        own_of=row.own_of,
        passed=row.passed,
        right=row.right,
        scheme=row.scheme,
        mistake=row.mistake,
        text=one_line(row.question.text, _LONGEST) if row.question else "",
        picture=words_for_picture(row.question),
        options=options_of(part_of(row.question, row.part)),
    )
