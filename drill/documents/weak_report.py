"""The tutor's first page on one learner: the next lesson, and in twenty lines why.

Texts are cut at a word and to a screen's columns here, since the lines are counted; a page for a
browser or printer gets them whole.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from drill.documents.values import Block, Document, Labelled, Paragraph
from drill.documents.weak_lesson import counts, lesson_lines, where
from drill.documents.weak_words import WIDTH, day, fit, on_lines, percent, share
from drill.plaintext import counted

if TYPE_CHECKING:
    from drill.app.weakness.lesson_item import LessonItem
    from drill.app.weakness.weak import LearnerReport

LINES = 20
PAGE = 400
"""Lines of a screen; columns of a page, which wraps them itself and has room."""


def weak_report(report: LearnerReport, width: int = WIDTH) -> Document:
    """The first page: at most `LINES` lines on a screen of so many columns, `PAGE`: uncut."""
    return Document(fit(_title(report), width), tuple(_blocks(report, width)))


def _title(report: LearnerReport) -> str:
    exam = f"exam in {counted(report.days_left, 'day')}" if report.days_left is not None else ""
    who = f"{report.learner} {report.name}".strip()
    return f"{who}, {day(report.on)}. {report.deck}{f', {exam}' if exam else ''}"


def _blocks(report: LearnerReport, width: int) -> Iterator[Block]:
    if not (report.of or any(row.own_of for row in report.skills)):
        yield Paragraph("Nothing answered yet.")
        return
    first = [practice(report), *standing(report)]
    beside = [pair for pair in _beside(report) if pair[1]]
    room = LINES - 2 - len(first) - len(beside) if width <= WIDTH else PAGE
    names = {row.skill: row.name for row in report.skills}
    lesson = [fit(line, width) for line in lesson_lines(report.lesson, room, width, names)]
    yield Paragraph("\n".join([*(fit(line, width) for line in first), *lesson]))
    yield Labelled(tuple(_spread(beside, room - len(lesson), width - _MARGIN)))


def practice(report: LearnerReport) -> str:
    """Days and minutes done against what was planned."""
    done = report.practised
    return (
        f"Practised on {done.days} of {counted(done.of_days, 'day')}, "
        f"{done.minutes} of {done.planned} planned minutes."
    )


def standing(report: LearnerReport) -> Iterator[str]:
    """The two figures by their names, with what they are of; before there are any, marks earned."""
    met = f"{report.met} of {counted(report.skills_in_deck, 'skill')} met"
    if report.held is None:
        yield f"{report.marks} of {counted(report.of, 'mark')}, {met}."
        return
    yield f"Held today: {share(report.held)} of the marks, if every skill were asked now."
    day = report.on_the_day
    wide = "; only a rough figure" if day and day.high - day.low > _WIDE else ""
    yield f"On the day: {share(day)}, if practised as planned{wide}." if day else f"{met}."


_WIDE = 0.25
"""A range wider than this is called rough."""


# ---------------------------------------------------------------- what stands beside it

_MARGIN = 14
"""Columns of a label."""
_Named = tuple[str, str]
"""A name, which may be cut, and what is told of it, which may not."""


def _beside(report: LearnerReport) -> Iterator[tuple[str, list[_Named]]]:
    """Labels with what there is to name beside each, the most wanted first to get more room."""
    named = {item.mistake for item in report.lesson if item.plain}
    yield "to ask", [("", template) for template in report.ask]
    others = [item for item in report.lesson if not item.plain]
    yield "perhaps", [_perhaps(item) for item in others if not item.slight]
    yield "by chance?", [_perhaps(item) for item in others if item.slight]
    if report.held is not None:
        yield "held least", [(row.name, percent(row.held)) for row in report.held_least]
    made = [one for one in report.mistakes if one.told and one.mistake not in named]
    yield "mistakes", [(one.mistake, where(one)) for one in made if one.plain]
    yield "not tried", [("", name) for name in report.not_tried]
    yield "strong", [(row.name, f"{row.marks} of {row.of}") for row in report.strong]


def _spread(
    beside: Sequence[tuple[str, list[_Named]]], spare: int, width: int
) -> Iterator[tuple[str, str]]:
    """One line each, up to three as long as there are `spare` ones to what is longer."""
    for label, names in beside:
        count = f"{counted(len(names), 'skill')}: " if label == "not tried" else ""
        told = [on_lines(names, lines, width, count) for lines in (1, 2, 3)]
        lines = next(at for at in range(3) if at >= spare or told[at] == told[2])
        spare -= lines
        yield label, told[lines]


def _perhaps(item: LessonItem) -> _Named:
    """What may have come by chance, with the mistake or why it was."""
    why = item.mistake if item.skill else "" if item.mistake else item.why
    return item.name, counts(item) + (f" ({why})" if why else "")
