"""The next lesson in a tutor's report: three or four lines on each thing, with its evidence."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from drill.app.weakness.lesson_item import FORGOTTEN
from drill.documents.weak_words import day, days, fit, percent
from drill.plaintext import counted, one_line

if TYPE_CHECKING:
    from drill.app.weakness.lesson_item import LessonItem, TwoWeeks
    from drill.app.weakness.mistakes import CommonMistake, Example


def lesson_lines(
    items: Sequence[LessonItem], room: int, width: int, names: Mapping[str, str]
) -> Iterator[str]:
    """Each thing on four lines, or on three where there is no `room` for more.

    Args:
        names: {skill: what it is called}.
    """
    plain = [item for item in items if item.plain]
    if not plain:
        yield "Next lesson: nothing stands out yet."
        return
    yield "Next lesson:"
    for number, item in enumerate(plain, 1):
        marks = counts(item)
        yield f"{number} {fit(item.name, width - len(marks) - 4)}: {marks}"
        shared = _shared(item, plain[: number - 1])
        yield f"  {_joined(_why(item, width), shared, _held(item), width)}"
        longer = number <= room - 1 - 3 * len(plain)
        yield from _evidence(item, width, names, longer)


def _evidence(
    item: LessonItem, width: int, names: Mapping[str, str], longer: bool
) -> Iterator[str]:
    """An answer; one guess tells nothing, so of guesses it is where they were made."""
    if item.guesses:
        often = [names.get(skill, skill) for skill in item.skills]
        told = ("  most often in " + "; ".join(often[:many]) for many in (3, 2))
        yield next((line for line in told if len(line) <= width), f"  most often in {often[0]}")
    elif item.example:
        yield from (_example if longer else _short_example)(item.example, width)


def counts(item: LessonItem) -> str:
    """How often, and how it was before."""
    if item.guesses:
        return f"{item.times} of the {counted(item.chances, 'answer')} that lost marks"
    return where(item) if item.mistake and not item.skill else _marks(item.trend)


def where(made: LessonItem | CommonMistake) -> str:
    """How often a mistake was made, of the answers that let it be made."""
    return f"in {made.times} of {counted(made.chances, 'answer')} where it can be"


def _marks(then: TwoWeeks) -> str:
    if not then.before_of:
        return f"{then.marks} of {counted(then.of, 'mark')}"
    since = f"{then.marks} of {counted(then.of, 'mark')} since {day(then.since)}"
    return f"{since}, {then.before_marks} of {then.before_of} before"


# ---------------------------------------------------------------- why


def _joined(why: str, shared: str, held: str, width: int) -> str:
    """What there is room for, the most wanted first."""
    for more in (shared, held):
        if more and len(why) + len(more) + len("  ; ") <= width:
            why = f"{why}; {more}"
    return why


def _held(item: LessonItem) -> str:
    return f"held today {percent(item.held)}" if item.held is not None else ""


def _shared(item: LessonItem, before: Sequence[LessonItem]) -> str:
    """That a lesson on an earlier thing takes up a part of this one."""
    also = [
        str(number) for number, other in enumerate(before, 1) if {*item.skills} & {*other.skills}
    ]
    return f"shares a skill with {' and '.join(also)}" if also else ""


def _why(item: LessonItem, width: int) -> str:
    """The word, with what tells it."""
    if item.guesses:
        return _guesses(item)
    if item.mistake:
        return f"{fit(item.mistake, 44)}, {where(item)}" if item.skill else _since(item, width)
    if not item.skill:
        return _topic(item)
    way = item.trend.way if item.why == "comes and goes" else ""
    told = [f"{_earned(one.score)} {day(one.date)}" for one in item.evidence[-3:]]
    return f"{item.why}{f' ({way})' if way else ''}: {', '.join(told)}"


def _guesses(item: LessonItem) -> str:
    """Who called them guesses; beside them how many of the right answers were guesses too."""
    told = item.guesses
    assert told is not None
    right = f"{told.right} of {counted(told.answers - item.chances, 'right one')} a guess"
    return f"the learner called {told.said} a guess, {told.fast} came too fast; {right}"


def _since(item: LessonItem, width: int) -> str:
    """A common mistake before and since; the figures alone where there is room for no more."""
    skills = f" in {len(item.skills)} skills" if len(item.skills) > 1 else ""
    made = item.made
    if made is None or not (made.chances and made.before_chances):
        return f"a common mistake{skills}"
    now = f"{made.times} of {made.chances} since {day(made.since)}"
    told = f"{now}, {made.before_times} of {made.before_chances} before"
    whole = f"a common mistake{skills}: {told}"
    return whole if len(whole) + 2 <= width else told


def _topic(item: LessonItem) -> str:
    """A topic, with the days on which it was missed, and how often it was asked since."""
    missed = [one.date for one in item.evidence if one.score < 0.5]
    skills, on = f"{len(item.skills)} skills", days(missed)
    if item.why == FORGOTTEN:
        lately = f"{len(missed)} of {counted(len(item.evidence), 'answer')} missed since"
        return f"{item.why}: {lately}, in {skills}, on {on}"
    return f"{item.why}: {skills} missed, none plainly alone, on {on}"


def _earned(score: float) -> str:
    return "right" if score >= 0.75 else "missed" if score < 0.5 else "half right"


# ---------------------------------------------------------------- an answer


def _example(told: Example, width: int) -> Iterator[str]:
    """When, which question and what it asked; then what was typed and what was right."""
    when, asked = day(told.date), f"{day(told.date)} {fit(told.template, 40)}"
    whole = f"  {asked}: “{told.ask}”" if told.ask else f"  {asked}"
    yield whole if len(whole) <= width else f"  {when} “{_end(told.ask, width - len(when) - 5)}”"
    yield f"  {_typed(told, width - 2)}"


_HOW = ("Give your answer", "Give the answer", "Round ", "Show your working")
_ASKED = 30
"""Columns for a question that shares its line."""


def _short_example(told: Example, width: int) -> Iterator[str]:
    """The same on one line: what was asked as far as there is room, else which question."""
    typed = _typed(told, width - len("  30 Nov “”: ") - _ASKED)
    room = width - len(typed) - len("  30 Nov “”: ")
    asked = f"“{_end(told.ask, room)}”" if told.ask else fit(told.template, room)
    yield f"  {day(told.date)} {asked}: {typed}"


def _end(ask: str, width: int) -> str:
    """What a question asks stands in its last sentences: as many as there is room for.

    How the answer is to be given, which comes after that, is left out first.
    """
    ask = one_line(ask, 2000)
    if len(ask) <= width:
        return ask
    sentences = re.split(r"(?<=[.?!:]) ", ask)
    while len(sentences) > 1 and sentences[-1].startswith(_HOW):
        sentences.pop()
    for first in range(1, len(sentences)):
        end = "… " + " ".join(sentences[first:])
        if len(end) <= width:
            return end
    return fit(sentences[-1], width)


def _typed(told: Example, width: int) -> str:
    """What was typed and what was right, in so many columns."""
    room = width - len("typed “”, right “”")
    typed = fit(told.typed, max(16, room - min(len(told.right), room // 2)))
    right = fit(told.right, max(16, room - len(typed)))
    said = f"typed “{typed}”" if typed else "passed"
    return f"{said}{f', right “{right}”' if right else ''}"
