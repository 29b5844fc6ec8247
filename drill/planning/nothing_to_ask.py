"""Why there is nothing to ask, as a value: it states what was reached, without other praise."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from typing import TYPE_CHECKING

from drill.planning.next_question import NextQuestion

if TYPE_CHECKING:
    from drill.planning.planner import Planner


class Why(StrEnum):
    """The reason there is nothing to ask."""

    EMPTY = "empty"
    """There is no question at all."""
    NOT_TAUGHT = "not taught"
    """Nothing has been taught yet; `until` says when it begins."""
    MINUTES = "minutes"
    """Today's minutes are spent, and more could be asked."""
    HELD = "held"
    """Every skill in play that can be asked is held, and has been answered twice."""
    REST = "rest"
    """What is not held was asked, or shown, a short while ago."""
    TEACHER = "teacher"
    """What is not held was missed again and again: `stuck` is for a teacher to show."""


@dataclass(frozen=True)
class NothingToAsk:
    """`skills`: in play; `met`: answered once or more; `held`: held today and answered twice.

    `stuck`: skills that wait for a teacher; `until`: when something can be asked again, as far as
    known.
    """

    why: Why
    skills: int
    met: int
    held: int
    stuck: tuple[str, ...] = ()
    until: datetime | None = None


def why_nothing(planner: Planner, now: datetime, spent: bool) -> NothingToAsk:
    """The reason there is nothing to ask at `now`; `spent`: today's minutes are."""
    question = NextQuestion(planner, now)
    playing = question.playing
    met = [skill for skill in playing if planner.memory.last_answers(skill).answers]
    held = [skill for skill in met if question.done(skill)]
    open_ = [skill for skill in playing if not question.done(skill)]
    stuck = tuple(skill for skill in open_ if question.waits_for_teacher(skill))
    why, until = _why(planner, now, playing, spent, bool(open_), len(stuck) == len(open_))
    return NothingToAsk(why, len(playing), len(met), len(held), stuck, until)


def _why(
    planner: Planner, now: datetime, playing: list[str], spent: bool, waiting: bool, stuck: bool
) -> tuple[Why, datetime | None]:
    if not any(plan.templates for plan in planner.skills.values()):
        return Why.EMPTY, None
    if not playing:
        lessons = [plan.taught_from for plan in planner.skills.values() if plan.taught_from]
        coming = [lesson for lesson in lessons if lesson > now]
        return Why.NOT_TAUGHT, min(coming, default=None)
    if spent:
        return Why.MINUTES, None
    if not waiting:
        return Why.HELD, None
    return (Why.TEACHER if stuck else Why.REST), None
