"""What a paper against the clock brought: marks by command word and by skill, and the pace."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from drill.model import Question, Skill
    from drill.sitting import CurrentQuestion

A_MARK = 60.0
"""Seconds that a mark is worth on a paper: about a mark a minute (common practice)."""


@dataclass(frozen=True)
class PaperRow:
    """Marks on one command word or skill; `seconds` a mark, 0 where nothing was answered."""

    name: str
    marks: int
    of: int
    seconds: float


@dataclass(frozen=True)
class PaperResult:
    """A paper handed in. `marks` of `of` is all of it, what was not reached counted as 0.

    `own` of `own_of` marks the learner decided, counted apart; `reached` are the marks of the parts
    that were put.
    """

    marks: int
    of: int
    own: int
    own_of: int
    reached: int
    seconds: float
    allowed: float
    by_word: tuple[PaperRow, ...]
    by_skill: tuple[PaperRow, ...]


def result_of(
    questions: Sequence[Question],
    done: Sequence[CurrentQuestion],
    seconds: Mapping[tuple[bytes, str], float],
    allowed: float,
    says: Mapping[str, Skill],
) -> PaperResult:
    """The figures of a paper.

    Args:
        questions: all of it, in order; `done` those that were put.
        seconds: spent on each part, by its asking and letter.
        allowed: seconds for the whole, with extra time.
        says: the skills, for their names.
    """
    parts = [
        (asked, part, seconds.get((asked.asking, part.id), 0.0))
        for asked in done
        for part in asked.question.parts
        if part.id in asked.marks
    ]
    shares = [asked.shares(part.id) for asked, part, _ in parts]
    words = [
        (asked.question.command_word or "other", asked, part.id, spent)
        for asked, part, spent in parts
    ]
    skills = [
        (says[part.skill].says if part.skill in says else part.skill, asked, part.id, spent)
        for asked, part, spent in parts
    ]
    return PaperResult(
        marks=sum(one.marks for one in shares),
        of=sum(question.marks for question in questions) - sum(one.own_of for one in shares),
        own=sum(one.own for one in shares),
        own_of=sum(one.own_of for one in shares),
        reached=sum(part.marks for _, part, _ in parts),
        seconds=sum(spent for *_, spent in parts),
        allowed=allowed,
        by_word=_rows(words),
        by_skill=_rows(skills),
    )


def _rows(found: Iterable[tuple[str, CurrentQuestion, str, float]]) -> tuple[PaperRow, ...]:
    """A row a name, the one that lost most marks first."""
    totals: dict[str, tuple[int, int, float, int]] = {}
    for name, asked, letter, spent in found:
        marks, of, seconds, put = totals.get(name, (0, 0, 0.0, 0))
        shares = asked.shares(letter)
        put += asked.marks[letter].of
        totals[name] = marks + shares.marks, of + shares.of, seconds + spent, put
    rows = [
        PaperRow(name, marks, of, seconds / put if put else 0.0)
        for name, (marks, of, seconds, put) in totals.items()
    ]
    return tuple(sorted(rows, key=lambda row: (row.marks - row.of, row.name)))
